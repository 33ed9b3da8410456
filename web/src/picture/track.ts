// track.ts - the line under a reading: where band, value, whisker and wake stand on it. Geometry of the picture; all numbers come from the engine.

export interface Track {
  /** Ends of the line, in the reading's unit. */
  low: number;
  high: number;
  /** A value as a share of the line, 0 to 1. */
  at: (value: number) => number;
}

// Ends on 1, 2 or 5 of a decade, so that the line does not tremble while one types.
const steps = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000];

/** A line that holds all the values with room at both ends. At least one finite value is needed; else it holds 0 and 1. */
export function trackOf(values: readonly (number | null | undefined)[]): Track {
  const there = values.filter((v): v is number => typeof v === "number" && Number.isFinite(v));
  let low = there.length ? Math.min(...there) : 0;
  let high = there.length ? Math.max(...there) : 1;
  const span = Math.max(high - low, Math.abs(high) * 0.08, 0.01);
  const step = steps.find((s) => span / s <= 8) ?? 10000;
  const bottom = low >= 0 ? 0 : -Infinity;
  low = Math.max(bottom, Math.floor((low - span * 0.18) / step) * step);
  high = Math.ceil((high + span * 0.18) / step) * step;
  return { low, high, at: (value) => Math.min(1, Math.max(0, (value - low) / (high - low))) };
}
