// words.ts - how what is written reads in the picture: `70 C` as 70 °C, `3-5 h` as 3–5 h, a charge count with its word; and the engine's words for losses.
import type * as wire from "../api/types";
import { counted, plural, roughGrams } from "../lib/format";

/** Conditions that stand above a bar, in this order; all others are in the table. `ice` is a row. */
export const shownKeys = ["to", "at", "until", "with", "pressure", "charges", "in", "vessel", "by", "time"];

export function readable(text: string, key = ""): string {
  const plain = text
    .replace(/^([\d./ ]+) pieces?$/, "$1")
    .replace(/(?<=\d)\s*-\s*(?=\d)/g, "–")
    .replace(/(?<=\d) ([CF])\b/g, "\u00a0°$1")
    .replace(/(?<=\d) (?=[%a-zA-Zµ])/g, "\u00a0");
  if (key === "charges") return text === "1" ? "1\u00a0charge" : `${text}\u00a0charges`;
  if (key === "until") return `until ${plain}`;
  return key === "purged" || key === "hard" || key === "by" ? `${key} ${plain}` : plain;
}

/** `cane spirit (40 %vol)` as cane spirit, 40 %: what is said of a thing stands behind it. */
export const thingName = (label: string): string =>
  label.replace(/\s*\(([^)]*)\)$/, (_, said: string) => `, ${said.replaceAll("%vol", "%")}`);

/** What a condition is, for ears and for undo. */
export const conditionName = (key: string): string =>
  ({ to: "ends at", at: "held at", in: "where", by: "cleared by", with: "torch" })[key] ?? key;

const lossWords: Record<string, string> = { evaporates: "steam", sticks: "clings", stays: "left out", gas: "gas", drains: "drains" };
export const lossWord = (kind: string): string => lossWords[kind] ?? kind;

/** `4.0 g steam`; of several kinds the heaviest gives the word, unless it is less than half. */
export function lossText(mass: number, losses: readonly { kind: string; mass: number }[]): string {
  const first = losses[0];
  const word = first && first.mass >= mass * 0.5 ? lossWord(first.kind) : "lost";
  return `${roughGrams(mass)} ${word}`;
}

/** `ahead, one batch`; `to order, one serve`. */
export function madeText(part: wire.OutlinePart, facts: wire.SheetPart | null): string {
  return part.made === "ahead" ? `ahead, ${plural(facts?.batches ?? 1, "batch", "batches")}` : "to order, one serve";
}

/** What stands left of the gate, above it: `one batch and 3 rounds, grams`. */
export function gateText(sheet: wire.Sheet): string {
  const batches = sheet.parts.filter((one) => one.made === "ahead").reduce((sum, one) => sum + (one.batches ?? 1), 0);
  const rounds = sheet.parts.filter((one) => one.made === "to order").reduce((sum, one) => sum + one.rounds, 0);
  const words = [batches ? plural(batches, "batch", "batches") : "", rounds ? plural(rounds, "round") : ""].filter(Boolean);
  return `${words.join(" and ") || plural(sheet.serves, "serve")}, grams`;
}

export const forServes = (serves: number): string => `for ${counted(serves)}`;
