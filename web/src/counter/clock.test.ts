import { describe, expect, test } from "vitest";
import { bellsOf, readClock, trackOf } from "./clock";

const window = { low_s: 600, high_s: 720, low_hard: true, high_hard: true };

describe("a window that runs", () => {
  test.each([
    [0, "before", 600],
    [599, "before", 1],
    [600, "open", 0],
    [720, "open", 0],
    [721, "over", 0],
  ])("after %d s it is %s", (gone, phase, opens) => {
    const reading = readClock(window, 1000, 1000 + gone * 1000);
    expect(reading.phase).toBe(phase);
    expect(reading.opens_in_s).toBe(opens);
  });
  test("past its end it counts how long", () => expect(readClock(window, 0, 750_000).over_s).toBe(30));
  test("without an end it stays open", () => {
    const reading = readClock({ ...window, high_s: null }, 0, 9_000_000);
    expect(reading.phase).toBe("open");
    expect(reading.ends_in_s).toBeNull();
  });
  test("a clock of the machine that was set back does not run backwards", () => expect(readClock(window, 5000, 1000).gone_s).toBe(0));
});

describe("bells", () => {
  test("opening, a minute before the end, the end", () =>
    expect(bellsOf(window)).toEqual([
      { bell: "opens", at: 600 },
      { bell: "minute", at: 660 },
      { bell: "ends", at: 720 },
    ]));
  test("a window of seconds has no last minute", () =>
    expect(bellsOf({ ...window, low_s: 10, high_s: 14 }).map((one) => one.bell)).toEqual(["opens", "ends"]));
  test("an exact time does not open, it ends", () =>
    expect(bellsOf({ ...window, low_s: 1800, high_s: 1800 }).map((one) => one.bell)).toEqual(["minute", "ends"]));
  test("an exact time of a minute only ends", () =>
    expect(bellsOf({ ...window, low_s: 60, high_s: 60 }).map((one) => one.bell)).toEqual(["ends"]));
  test("open from the start: only its end rings", () =>
    expect(bellsOf({ ...window, low_s: 0, high_s: 300 }).map((one) => one.bell)).toEqual(["minute", "ends"]));
});

test("the track ends a little behind the window, and grows with an overrun", () => {
  const at = trackOf(window, 0);
  expect(at.high).toBeCloseTo(100 / 1.1);
  expect(at.now).toBe(0);
  expect(trackOf(window, 900).now).toBe(100);
  expect(trackOf(window, 900).high).toBe(80);
});
