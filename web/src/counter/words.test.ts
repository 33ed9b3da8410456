import { describe, expect, test } from "vitest";
import { readClock } from "./clock";
import { cloud, takeOf } from "./fixture";
import { begin, goOn, pour } from "./make";
import {
  aboutHours,
  barWord,
  bellSays,
  clockSays,
  clockSentence,
  courseNote,
  degrees,
  goodEnough,
  madeSentence,
  takeNote,
  tooMuch,
  weighed,
  windowWords,
} from "./words";

const window = { low_s: 300, high_s: 1800, low_hard: true, high_hard: false };
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

test.each([
  [600, 720, "10–12 min"],
  [10800, 18000, "3–5 h"],
  [10, 14, "10–14 s"],
  [1800, 1800, "30 min"],
  [0, 720, "up to 12 min"],
  [300, null, "5 min or more"],
  [90, 7200, "1 min 30 s to 2 h"],
  [3600, 5400, "1 h to 1 h 30 min"],
])("a window from %d to %s s reads %s", (low_s, high_s, words) => expect(plain(windowWords({ ...window, low_s, high_s }))).toBe(words));

describe("a clock says", () => {
  const says = (gone_s: number, soft = {}): string =>
    clockSays({ ...window, ...soft }, readClock({ ...window, ...soft }, 0, gone_s * 1000));
  test("when it opens", () => expect(says(220)).toBe("not before: opens in 1:20"));
  test("when a soft one opens", () => expect(says(220, { low_hard: false })).toBe("opens in 1:20"));
  test("how long it is good", () => expect(says(490)).toBe("open, best within 21:50"));
  test("that a hard end nears", () => expect(says(490, { high_hard: true })).toBe("open, ends within 21:50"));
  test("one time: when it is ready, then since when", () => {
    expect(says(1000, { low_s: 1800 })).toBe("ready in 13:20");
    expect(says(1860, { low_s: 1800 })).toBe("ready since 1:00");
    expect(says(1860, { low_s: 1800, high_hard: true })).toBe("over its end by 1:00");
  });
  test("how far it is over", () => expect(says(1860)).toBe("past its best by 1:00"));
  test("how far it is over a limit", () => expect(says(1860, { high_hard: true })).toBe("over its end by 1:00"));
  test("all of it for ears", () =>
    expect(plain(clockSentence("bloom", window, readClock(window, 0, 220_000)))).toBe(
      "bloom: not before 5 min; best taken by 30 min; now 3 min 40 s",
    ));
  test("what a bell means", () => {
    expect(plain(bellSays("bloom", window, "opens"))).toBe("bloom: open from now, 5 min are over");
    expect(bellSays("bloom", window, "minute")).toBe("bloom: one minute to its end");
    expect(plain(bellSays("boil", { ...window, low_s: 1800 }, "ends"))).toBe("boil: 30 min are over");
  });
});

test("amounts as a scale shows them", () => {
  const goal = { amount: 230, low: 227, high: 233, counted: false, told: true };
  expect(plain(weighed(142, goal))).toBe("142 g");
  expect(plain(weighed(36.3, { ...goal, amount: 36 }))).toBe("36.3 g");
  expect(plain(weighed(36, { ...goal, amount: 36 }))).toBe("36 g");
  expect(weighed(4, { ...goal, counted: true, told: true })).toBe("4");
  expect(plain(goodEnough(goal))).toBe("227–233 g");
  expect(plain(goodEnough({ ...goal, low: 228.99999999, high: 231 }))).toBe("229–231 g");
  expect(plain(goodEnough({ ...goal, low: 3.9, high: 4.1 }))).toBe("3.9–4.1 g");
});
test("a take says which go it is, and its measure", () => {
  expect(takeNote(cloud.steps[1]!.takes[1]!, cloud, 1, 1)).toBe("first go");
  expect(takeNote(cloud.steps[3]!.takes[0]!, cloud, 3, 0)).toBe("second go");
  expect(takeNote(takeOf("honey", 36, { measure: "1 2/3 tbsp" }), cloud, 1, 0)).toBe("1 2/3 tbsp");
  expect(takeNote(takeOf("lime juice", 31.2, { written: "15 mL", volume_ml: 30 }), cloud, 1, 0).replace("\u00a0", " ")).toBe("30 mL");
  expect(takeNote(takeOf("shaken cane", 139.5, { written: "all" }), cloud, 1, 0)).toBe("all of it");
});
test("too much is advised on, enough is not", () => {
  const goal = { amount: 230, low: 227, high: 233, counted: false, told: true };
  expect(tooMuch(cloud, 1, 1, goal, 231)).toBe("");
  expect(plain(tooMuch(cloud, 1, 1, goal, 238))).toBe("Poured too much? Leave it in and go on: the next go, at combine, takes 8 g less.");
  expect(plain(tooMuch(cloud, 1, 0, { ...goal, amount: 36, low: 33, high: 39 }, 50))).toBe(
    "14 g more than asked. Take it out again, or go on with more.",
  );
});
test("temperatures and long times without digits that say nothing", () => {
  expect(plain(degrees(70))).toBe("70 °C");
  expect(plain(degrees(-1.25))).toBe("−1.3 °C");
  expect(plain(aboutHours(0.828))).toBe("about 50 min");
  expect(plain(aboutHours(5.2477))).toBe("about 5 h 15 min");
  expect(plain(aboutHours(0.05))).toBe("about 3 min");
});
test("a course says how it is made", () => {
  expect(courseNote(cloud, 6)).toBe("ahead, one batch");
  expect(courseNote(cloud, 6, 1)).toBe("ahead, one batch");
  expect(courseNote({ ...cloud, batches: 2, for: "one batch" }, 6)).toBe("ahead, two batches");
  const cane = { ...cloud, made: "to order", rounds: 3, for: "one round of 2" };
  expect(courseNote(cane, 6)).toBe("to order, three rounds, each for two");
  expect(courseNote(cane, 6, 2)).toBe("to order, round 2 of 3, for two");
  expect(courseNote({ ...cane, rounds: 1, for: "one serve" }, 6, 4)).toBe("to order, serve 4 of 6");
  const glass = { ...cloud, part: "serve", for: "one serve" };
  expect(courseNote(glass, 6)).toBe("six glasses");
  expect(courseNote(glass, 6, 1)).toBe("glass 1 of 6");
  expect(courseNote(glass, 1, 1)).toBe("one glass");
});
test("the end says when it was made, from when and to when it is good", () => {
  const at = (day: number, hour: number): number => new Date(2026, 10, day, hour, 4).getTime();
  const kept = { made: at(20, 17), from: at(20, 20), to: at(22, 20) };
  expect(madeSentence(cloud, kept, at(20, 17))).toBe("orange cloud: made 17:04, may be served from 20:04, keeps to Sun 20:04");
  expect(madeSentence(cloud, { ...kept, from: null, to: null }, at(20, 17))).toBe("orange cloud: made 17:04");
});
test("the bar says what it does", () => {
  const make = goOn(pour(begin(cloud, 0), cloud, 2, 0), cloud, 0);
  const infuse = pour(pour(make, cloud, 36, 0), cloud, 230, 0);
  expect(barWord(make, cloud, 1, true, false, 0)).toBe("In, go on");
  expect(barWord(infuse, cloud, 1, false, false, 60_000)).toBe("Clock runs, go on");
  expect(barWord(infuse, cloud, 1, false, false, 600_000)).toBe("Done, go on");
  expect(barWord(infuse, cloud, 4, false, true, 0)).toBe("Done");
});
