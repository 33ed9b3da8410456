// columns.ts - where the steps stand from left to right. A step's column is one more than the largest column among what feeds it (longest path). A chain
// with fewer steps than the longest one shares the same room: a bar stands at the share of the longest path through it that lies before it, so that what
// feeds is always left of what is fed. A side arm stands half way before the step it meets.
//
// Column 0 is the labels' edge, the last one the gate. A gap is as wide as the words above its two bars need, where there is room; else all gaps shrink
// together, and words go to a second line.
import type { Bar, Group, Model } from "./model";

export const barWidth = 9;
const narrowest = 30;

export interface Columns {
  /** Column of every bar of a chain, between 0 and `last`; whole numbers on the longest path. */
  of: Map<string, number>;
  last: number;
}

export function columnsOf(model: Model): Columns {
  const before = new Map<string, number>();
  const after = new Map<string, number>();
  const walk = (bar: Bar | undefined, known: Map<string, number>, next: (bar: Bar) => (string | null)[]): number => {
    if (!bar) return 0;
    const found = known.get(bar.id);
    if (found !== undefined) return found;
    known.set(bar.id, 1); // a ring of parts cannot be written; this ends the walk all the same
    const steps = next(bar).map((id) => (id === null ? 0 : walk(model.bars.get(id), known, next)));
    const column = 1 + Math.max(0, ...steps);
    known.set(bar.id, column);
    return column;
  };
  // What feeds a side arm feeds the step it meets.
  const feeds = (bar: Bar): string[] =>
    bar.ins.flatMap((flow) =>
      flow.kind === "arm" ? feeds(model.bars.get(flow.from)!) : flow.kind === "main" || flow.kind === "strand" ? [flow.from] : [],
    );
  const meets = (id: string): string => {
    const bar = model.bars.get(id);
    return bar?.arm ? (bar.outs.find((flow) => flow.kind === "arm")?.to ?? id) : id;
  };
  const chain = [...model.bars.values()].filter((bar) => !bar.arm);
  for (const bar of chain) {
    walk(bar, before, feeds);
    walk(bar, after, (one) => one.outs.flatMap((flow) => (flow.kind === "main" || flow.kind === "strand" ? [meets(flow.to)] : [])));
  }
  const last = 1 + Math.max(0, ...before.values());
  const of = new Map(chain.map((bar) => [bar.id, (before.get(bar.id)! / (before.get(bar.id)! + after.get(bar.id)!)) * last]));
  return { of, last };
}

/** x of the left edge of each whole column's bars, from 0 (the labels' edge) to the gate. `widths` are those of the words above each bar. */
export function placed(groups: readonly Group[], columns: Columns, widths: Map<string, number>, from: number, to: number): number[] {
  const { last } = columns;
  const need = Array.from({ length: last + 1 }, () => narrowest);
  const tight = [...need];
  const ask = (column: number, gap: number): void => {
    if (need[column] !== undefined) need[column] = Math.max(need[column], gap);
  };
  for (const group of groups) {
    const chain = group.bars.filter((bar) => !bar.arm);
    let before = { column: 0, width: -barWidth };
    for (const bar of chain) {
      const column = columns.of.get(bar.id) ?? 1;
      const width = widths.get(bar.id) ?? 0;
      const gap = (before.width + width) / 2 + 9;
      for (let c = Math.floor(before.column) + 1; c <= Math.ceil(column); c++) ask(c, gap / (column - before.column));
      before = { column, width };
    }
    const gateWords = widths.get(`gate:${group.part}`) ?? 0;
    for (let c = Math.floor(before.column) + 1; c <= last; c++) ask(c, (before.width / 2 + gateWords + 20) / (last - before.column));
  }
  const sum = (gaps: number[]): number => gaps.slice(1).reduce((total, gap) => total + gap, 0);
  const room = to - from;
  const [wanted, least] = [sum(need), sum(tight)];
  const share = wanted <= room ? 1 : Math.max(0, (room - least) / Math.max(1, wanted - least));
  const gaps = need.map((gap, i) => tight[i]! + (gap - tight[i]!) * share);
  const rest = Math.max(0, room - sum(gaps)) / last;
  const squeeze = Math.min(1, room / Math.max(1, sum(gaps)));
  const at = [from];
  for (let column = 1; column <= last; column++) at.push(at[column - 1]! + (gaps[column]! + rest) * squeeze);
  return at;
}

/** x at a column that need not be whole. */
export function xAt(xs: readonly number[], column: number): number {
  const low = xs[Math.floor(column)] ?? 0;
  const high = xs[Math.ceil(column)] ?? low;
  return Math.round(low + (high - low) * (column - Math.floor(column)));
}
