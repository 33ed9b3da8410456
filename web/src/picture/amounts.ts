// amounts.ts - what a row's amount comes to: a percent in grams, grams in percent of the base, one serve in grams for all.
import { percent, roughGrams } from "../lib/format";
import type { Group, Row } from "./model";

/** Written as a percent: then it stands on the right, and grams answer on the left. */
export const isShare = (row: Row): boolean => row.take?.amount_kind === "percent" || row.take?.amount_kind === "percent_total";
const isAhead = (group: Group): boolean => group.outline?.made === "ahead";

/** Grams on the left of what was not written as an amount; else nothing: the pen stands there. */
export function answeredGrams(row: Row, group: Group): string {
  if (row.kind === "idle" && !row.take) return "";
  if (row.take && !isShare(row) && row.kind !== "drunk") return "";
  const facts = row.facts?.mass_g;
  return roughGrams(isAhead(group) || facts === null || facts === undefined ? row.gross : facts);
}

/** The last column. */
export function comesTo(row: Row, group: Group): string {
  if (row.maybe) return "if you like";
  if (row.kind === "batch" || (row.kind === "idle" && !row.take) || isShare(row)) return "";
  if (row.kind === "ice" && row.mass < row.gross) return `${roughGrams(row.mass)} melt`;
  if (row.mass < row.gross) return `${roughGrams(row.mass)} kept`;
  const share = row.facts?.percent_of_base;
  if (isAhead(group) && row.take?.amount_kind !== "pieces" && share !== null && share !== undefined) return percent(share);
  return row.gross > 0 ? roughGrams(row.gross) : "";
}
