// columns.ts - where the steps stand from left to right. A step's column is one more than the largest column among what feeds it (longest path); a side
// arm stands half a column before the step it meets. Column 0 is the labels' edge, the last one the gate. A gap is as wide as the words above its two
// bars need, where there is room; else all gaps shrink together, and words go to a second line.
import type { Group, Model } from "./model";

export const barWidth = 9;
const narrowest = 30;

/** Column of every bar: whole numbers, halves for side arms. */
export function columnsOf(model: Model): Map<string, number> {
  const columns = new Map<string, number>();
  const walk = (id: string, deep: number): number => {
    const known = columns.get(id);
    if (known !== undefined) return known;
    const bar = model.bars.get(id);
    if (!bar || deep > 400) return 0;
    let column = 1;
    for (const flow of bar.ins) {
      if (flow.kind === "main" || flow.kind === "strand") column = Math.max(column, 1 + walk(flow.from, deep + 1));
      if (flow.kind === "arm") column = Math.max(column, 2, 0.5 + walk(flow.from, deep + 1));
    }
    column = Math.ceil(column);
    columns.set(id, column);
    return column;
  };
  for (const bar of model.bars.values()) walk(bar.id, 0);
  for (const bar of model.bars.values()) {
    const target = bar.arm ? bar.outs.find((flow) => flow.kind === "arm")?.to : undefined;
    if (target !== undefined) columns.set(bar.id, (columns.get(target) ?? 2) - 0.5);
  }
  return columns;
}

/** x of the left edge of each whole column's bars, from 0 (the labels' edge) to the gate. `widths` are those of the words above each bar. */
export function placed(
  groups: readonly Group[],
  columns: Map<string, number>,
  widths: Map<string, number>,
  from: number,
  to: number,
): number[] {
  const last = Math.max(0, ...[...columns.values()].map(Math.ceil)) + 1;
  const need = Array.from({ length: last + 1 }, () => narrowest);
  const tight = [...need];
  const ask = (column: number, gap: number): void => {
    if (need[column] !== undefined) need[column] = Math.max(need[column], gap);
  };
  for (const group of groups) {
    const chain = group.bars.filter((bar) => !bar.arm);
    let before = { column: 0, width: -barWidth };
    for (const bar of chain) {
      const column = columns.get(bar.id) ?? 1;
      const width = widths.get(bar.id) ?? 0;
      const spans = column - before.column;
      const gap = (before.width + width) / 2 + 9;
      for (let c = before.column + 1; c <= column; c++) ask(c, gap / spans);
      before = { column, width };
    }
    const gateWords = widths.get(`gate:${group.part}`) ?? 0;
    const spans = last - before.column;
    if (spans > 0) ask(last, Math.max(before.width / 2 + 14, before.width / 2 + gateWords + 20) / spans);
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
