// weigh.ts - sums of a scale at the counter: what is still to pour, what good enough looks like, and where the same thing goes in again later.
// Only what a cook would do in the head: takes away and adds what was typed. All amounts themselves are the engine's.
import type { Course, CounterTake } from "../api/types";
import { gotKey, type Make } from "./make";

export interface Goal {
  amount: number;
  /** What is good enough; null: not told, or counted. */
  low: number | null;
  high: number | null;
  counted: boolean;
  /** Whether there is a number at all: what is only `maybe` is in no balance. */
  told: boolean;
}
const amountOf = (take: CounterTake): number => take.pieces ?? take.mass_g ?? 0;

/** How much more of a thing went in at earlier goes than is good enough: the later ones take that much less. */
function surplusBefore(make: Make, course: Course, step: number, take: number): number {
  const thing = course.steps[step]?.takes[take]?.thing;
  let carried = 0;
  course.steps.slice(0, step + 1).forEach((one, s) =>
    one.takes.forEach((other, t) => {
      const got = make.got[gotKey(s, t)];
      if (other.thing !== thing || got === undefined || (s === step && t >= take)) return;
      const asked = amountOf(other);
      const goal = Math.max(0, asked - carried);
      const room = (other.good_high_g ?? asked) - asked;
      carried = Math.max(0, carried - asked) + (got > goal + room ? got - goal : 0);
    }),
  );
  return carried;
}

/** What is to go in now: what the course says, less what earlier goes of the same thing had too much. */
export function goalOf(make: Make, course: Course, step: number, take: number): Goal {
  const asked = course.steps[step]?.takes[take];
  if (!asked) return { amount: 0, low: null, high: null, counted: false, told: false };
  const less = surplusBefore(make, course, step, take);
  const cut = (value: number | null): number | null => (value === null ? null : Math.max(0, value - less));
  const counted = asked.pieces !== null;
  return {
    amount: Math.max(0, amountOf(asked) - less),
    low: counted ? null : cut(asked.good_low_g),
    high: counted ? null : cut(asked.good_high_g),
    counted,
    told: asked.pieces !== null || asked.mass_g !== null,
  };
}

export type Fit = "less" | "good" | "more";
/** Where no bracket is told (all that there is goes in), anything is good. */
export function fits(goal: Goal, got: number): Fit {
  if (goal.counted) return Math.abs(got - goal.amount) < 0.05 ? "good" : got < goal.amount ? "less" : "more";
  if (goal.low === null || goal.high === null) return "good";
  if (got < goal.low) return "less";
  return got > goal.high ? "more" : "good";
}

/** The next take of the same thing behind this one, if the course has one. */
export function laterGo(course: Course, step: number, take: number): { step: number; take: number } | null {
  const thing = course.steps[step]?.takes[take]?.thing;
  for (let s = step; s < course.steps.length; ++s) {
    const takes = course.steps[s]?.takes ?? [];
    const t = takes.findIndex((other, index) => other.thing === thing && (s > step || index > take));
    if (t >= 0) return { step: s, take: t };
  }
  return null;
}

/** How far a ribbon is filled and where its bracket stands, in percent of its track: what is asked stands at 90. */
export function ribbonOf(goal: Goal, got: number): { filled: number; low: number; high: number } {
  const at = (value: number): number => (goal.amount > 0 ? Math.min(100, (90 * value) / goal.amount) : 0);
  // A bracket narrower than two percent each way could not be seen.
  return { filled: at(Math.max(0, got)), low: Math.min(at(goal.low ?? goal.amount), 88), high: Math.max(at(goal.high ?? goal.amount), 92) };
}

/** Height of a ribbon in pixels: in proportion to its mass, the heaviest of the step as high as there is room; never under four. */
export function thickness(mass_g: number | null, heaviest_g: number, most_px: number): number {
  return heaviest_g > 0 && mass_g !== null ? Math.max(4, (most_px * mass_g) / heaviest_g) : 4;
}

/** The two steps of the big buttons, by what is to be poured. */
export function stepsFor(goal: Goal): [number, number] {
  if (goal.counted) return [1, 1];
  return goal.amount >= 50 ? [10, 1] : goal.amount >= 5 ? [1, 0.1] : [0.5, 0.1];
}

/** A typed reading: grams with a point or a comma; null: cannot be read. */
export function readingOf(text: string): number | null {
  const found = /^\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*g?\s*$/i.exec(text);
  return found?.[1] ? Number(found[1].replace(",", ".")) : null;
}
/** A reading moved by a button, never below nought, without the dust of binary tenths. */
export const movedBy = (reading: number, by: number): number => Math.max(0, Number((reading + by).toFixed(1)));
