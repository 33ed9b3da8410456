// clock.ts - a window of time that runs: not before its low end, best by its high end; hard ends are limits, soft ends advice.
//
// Times are absolute milliseconds, so that a clock outlives a reload. A clock rings at its opening, one minute before its end and at its end. Nothing
// pauses it.
import type { CounterWindow } from "../api/types";

export type Bell = "opens" | "minute" | "ends";
export type Phase = "before" | "open" | "over";
export interface Reading {
  phase: Phase;
  gone_s: number;
  /** Till it opens, till its end (null: it has none); not below zero. */
  opens_in_s: number;
  ends_in_s: number | null;
  /** Past its end. */
  over_s: number;
}

const minute_s = 60;
const lowOf = (window: CounterWindow): number => window.low_s ?? 0;

export function readClock(window: CounterWindow, started: number, now_ms: number): Reading {
  const gone_s = Math.max(0, (now_ms - started) / 1000);
  const low = lowOf(window);
  const high = window.high_s;
  const over = high !== null && gone_s > high;
  return {
    phase: gone_s < low ? "before" : over ? "over" : "open",
    gone_s,
    opens_in_s: Math.max(0, low - gone_s),
    ends_in_s: high === null ? null : Math.max(0, high - gone_s),
    over_s: over ? gone_s - high : 0,
  };
}

/** One time instead of a window: it is ready then, and over only where that end is hard. */
export const isExact = (window: CounterWindow): boolean => window.high_s !== null && window.low_s === window.high_s;
const by_hand_s = 120;
/** Whether a cook may walk away from it: what takes two minutes or less is done by hand, and over when one goes on. */
export const canBeLeft = (window: CounterWindow): boolean => (window.high_s ?? window.low_s ?? 0) > by_hand_s;
/** Whether something is lost by waiting on. */
export const isLate = (window: CounterWindow, phase: Phase): boolean => phase === "over" && (window.high_hard || !isExact(window));

/** When a clock rings, in seconds from its start, in order. An end within the minute after the opening is not announced; an exact time only ends. */
export function bellsOf(window: CounterWindow): { bell: Bell; at: number }[] {
  const low = lowOf(window);
  const high = window.high_s;
  const exact = isExact(window);
  const bells: { bell: Bell; at: number }[] = [];
  if (low > 0 && !exact) bells.push({ bell: "opens", at: low });
  if (high !== null) {
    const before = high - minute_s;
    if (exact ? before >= minute_s / 2 : before > low) bells.push({ bell: "minute", at: before });
    bells.push({ bell: "ends", at: high });
  }
  return bells;
}

/** Where a window lies on its track, in percent of the track's width: the track ends a little behind the window. */
export function trackOf(window: CounterWindow, gone_s: number): { low: number; high: number | null; now: number } {
  const low = lowOf(window);
  const end = window.high_s ?? Math.max(low * 2, 60);
  const length = Math.max(end * 1.1, Math.min(gone_s, end * 1.5));
  const at = (seconds: number): number => Math.min(100, (100 * seconds) / Math.max(length, 1));
  return { low: at(low), high: window.high_s === null ? null : at(window.high_s), now: at(gone_s) };
}
