// words.ts - what the counter says and shows of its clocks and amounts. Plain, short, to be read from two steps away or spoken.
import type { Course, CounterTake, CounterWindow, Finding } from "../api/types";
import { clock, counted, duration, fixed, millilitres, timeOfDay } from "../lib/format";
import { canBeLeft, isExact, readClock, type Bell, type Reading } from "./clock";
import type { Keeping, Make } from "./make";
import { fits, laterGo, type Goal } from "./weigh";
import { courseName } from "./stages";

const nbsp = "\u00a0";

/** `10–12 min`, `3–5 h`, `10–14 s`, `30 min`, `5 min or more`. */
export function windowWords(window: CounterWindow): string {
  const { low_s, high_s } = window;
  if (high_s === null) return low_s === null ? "" : `${duration(low_s)} or more`;
  if (low_s === null || low_s === 0) return `up to ${duration(high_s)}`;
  if (low_s === high_s) return duration(high_s);
  const [low, high] = [duration(low_s), duration(high_s)];
  const [lowNumber, lowUnit] = low.split(nbsp);
  return high.split(nbsp)[1] === lowUnit && !low.includes(" ") && !high.includes(" ") ? `${lowNumber}–${high}` : `${low} to ${high}`;
}

/** One line under a clock. */
export function clockSays(window: CounterWindow, reading: Reading): string {
  if (isExact(window) && reading.phase === "before") return `ready in ${clock(Math.ceil(reading.opens_in_s))}`;
  if (isExact(window) && !window.high_hard) return `ready since ${clock(reading.over_s)}`;
  if (reading.phase === "before") return `${window.low_hard ? "not before: opens" : "opens"} in ${clock(Math.ceil(reading.opens_in_s))}`;
  if (reading.phase === "over") return `${window.high_hard ? "over its end by" : "past its best by"} ${clock(reading.over_s)}`;
  if (reading.ends_in_s === null) return "open";
  return `open, ${window.high_hard ? "ends" : "best"} within ${clock(Math.ceil(reading.ends_in_s))}`;
}

/** The whole window for ears. */
export function clockSentence(name: string, window: CounterWindow, reading: Reading): string {
  const low = window.low_s ? `${window.low_hard ? "not before" : "better not before"} ${duration(window.low_s)}; ` : "";
  const high = window.high_s === null ? "" : `${window.high_hard ? "ends at" : "best taken by"} ${duration(window.high_s)}; `;
  return `${name}: ${low}${high}now ${duration(reading.gone_s)}`;
}

/** What a bell says, on the page and aloud. */
export function bellSays(name: string, window: CounterWindow, bell: Bell): string {
  if (bell === "opens") return `${name}: open from now, ${duration(window.low_s)} are over`;
  if (bell === "minute") return `${name}: one minute to its end`;
  return isExact(window) ? `${name}: ${duration(window.high_s)} are over` : `${name}: its time is over, take it now`;
}

/** `36.3 g`, `142 g`: as a scale shows it; `4` of what is counted. */
export function weighed(amount: number, goal: Goal): string {
  const shown = goal.counted || goal.amount < 50 ? fixed(amount, 1).replace(/\.0$/, "") : fixed(amount, 0);
  return goal.counted ? shown : `${shown}${nbsp}g`;
}
/** `227–233 g`; nothing for what is counted. */
export function goodEnough(goal: Goal): string {
  if (goal.counted || goal.low === null || goal.high === null) return "";
  const decimals = goal.high - goal.low >= 4 ? 0 : 1;
  const end = (value: number): string => fixed(value, decimals).replace(/\.0$/, "");
  return `${end(goal.low)}–${end(goal.high)}${nbsp}g`;
}

const goes = ["", "first go", "second go", "third go"];
/** Under a take's name: which go it is, and how a kitchen without a scale would measure it. */
export function takeNote(take: CounterTake, course: Course, step: number, index: number): string {
  const several = take.first_of > 1 || laterGo(course, step, index) !== null;
  const go = several ? (goes[take.first_of] ?? `go ${take.first_of}`) : "";
  const inVolume = /\b(mL|cL|L|oz)\b/.test(take.written) ? millilitres(take.volume_ml).replace(/\.0(?=\D)/, "") : "";
  const measure = take.measure ?? (take.written === "all" ? "all of it" : inVolume);
  return [go, measure].filter(Boolean).join(", ");
}

/** What to do when more went in than is good enough; nothing otherwise. */
export function tooMuch(course: Course, step: number, take: number, goal: Goal, got: number): string {
  if (fits(goal, got) !== "more") return "";
  const later = laterGo(course, step, take);
  const over = weighed(got - goal.amount, goal);
  if (!later) return `${over} more than asked. Take it out again, or go on with more.`;
  const where = later.step === step ? "the next go" : `the next go, at ${course.steps[later.step]?.do},`;
  return `Poured too much? Leave it in and go on: ${where} takes ${over} less.`;
}

/** `70 °C`: no decimal that says nothing. */
export const degrees = (c: number): string => `${fixed(c, 1).replace(/\.0$/, "")}${nbsp}°C`;
/** `about 5 h 14 min`: seconds only while there are few minutes. */
export function aboutHours(h: number): string {
  const seconds = h * 3600;
  return `about ${duration(seconds > 600 ? Math.round(seconds / 60) * 60 : seconds)}`;
}

export const severityWord: Record<Finding["severity"], string> = { stop: "Stop", mind: "Mind", note: "Note" };

/** `orange cloud: made 17:04, may be served from 20:04, keeps to Sun 20:04`. */
export const madeSentence = (course: Course, kept: Keeping, now_ms: number): string => `${courseName(course)}: ${madeWords(kept, now_ms)}`;
export function madeWords(kept: Keeping, now_ms: number): string {
  const parts = [`made ${timeOfDay(kept.made, now_ms)}`];
  if (kept.from !== null) parts.push(`may be served from ${timeOfDay(kept.from, now_ms)}`);
  if (kept.to !== null) parts.push(`keeps to ${timeOfDay(kept.to, now_ms)}`);
  return parts.join(", ");
}

/** A course with what its amounts stand for, as the engine says it: `one batch`, `one round of 2`, `one serve`. */
type Told = Course & { for?: string };
/** How often a course is made for all serves, and what one of them is called. */
export function repeats(course: Told, serves: number): { count: number; one: string; many: string } {
  if (course.part === "serve") return { count: serves, one: "glass", many: "glasses" };
  if (course.made === "ahead") return { count: course.batches ?? 1, one: "batch", many: "batches" };
  return course.for === "one serve"
    ? { count: serves, one: "serve", many: "serves" }
    : { count: course.rounds, one: "round", many: "rounds" };
}
/** `ahead, one batch`; `to order, three rounds, each for two`; while one makes it `to order, round 2 of 3, for two`. */
export function courseNote(course: Told, serves: number, round?: number): string {
  const { count, one, many } = repeats(course, serves);
  const on = round !== undefined && (count > 1 || round > 1);
  const all = count === 1 ? `one ${one}` : `${counted(count)} ${many}`;
  const each = /^one round of (\d+)$/.exec(course.for ?? "")?.[1];
  const amounts = each ? `${!on && count > 1 ? "each " : ""}for ${counted(Number(each))}` : "";
  return [course.part === "serve" ? "" : course.made, on ? `${one} ${round} of ${Math.max(count, round)}` : all, amounts]
    .filter(Boolean)
    .join(", ");
}

/** How the big bar is called, and what it does to the clock of this step. */
export function barWord(make: Make, course: Course, step: number, weighing: boolean, last: boolean, now_ms: number): string {
  if (weighing) return "In, go on";
  if (last) return "Done";
  const one = course.steps[step];
  const clockHere = make.clocks.find((each) => each.step === step && each.taken === null);
  if (!one?.window || !clockHere || !canBeLeft(one.window)) return "Done, go on";
  return readClock(one.window, clockHere.started, now_ms).phase === "before" ? "Clock runs, go on" : "Done, go on";
}
