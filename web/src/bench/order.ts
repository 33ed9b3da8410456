// order.ts - findings in the order of their weight; the engine's order within.
import type * as wire from "../api/types";

const weight = { stop: 0, mind: 1, note: 2 } as const;

export function inOrder(findings: readonly wire.Finding[]): { finding: wire.Finding; index: number }[] {
  return findings
    .map((finding, index) => ({ finding, index }))
    .sort((a, b) => weight[a.finding.severity] - weight[b.finding.severity] || a.index - b.index);
}
