// lines.ts - the lines of a text with the faults that stand on them. Lines count from 1, as everywhere on the wire.
import type { Fault } from "../api/types";

export interface Line {
  number: number;
  /** Characters on it, for placing what stands behind it. */
  length: number;
  faults: Fault[];
}
export function linesOf(text: string, faults: Fault[]): Line[] {
  return text.split("\n").map((line, index) => ({
    number: index + 1,
    length: line.length,
    faults: faults.filter((fault) => fault.line === index + 1),
  }));
}
/** Faults that stand on no line of this text. */
export const homeless = (text: string, faults: Fault[]): Fault[] => {
  const count = text.split("\n").length;
  return faults.filter((fault) => fault.line === null || fault.line < 1 || fault.line > count);
};
/** Where a line begins and ends in the text: to put the caret there. */
export function spanOf(text: string, number: number): { begin: number; end: number } {
  const lines = text.split("\n");
  const begin = lines.slice(0, number - 1).reduce((sum, line) => sum + line.length + 1, 0);
  return { begin, end: begin + (lines[number - 1]?.length ?? 0) };
}
