// cautions.ts - which findings a cook sees at a step: those that speak of it, the heaviest first, then the usual cautions. Nothing twice. Notes on how
// the engine reckons are for the bench, not for the stove.
import type { CounterStep, Finding } from "../api/types";

export interface Caution {
  severity: Finding["severity"];
  says: string;
}
const ofReckoning = ["assumption", "range_left", "value_missing", "left_over", "pieces_rounded"];
const order: Finding["severity"][] = ["stop", "mind", "note"];

export function cautionsOf(step: CounterStep, findings: Finding[]): Caution[] {
  const found = step.findings
    .flatMap((index) => findings[index] ?? [])
    .filter((one) => one.severity !== "note" || !ofReckoning.includes(one.code));
  const all: Caution[] = [
    ...order.flatMap((severity) => found.filter((one) => one.severity === severity).map(({ says }) => ({ severity, says }))),
    ...step.cautions.filter((says) => !findings.some((one) => one.says === says)).map((says) => ({ severity: "note" as const, says })),
  ];
  return all
    .filter((one, index) => all.findIndex((other) => other.says === one.says) === index)
    .map((one) => ({ ...one, says: sentence(one.says) }));
}
/** A sentence of what the engine says in half ones. */
export const sentence = (says: string): string => says.charAt(0).toUpperCase() + says.slice(1) + (/[.!?]$/.test(says) ? "" : ".");
