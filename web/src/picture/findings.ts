// findings.ts - what each finding speaks of in the picture: a take's row, a step's bar, what stays, a group, or the whole.
import type * as wire from "../api/types";
import type { Group, Model } from "./model";

export interface Mark {
  /** take:P.S.T, step:P.S, stay:P, group:P; `whole`. */
  at: string;
  part: number;
  /** Indices into the sheet's findings, the heaviest first. */
  findings: number[];
  severity: "stop" | "mind" | "note";
}
const weights = ["stop", "mind", "note"] as const;

function anchor(finding: wire.Finding, model: Model): { at: string; part: number } {
  const where = finding.where;
  if (where.part === null) return { at: "whole", part: -1 };
  const group: Group | undefined = model.groups.find((one) => (one.serve ? where.part === "serve" : one.name === where.part));
  if (!group) return { at: "whole", part: -1 };
  const { part } = group;
  if (finding.code === "left_over" || finding.code === "short") return { at: `stay:${part}`, part };
  if (where.step !== null && !group.folded) {
    const take = `take:${part}.${where.step}.${where.take ?? 0}`;
    if (where.take !== null && model.rows.has(take)) return { at: take, part };
    const bar = `step:${part}.${where.step}`;
    if (model.bars.has(bar)) return { at: bar, part };
    const row = group.rows.find((one) => one.step === where.step);
    if (row) return { at: row.id, part };
  }
  return { at: `group:${part}`, part };
}

/** One mark a place, with the shape of its heaviest finding. */
export function marksOf(findings: readonly wire.Finding[], model: Model): Mark[] {
  const marks = new Map<string, Mark>();
  findings.forEach((finding, index) => {
    const { at, part } = anchor(finding, model);
    const mark = marks.get(at) ?? { at, part, findings: [], severity: "note" };
    mark.findings.push(index);
    marks.set(at, mark);
  });
  for (const mark of marks.values()) {
    const weight = (index: number): number => weights.indexOf(findings[index]!.severity);
    mark.findings.sort((a, b) => weight(a) - weight(b) || a - b);
    mark.severity = findings[mark.findings[0]!]!.severity;
  }
  return [...marks.values()];
}
