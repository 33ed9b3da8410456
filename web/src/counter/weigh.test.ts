import { describe, expect, test } from "vitest";
import { cloud, takeOf } from "./fixture";
import { begin, type Make } from "./make";
import { fits, goalOf, laterGo, movedBy, readingOf, ribbonOf, stepsFor, thickness } from "./weigh";

const having = (got: Record<string, number>): Make => ({ ...begin(cloud, 0), got });

describe("poured too much", () => {
  test("within what is good enough changes nothing", () => expect(goalOf(having({ "1.1": 232 }), cloud, 3, 0).amount).toBe(100));
  test("the later go of the same thing takes that much less", () =>
    expect(goalOf(having({ "1.1": 238 }), cloud, 3, 0)).toMatchObject({ amount: 92, low: 89, high: 95 }));
  test("never less than nothing", () => expect(goalOf(having({ "1.1": 400 }), cloud, 3, 0).amount).toBe(0));
  test("too little is not made up for", () => expect(goalOf(having({ "1.1": 200 }), cloud, 3, 0).amount).toBe(100));
  test("what the second go could not take goes to the third", () => {
    const steps = [...cloud.steps.slice(0, 4), { ...cloud.steps[3]!, takes: [takeOf("orange juice", 50, { first_of: 3 })] }];
    const course = { ...cloud, steps };
    expect(goalOf(having({ "1.1": 350, "3.0": 0 }), course, 4, 0).amount).toBe(30);
  });
  test("what comes later is found, and nothing where it does not", () => {
    expect(laterGo(cloud, 1, 1)).toEqual({ step: 3, take: 0 });
    expect(laterGo(cloud, 1, 0)).toBeNull();
    expect(laterGo(cloud, 3, 0)).toBeNull();
  });
});

test("good enough is between its ends, ends included", () => {
  const goal = goalOf(having({}), cloud, 1, 1);
  expect([226.9, 227, 233, 233.1].map((got) => fits(goal, got))).toEqual(["less", "good", "good", "more"]);
});
test("what is counted has no tolerance", () => {
  const goal = goalOf(having({}), cloud, 0, 0);
  expect(goal).toEqual({ amount: 2, low: null, high: null, counted: true, told: true });
  expect([1, 2, 3].map((got) => fits(goal, got))).toEqual(["less", "good", "more"]);
  expect(fits({ ...goal, amount: 4.000000000000001 }, 4)).toBe("good");
});

test("where all that there is goes in, anything is good", () => {
  const goal = { amount: 139.5, low: null, high: null, counted: false, told: true };
  expect([90, 139.5, 150].map((got) => fits(goal, got))).toEqual(["good", "good", "good"]);
});
test("what is in no balance has no number", () => {
  const course = { ...cloud, steps: [{ ...cloud.steps[3]!, takes: [{ ...takeOf("mint", 0), mass_g: null }] }] };
  expect(goalOf(having({}), course, 0, 0).told).toBe(false);
});
test("a ribbon stays in its track and its bracket can be seen", () => {
  const goal = goalOf(having({}), cloud, 1, 1);
  expect(ribbonOf(goal, 230).filled).toBe(90);
  expect(ribbonOf(goal, 999).filled).toBe(100);
  expect(ribbonOf(goal, 115)).toEqual({ filled: 45, low: 88, high: 92 });
  expect(ribbonOf({ amount: 0, low: 0, high: 0, counted: false, told: true }, 5).filled).toBe(0);
});
test("the heaviest is as thick as there is room, the lightest can still be seen", () => {
  expect(thickness(230, 230, 52)).toBe(52);
  expect(thickness(4, 230, 52)).toBe(4);
  expect(thickness(null, 0, 52)).toBe(4);
});
test("buttons step by the size of what is poured", () => {
  expect(stepsFor({ amount: 230, low: null, high: null, counted: false, told: true })).toEqual([10, 1]);
  expect(stepsFor({ amount: 12, low: null, high: null, counted: false, told: true })).toEqual([1, 0.1]);
  expect(stepsFor({ amount: 0.8, low: null, high: null, counted: false, told: true })).toEqual([0.5, 0.1]);
});
test.each([
  ["142", 142],
  ["142 g", 142],
  ["36,3", 36.3],
  [".5", 0.5],
  ["", null],
  ["12..3", null],
  ["-4", null],
  ["ten", null],
])("the scale reads %j", (text, reading) => expect(readingOf(text)).toBe(reading));
test("tenths stay tenths", () => {
  expect(movedBy(0.2, 0.1)).toBe(0.3);
  expect(movedBy(3, -10)).toBe(0);
});
