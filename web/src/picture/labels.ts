// labels.ts - the words above the bars. Act, then what is written of it, one under the other, on common base lines; where two neighbours would come
// nearer than 8 px, the later one goes to a line above. Pure: widths come from type.ts.
import type * as wire from "../api/types";
import type { Bar } from "./model";
import { broken, textWidth } from "./type";
import { readable, shownKeys } from "./words";

export const actSize = 14;
export const condSize = 12.5;
const actHigh = 17;
const condHigh = 15;
const apart = 8;

export interface Cond {
  key: string;
  text: string;
  place: wire.Place | null;
  shown: string;
  lines: number;
}
export interface Block {
  id: string;
  act: string;
  conds: Cond[];
  w: number;
  h: number;
}
export interface Placed extends Block {
  x: number;
  y: number;
  align: "middle" | "end" | "start";
  tier: number;
}

/** The words of a step: as wide as its widest line, at most `most` px where words can be broken. `answers` are the engine's, behind what is written. */
export function block(id: string, step: wire.OutlineStep, most: number, answers: readonly string[] = []): Block {
  const conds: Cond[] = [];
  let w = textWidth(step.do, actSize, "strong");
  for (const key of shownKeys) {
    const found = step.conditions.find((one) => one.key === key);
    if (!found || conds.length === 4) continue;
    const shown = readable(found.text, key);
    const lines = broken(shown, most, condSize);
    w = Math.max(w, ...lines.map((line) => textWidth(line, condSize)));
    conds.push({ ...found, shown, lines: lines.length });
  }
  for (const shown of answers) {
    w = Math.max(w, textWidth(shown, condSize));
    conds.push({ key: shown, text: shown, place: null, shown, lines: 1 });
  }
  return { id, act: step.do, conds, w: Math.ceil(w) + 2, h: actHigh + conds.reduce((sum, one) => sum + one.lines, 0) * condHigh };
}

/** All words of one step on one line, for a side arm. */
export function oneLine(bar: Bar): Block {
  const long = block(bar.id, bar.outline, 1e6);
  const w = textWidth(long.act, actSize, "strong") + long.conds.reduce((sum, one) => sum + 7 + textWidth(one.shown, condSize), 0);
  return { ...long, w: Math.ceil(w) + 2, h: actHigh };
}

export interface Wanted {
  block: Block;
  /** Of its middle, or of its right end. */
  x: number;
  align: "middle" | "end";
}
/**
 * Gives each block a line and says how high all of them are. y counts from the top of the band. Both ways of going through them are tried, from the left
 * and from the right; the lower band is taken.
 */
export function tiers(wanted: readonly Wanted[], from: number, to: number): { placed: Placed[]; height: number } {
  const blocks = wanted
    .map((one) => {
      const left = one.align === "end" ? one.x - one.block.w : one.x - one.block.w / 2;
      return { ...one, left: Math.max(from, Math.min(left, to - one.block.w)) };
    })
    .sort((a, b) => a.left + a.block.w / 2 - (b.left + b.block.w / 2));
  const [first, second] = [lined(blocks), lined(blocks.toReversed())];
  return second.height < first.height ? second : first;
}

function lined(blocks: readonly (Wanted & { left: number })[]): { placed: Placed[]; height: number } {
  const taken: { left: number; right: number }[][] = [];
  const highest: number[] = [];
  const rows = blocks.map((one) => {
    const right = one.left + one.block.w;
    let tier = taken.findIndex((line) => line.every((other) => one.left >= other.right + apart || other.left >= right + apart));
    if (tier < 0) tier = taken.push([]) - 1;
    taken[tier]!.push({ left: one.left, right });
    highest[tier] = Math.max(highest[tier] ?? 0, one.block.h);
    return { ...one, tier };
  });
  const sum = (heights: readonly number[]): number => heights.reduce((total, one) => total + one + 4, 0);
  const placed = rows.map((one) => ({ ...one.block, x: one.left, y: sum(highest.slice(one.tier + 1)), align: one.align, tier: one.tier }));
  return { placed: placed.sort((a, b) => a.x - b.x), height: sum(highest) };
}
