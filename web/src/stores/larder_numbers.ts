// larder_numbers.ts - the numbers of a thing: how each is called, its unit, and the key under which a larder document writes it.
import type { LarderNumbers, ThingVaries } from "../api/types";
import { fixed, percent } from "../lib/format";

export interface NumberKind {
  key: keyof LarderNumbers;
  word: string;
  unit: string;
  decimals: number;
  /** As a larder document writes it, and its unit there. */
  writes: string;
  writesUnit: string;
  /** Whether what is in force reads the same as what would be written. */
  same: boolean;
}
const kind = (
  key: keyof LarderNumbers,
  word: string,
  unit: string,
  decimals: number,
  writes: string,
  writesUnit = unit,
  same = true,
): NumberKind => ({
  key,
  word,
  unit,
  decimals,
  writes,
  writesUnit,
  same,
});
export const numberKinds: NumberKind[] = [
  kind("brix", "dissolved solids", "°Bx", 1, "brix"),
  kind("acid_percent", "acidity as citric", "%", 2, "acid_g_l", "g/L", false),
  kind("ph", "pH", "", 2, "ph"),
  kind("strength_percent", "strength", "% vol", 1, "strength"),
  kind("co2_g_l", "dissolved gas", "g/L CO₂", 1, "co2_g_l"),
  kind("density_kg_m3", "density", "kg/m³", 0, "density", "kg/m³", false),
  kind("piece_g", "one piece", "g", 1, "piece_g"),
  kind("yield_percent", "yield", "% of bought", 0, "yield", "g/g", false),
  kind("bloom", "gel strength", "Bloom g", 0, "bloom"),
  kind("storage_c", "enters at", "°C", 0, "storage_c"),
];

/** The numbers that a thing has, as they stand on the page. */
export function told(numbers: LarderNumbers): { kind: NumberKind; value: string }[] {
  return numberKinds.flatMap((one) => {
    const value = numbers[one.key];
    return value === null ? [] : [{ kind: one, value: `${fixed(value, one.decimals)}${one.unit ? `\u00a0${one.unit}` : ""}` }];
  });
}
const properties: Record<string, string> = {
  brix: "dissolved solids",
  acid: "acidity",
  ph: "pH",
  strength: "strength",
  piece: "one piece",
  density: "density",
};
/** `dissolved solids ± 6 %`: one standard deviation. */
export function variesWords(one: ThingVaries): string {
  const name = properties[one.property.replace(/_.*$/, "")] ?? one.property.replaceAll("_", " ");
  if (one.width === null) return name;
  return `${name} ± ${one.relative ? percent(100 * one.width) : fixed(one.width, 2)}`;
}
/** A typed number of a form: `12`, `12.5`, `12,5`; null: cannot be read. */
export function typedNumber(text: string): number | null {
  const found = /^\s*([+-]?\d+(?:[.,]\d+)?)\s*$/.exec(text.replace("−", "-"));
  return found?.[1] ? Number(found[1].replace(",", ".")) : null;
}
