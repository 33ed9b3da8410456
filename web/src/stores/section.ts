// section.ts - a vessel in section, in millimetres: straight between the points of its inside outline, bottom up. Geometry only.
import type { KitVessel } from "../api/types";

export interface Section {
  width: number;
  height: number;
  /** Path of the inside, open at the brim; y runs down from the brim. */
  path: string;
}
const wall = 4;

/** null: no outline is told. */
export function sectionOf(vessel: KitVessel): Section | null {
  const points = vessel.inside_mm.flatMap(([height, radius]) =>
    height === null || height === undefined || radius === null || radius === undefined ? [] : [{ height, radius }],
  );
  const brim = points.at(-1);
  if (points.length < 2 || !brim) return null;
  const widest = Math.max(...points.map((point) => point.radius));
  const middle = widest + wall;
  const at = (height: number, x: number): string => `${round(x)} ${round(brim.height - height)}`;
  const left = [...points].reverse().map((point) => at(point.height, middle - point.radius));
  const right = points.map((point) => at(point.height, middle + point.radius));
  return { width: 2 * middle, height: brim.height, path: `M${[...left, ...right].join("L")}` };
}
const round = (value: number): number => Math.round(value * 100) / 100;

/** Where a fill line stands between empty (0) and the brim (1); null: none is told. */
export function fillAt(vessel: KitVessel): number | null {
  const { fill_line_ml: fill, brim_ml: brim } = vessel;
  return fill === null || brim === null || brim <= 0 ? null : Math.min(1, fill / brim);
}

const kindWords: Record<string, string> = {
  glass: "glasses and cups",
  siphon: "siphons",
  bottle: "pressure bottles",
  shaker: "to shake, stir and blend",
  mixing_glass: "to shake, stir and blend",
  blender: "to shake, stir and blend",
  pan: "pans, trays and moulds",
  tray: "pans, trays and moulds",
};
/** Vessels by what they are for, glasses first. */
export function byKind(vessels: KitVessel[]): { kind: string; vessels: KitVessel[] }[] {
  const words = [...new Set([...Object.values(kindWords), "other"])];
  return words
    .map((kind) => ({ kind, vessels: vessels.filter((vessel) => (kindWords[vessel.kind] ?? "other") === kind) }))
    .filter((group) => group.vessels.length > 0);
}
