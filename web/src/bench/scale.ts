// scale.ts - the serves one may press: the steps of the rule, with the one that is written always among them, and where one fill no longer reaches.
import type * as wire from "../api/types";

const steps = [1, 2, 4, 6, 8, 12, 16, 20, 24, 32, 36, 48];

/** The rule's numbers, `serves` among them. */
export const ruleOf = (serves: number): number[] => [...new Set([...steps, serves])].sort((a, b) => a - b);

/** The most serves that what is made ahead reaches for, and the part that runs out first; null: nothing made ahead is used. */
export function reachOf(sheet: wire.Sheet): { serves: number; part: string } | null {
  let first: { serves: number; part: string } | null = null;
  for (const part of sheet.parts) {
    const portions = part.siphon?.portions;
    if (portions === null || portions === undefined) continue;
    if (!first || portions < first.serves) first = { serves: portions, part: part.name };
  }
  return first;
}
