// ledger.ts - the flow as lines of a table, the picture's equal: parts in the picture's order, in each the takes of a step and then the step, and with
// every line the findings that speak of it.
import type * as wire from "../api/types";
import { roughGrams } from "../lib/format";
import { marksOf } from "./findings";
import { makeModel, type Group, type Row } from "./model";
import { inOrder } from "./order";
import { lossText } from "./words";

export type Line =
  | ({ kind: "head"; id: string; group: Group } & Noted)
  | ({ kind: "take"; id: string; group: Group; row: Row; share: number } & Noted)
  | ({ kind: "step"; id: string; group: Group; step: wire.OutlineStep; after: string; lost: string } & Noted)
  | ({ kind: "stay"; id: string; group: Group; says: string } & Noted)
  | { kind: "finding"; id: string; index: number; finding: wire.Finding };
/** The notes that a line bears: for eyes they open at a press, what is graver stands below the line always. */
interface Noted {
  notes: number[];
}

export function ledgerOf(sheet: wire.Sheet, outline: wire.Outline): Line[] {
  const model = makeModel(sheet, outline, new Set());
  const groups = inOrder(model);
  const marks = new Map(marksOf(sheet.findings, model).map((mark) => [mark.at, mark.findings]));
  const heaviest = Math.max(1, ...[...model.rows.values()].map((row) => row.mass));
  const lines: Line[] = [];
  const found = (at: string): void => {
    for (const index of marks.get(at) ?? []) lines.push({ kind: "finding", id: `${at}:${index}`, index, finding: sheet.findings[index]! });
  };
  const notes = (at: string): number[] => (marks.get(at) ?? []).filter((index) => sheet.findings[index]!.severity === "note");
  for (const group of groups) {
    lines.push({ kind: "head", id: `head:${group.part}`, group, notes: notes(`group:${group.part}`) });
    found(`group:${group.part}`);
    for (const step of group.steps) {
      for (const row of group.rows.filter((one) => one.step === step.number && (one.take !== null || one.kind !== "idle"))) {
        lines.push({ kind: "take", id: row.id, group, row, share: row.mass / heaviest, notes: notes(row.id) });
        found(row.id);
      }
      const id = `step:${group.part}.${step.number}`;
      const bar = model.bars.get(id);
      const after = bar ? bar.outs.filter((flow) => flow.to !== "loss").reduce((sum, flow) => sum + flow.mass, 0) : 0;
      const lost = bar?.outs.filter((flow) => flow.kind === "loss").reduce((sum, flow) => sum + flow.mass, 0) ?? 0;
      lines.push({
        kind: "step",
        id,
        group,
        step,
        after: after > 0 ? roughGrams(after) : "",
        lost: lost > 0 ? lossText(lost, bar?.losses ?? []) : "",
        notes: notes(id),
      });
      found(id);
    }
    if (group.stays > 0 || group.short > 0) {
      const says = group.stays > 0 ? `${roughGrams(group.stays)} stay` : `${roughGrams(group.short)} short`;
      lines.push({ kind: "stay", id: `line-stay:${group.part}`, group, says, notes: notes(`stay:${group.part}`) });
      found(`stay:${group.part}`);
    }
  }
  return lines;
}
