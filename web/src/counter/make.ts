// make.ts - a make at the counter, as a plain value: where the cook stands, what went in, which clocks run. Every function answers the next value and
// leaves the one it was given alone; time comes in as an argument, all times are milliseconds since 1970. It can be written to JSON and read back.
import type { Course, CounterStep } from "../api/types";
import { bellsOf, canBeLeft, readClock, type Bell } from "./clock";
import { runsOnTheSide, stagesOf, type Stage } from "./stages";

export interface Clock {
  /** Place of its step in `course.steps`. */
  step: number;
  started: number;
  /** When its matter was taken on; null: it runs. */
  taken: number | null;
  /** Bells that have rung, so that none rings twice. */
  rung: Bell[];
}
export interface Make {
  /** Of this make alone: one part may be made several times, and the clocks of the first run on. */
  id: string;
  part: string;
  /** The how manieth batch, round or glass. */
  round: number;
  begun: number;
  /** Stage on which the cook stands. */
  at: number;
  /** Take on which the cook stands, within a weigh-in. */
  take: number;
  /** What went in, by `step.take`: grams, or pieces of what is counted. */
  got: Record<string, number>;
  /** What lies on the scale since it was last set to nought, in grams. */
  on_scale: number;
  clocks: Clock[];
  /** Steps whose clock each stage closed when it was left: `back` lets them run on. */
  closed: Record<number, number[]>;
  finished: number | null;
}
export interface Ring {
  step: number;
  bell: Bell;
}

export const gotKey = (step: number, take: number): string => `${step}.${take}`;

export function begin(course: Course, now_ms: number, round = 1): Make {
  const make: Make = {
    id: `${course.part} ${round}`,
    part: course.part,
    round,
    begun: now_ms,
    at: 0,
    take: 0,
    got: {},
    on_scale: 0,
    clocks: [],
    closed: {},
    finished: null,
  };
  return entered(make, course, now_ms);
}

export const stageOf = (make: Make, course: Course): Stage | null => stagesOf(course)[make.at] ?? null;
export function stepOf(make: Make, course: Course): CounterStep | null {
  const stage = stageOf(make, course);
  return stage ? (course.steps[stage.step] ?? null) : null;
}
export const clockOf = (make: Make, step: number): Clock | null => make.clocks.find((clock) => clock.step === step) ?? null;
export const running = (make: Make): Clock[] => make.clocks.filter((clock) => clock.taken === null);

/** What the scale reads for a take: it is in. Then the next that is not in yet; none left: the next stage. */
export function pour(make: Make, course: Course, amount: number, now_ms: number): Make {
  const stage = stageOf(make, course);
  if (stage?.kind !== "weigh") return make;
  const takes = course.steps[stage.step]?.takes ?? [];
  const weighed = takes[make.take]?.pieces === null;
  const next: Make = {
    ...make,
    got: { ...make.got, [gotKey(stage.step, make.take)]: amount },
    on_scale: weighed ? make.on_scale + amount - (make.got[gotKey(stage.step, make.take)] ?? 0) : make.on_scale,
  };
  const open = takes.findIndex((_, take) => next.got[gotKey(stage.step, take)] === undefined);
  return open < 0 ? goOn(next, course, now_ms) : { ...next, take: open };
}
/** What the scale shows before this take goes in. */
export function baseOf(make: Make, step: number): number {
  return Math.max(0, make.on_scale - (make.got[gotKey(step, make.take)] ?? 0));
}
export const choose = (make: Make, take: number): Make => ({ ...make, take });
export const tare = (make: Make): Make => ({ ...make, on_scale: 0 });

/** Leaves this stage. What its clock times is taken on, unless the window is not open yet or the matter waits on the side: then the clock runs on. What is done by hand ends here. */
export function goOn(make: Make, course: Course, now_ms: number): Make {
  const stages = stagesOf(course);
  const stage = stages[make.at];
  if (!stage || make.finished !== null) return make;
  const last = make.at === stages.length - 1;
  const closing = make.clocks.filter((clock) => clock.taken === null && closes(clock, stage, course, now_ms)).map((clock) => clock.step);
  const left: Make = {
    ...make,
    clocks: make.clocks.map((clock) => (closing.includes(clock.step) ? { ...clock, taken: now_ms } : clock)),
    closed: { ...make.closed, [make.at]: closing },
  };
  if (last) return { ...left, finished: now_ms };
  return entered({ ...left, at: make.at + 1 }, course, now_ms);
}

function closes(clock: Clock, stage: Stage, course: Course, now_ms: number): boolean {
  const step = course.steps[clock.step];
  if (!step?.window) return true;
  if (runsOnTheSide(step)) return clock.step < stage.step && course.steps[stage.step]?.do === "combine";
  if (clock.step !== stage.step || stage.kind !== "act") return false;
  return !canBeLeft(step.window) || readClock(step.window, clock.started, now_ms).phase !== "before";
}

// A stage is entered: its clock starts, unless it was started before and the cook has only gone back and on again.
function entered(make: Make, course: Course, now_ms: number): Make {
  const stage = stageOf(make, course);
  if (!stage) return make;
  if (stage.kind === "weigh") {
    const takes = course.steps[stage.step]?.takes ?? [];
    const open = takes.findIndex((_, take) => make.got[gotKey(stage.step, take)] === undefined);
    return { ...make, take: Math.max(0, open), on_scale: 0 };
  }
  if (!course.steps[stage.step]?.window || clockOf(make, stage.step)) return make;
  return { ...make, clocks: [...make.clocks, { step: stage.step, started: now_ms, taken: null, rung: [] }] };
}

/** One stage back, or back from the end. Clocks that leaving that stage had closed run on as if nothing had happened; those that run keep running. */
export function back(make: Make): Make {
  const at = make.finished === null ? make.at - 1 : make.at;
  if (at < 0) return make;
  const reopened = make.closed[at] ?? [];
  return {
    ...make,
    at,
    take: 0,
    on_scale: 0,
    finished: null,
    clocks: make.clocks.map((clock) => (reopened.includes(clock.step) ? { ...clock, taken: null } : clock)),
    closed: { ...make.closed, [at]: [] },
  };
}

/** The cook says that what a clock times was taken on. */
export function takeOut(make: Make, step: number, now_ms: number): Make {
  return { ...make, clocks: make.clocks.map((clock) => (clock.step === step ? { ...clock, taken: clock.taken ?? now_ms } : clock)) };
}

/** The bells that are due, each once; of those that fell into a sleep of the machine only the last of each clock. */
export function due(make: Make, course: Course, now_ms: number): { make: Make; rings: Ring[] } {
  const rings: Ring[] = [];
  const clocks = make.clocks.map((clock) => {
    const window = course.steps[clock.step]?.window;
    if (clock.taken !== null || !window) return clock;
    const fresh = bellsOf(window).filter(({ bell, at }) => clock.started + at * 1000 <= now_ms && !clock.rung.includes(bell));
    const last = fresh.at(-1);
    if (!last) return clock;
    rings.push({ step: clock.step, bell: last.bell });
    return { ...clock, rung: [...clock.rung, ...fresh.map(({ bell }) => bell)] };
  });
  return rings.length ? { make: { ...make, clocks }, rings } : { make, rings };
}

export interface Keeping {
  made: number;
  /** May be served from: the opening of the last rest; null: at once. */
  from: number | null;
  /** Keeps to; null: the document does not say. */
  to: number | null;
}
/** What was made, when it may be served and how long it keeps. Made is when the last thing was done by hand: a rest at the end counts from its start. */
export function keeping(make: Make, course: Course): Keeping | null {
  if (make.finished === null) return null;
  const index = course.steps.length - 1;
  const step = course.steps[index];
  const rest = step?.window && step.takes.length === 0 ? clockOf(make, index) : null;
  const made = rest ? rest.started : make.finished;
  const rests_s = step?.window?.low_s ?? 0;
  const ready = rest ? rest.started + rests_s * 1000 : make.finished;
  const keeps_h = course.keeps_h;
  return {
    made,
    from: ready > make.finished ? ready : null,
    to: keeps_h === null ? null : ready + keeps_h * 3_600_000,
  };
}
