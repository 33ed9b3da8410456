// fixture.ts - one course for the tests, in the form of the wire: invented amounts, windows of the demo's cloud.
import type { Course, CounterStep, CounterTake } from "../api/types";

export function takeOf(thing: string, mass_g: number, more: Partial<CounterTake> = {}): CounterTake {
  return {
    thing,
    label: thing,
    look: "juice",
    mass_g,
    volume_ml: null,
    pieces: null,
    written: `${mass_g} g`,
    measure: null,
    good_low_g: mass_g - 3,
    good_high_g: mass_g + 3,
    first_of: 1,
    ...more,
  };
}
export function stepOf(number: number, word: string, more: Partial<CounterStep> = {}): CounterStep {
  return {
    number,
    do: word,
    heading: word,
    says: `${word}.`,
    why_window: null,
    takes: [],
    window: null,
    keeps_s: null,
    to_c: null,
    at_c: null,
    after: { mass_g: null, volume_ml: null, temperature_c: null },
    findings: [],
    cautions: [],
    ...more,
  };
}
const minutes = (low: number, high: number, low_hard = true, high_hard = true): NonNullable<CounterStep["window"]> => ({
  low_s: low * 60,
  high_s: high * 60,
  low_hard,
  high_hard,
});

export const cloud: Course = {
  part: "orange cloud",
  for: "one batch",
  index: 1,
  made: "ahead",
  batches: 1,
  rounds: 1,
  steps: [
    stepOf(1, "bloom", {
      takes: [takeOf("gelatin", 4, { pieces: 2, look: "agent", good_low_g: null, good_high_g: null })],
      window: minutes(5, 30, true, false),
    }),
    stepOf(2, "infuse", {
      heading: "Infuse at 70 °C",
      at_c: 70,
      takes: [takeOf("honey", 36), takeOf("orange juice", 230)],
      window: minutes(10, 12),
    }),
    stepOf(3, "combine"),
    stepOf(4, "combine", { takes: [takeOf("orange juice", 100, { first_of: 2 })] }),
    stepOf(5, "rest", { heading: "Rest at 4 °C", at_c: 4, window: minutes(180, 300, true, false) }),
  ],
  ready_after_h: 5.2,
  keeps_h: 48,
};
