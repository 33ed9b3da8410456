// readings.ts - which readings stand on the bench, and what is said of each: value at the moment shown, target, how far it swings, what comes later.
// Words and choice only; the numbers are the engine's.
import type * as wire from "../api/types";
import { fixed, properties } from "../lib/format";

export interface ReadingLine {
  key: string;
  name: string;
  unit: string;
  decimals: number;
  /** At the moment shown; null: cannot be given. */
  value: number | null;
  /** Later moments, in order. */
  wake: number[];
  target: (wire.OutlineTarget & { number: number }) | null;
  met: boolean | null;
  untilMinute: number | null;
  spread: { p05: number; p95: number } | null;
  /** How a target on it begins: `serve.abv`. */
  wish: string;
}

// What a drinks developer asks first. The word is that of a target (docs/formula.md).
const always: [string, string][] = [
  ["abv_percent", "abv"],
  ["sugar_percent", "sugar"],
  ["titratable_acidity_g_100g_citric", "acidity"],
  ["ph_25c", "ph"],
  ["temperature_c", "temperature"],
  ["co2_volumes", "co2"],
  ["foam_volume_ml", "foam"],
  ["ice_g", "ice"],
  ["volume_ml", "volume"],
];
const special: Record<string, { name: string; unit: string; decimals: number }> = {
  headroom_ml: { name: "headroom", unit: "mL", decimals: 0 },
  cost: { name: "cost", unit: "a serve", decimals: 2 },
  fill_fraction: { name: "fill", unit: "of the fill line", decimals: 2 },
  pressure_at_service_bar_gauge: { name: "pressure at service", unit: "bar", decimals: 1 },
  overrun_percent: { name: "overrun", unit: "%", decimals: 0 },
  ready_after_h: { name: "ready after", unit: "h", decimals: 1 },
};

type Values = Record<string, unknown>;
const number = (values: Values | undefined, key: string): number | null => {
  const value = values?.[key];
  return typeof value === "number" ? value : null;
};
/** A key's value in the serve of a sheet, at a moment: 0 at service, then as over_time counts. */
export function valueAt(sheet: wire.Sheet, key: string, moment: number): number | null {
  const serve = sheet.serve as (Values & { at_service: Values; over_time: Values[] }) | null;
  if (!serve) return null;
  if (key in serve && typeof serve[key] !== "object") return number(serve, key);
  return number(moment === 0 ? serve.at_service : serve.over_time[moment - 1], key);
}

function spreadOf(scatter: wire.Scattered | null, key: string, where: string): { p05: number; p95: number } | null {
  const row = scatter?.properties.find((one) => one.key === key && one.where === where);
  return row && row.p05 !== null && row.p95 !== null ? { p05: row.p05, p95: row.p95 } : null;
}

/** The readings of the serve, then every other target the document has. */
export function readingsOf(sheet: wire.Sheet, outline: wire.Outline, scatter: wire.Scattered | null, moment: number): ReadingLine[] {
  const later = sheet.serve?.over_time.length ?? 0;
  const targets = outline.targets.map((target, i) => ({ ...target, number: i + 1 }));
  const line = (key: string, word: string, where: string, target: ReadingLine["target"]): ReadingLine => {
    const known = properties[key] ?? special[key] ?? { name: word.replaceAll("_", " "), unit: target?.unit ?? "", decimals: 1 };
    const judged = target ? sheet.targets[target.number - 1] : undefined;
    const ofServe = where === "serve";
    return {
      key,
      ...known,
      name: ofServe ? known.name : `${known.name}, ${where}`,
      value: ofServe && target?.at_minute == null ? (valueAt(sheet, key, moment) ?? judged?.value ?? null) : (judged?.value ?? null),
      wake: ofServe ? Array.from({ length: later }, (_, i) => valueAt(sheet, key, i + 1)).filter((v): v is number => v !== null) : [],
      target,
      met: judged?.met ?? null,
      untilMinute: judged?.until_minute ?? null,
      spread: target?.at_minute == null ? spreadOf(scatter, key, where) : null,
      wish: `${ofServe ? "serve" : `'${where}'`}.${word}`,
    };
  };
  const lines: ReadingLine[] = [];
  const taken = new Set<number>();
  for (const [key, word] of always) {
    const own = targets.filter((target) => target.where === "serve" && target.property === word);
    for (const target of own) taken.add(target.number);
    const there = valueAt(sheet, key, 0);
    if (own.length === 0 && (there === null || (there === 0 && key !== "temperature_c"))) continue;
    if (!sheet.serve) continue;
    for (const target of own.length ? own : [null]) lines.push(line(key, word, "serve", target));
  }
  for (const target of targets.filter((one) => !taken.has(one.number))) lines.push(line(target.key, target.property, target.where, target));
  if (sheet.serve && !targets.some((one) => one.property === "headroom")) lines.push(line("headroom_ml", "headroom", "serve", null));
  return lines;
}

/** `8–11`, `0.7 or more`, `12 or less`, `9`, in the wire's unit. */
export function bandWords(target: wire.OutlineTarget, decimals: number): string {
  const say = (value: number): string =>
    fixed(value, Math.max(decimals, value % 1 === 0 ? 0 : 1))
      .replace(/(\.\d*?)0+$/, "$1")
      .replace(/\.$/, "");
  const { low, high } = target;
  if (low !== null && high !== null) return low === high ? say(low) : `${say(low)}–${say(high)}`;
  if (low !== null) return `${say(low)} or more`;
  if (high !== null) return `${say(high)} or less`;
  return target.text;
}

/** What stands under a reading's line: `in, until 18 min`, `out`, `no target`. */
export function standing(line: ReadingLine): { word: string; tone: "in" | "out" | "none" } {
  if (!line.target) return { word: "no target", tone: "none" };
  if (line.met === null) return { word: "cannot be judged", tone: "out" };
  const low = line.target.low;
  const side = line.value !== null && low !== null && line.value < low ? "under" : "over";
  if (!line.met) return { word: line.target.low === line.target.high ? "off" : side, tone: "out" };
  return { word: line.untilMinute ? `in, until ${fixed(line.untilMinute, 0)} min` : "in", tone: "in" };
}

/** One sentence for ears. */
export function spoken(line: ReadingLine): string {
  const say = (value: number): string => fixed(value, line.decimals);
  const value = line.value === null ? "cannot be given" : `${say(line.value)} ${line.unit}`.trim();
  const swing = line.spread ? `, likely ${say(line.spread.p05)} to ${say(line.spread.p95)}` : "";
  const wish = line.target ? `, target ${bandWords(line.target, line.decimals)}, ${standing(line).word}` : "";
  return `${line.name} ${value}${swing}${wish}`;
}
