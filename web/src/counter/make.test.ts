import { describe, expect, test } from "vitest";
import { cloud } from "./fixture";
import { back, baseOf, begin, choose, clockOf, due, goOn, keeping, pour, running, stageOf, takeOut, tare, type Make } from "./make";
import { stagesOf } from "./stages";

const minute = 60_000;
const start = Date.UTC(2026, 10, 25, 16, 0);

/** A clock that ticks by hand. */
function walk(): {
  make: Make;
  now: number;
  wait: (ms: number) => void;
  do: (next: (make: Make, now: number) => Make) => void;
  bells: () => string[];
} {
  const here = {
    make: begin(cloud, start),
    now: start,
    wait: (ms: number) => void (here.now += ms),
    do: (next: (make: Make, now: number) => Make) => void (here.make = next(here.make, here.now)),
    bells: () => {
      const { make, rings } = due(here.make, cloud, here.now);
      here.make = make;
      return rings.map((ring) => `${cloud.steps[ring.step]?.do} ${ring.bell}`);
    },
  };
  return here;
}
const on = (make: Make, now: number): Make => goOn(make, cloud, now);
const here = (make: Make): string => `${stageOf(make, cloud)?.kind} ${stageOf(make, cloud)?.word}`;

/** Up to the infusion, with the leaves in water since 0:00 and the pan on the stove since 2:00. */
function infusing(): ReturnType<typeof walk> {
  const make = walk();
  make.do((one, now) => pour(one, cloud, 2, now));
  make.do(on);
  make.wait(2 * minute);
  make.do((one, now) => pour(one, cloud, 36, now));
  make.do((one, now) => pour(one, cloud, 230, now));
  return make;
}

test("a step with takes and a window is weighed in first", () =>
  expect(stagesOf(cloud).map((stage) => `${stage.kind} ${stage.word}`)).toEqual([
    "weigh weigh in",
    "act bloom",
    "weigh weigh in",
    "act infuse",
    "act combine",
    "weigh combine",
    "act rest",
  ]));

describe("clocks", () => {
  test("one starts when its step is gone into, not before", () => {
    const make = walk();
    expect(running(make.make)).toHaveLength(0);
    make.wait(minute);
    make.do((one, now) => pour(one, cloud, 2, now));
    expect(here(make.make)).toBe("act bloom");
    expect(clockOf(make.make, 0)?.started).toBe(start + minute);
  });
  test("several run at once and ring at their opening, one minute before their end, and at their end", () => {
    const make = infusing();
    expect(running(make.make).map((clock) => clock.step)).toEqual([0, 1]);
    make.wait(3 * minute - 1);
    expect(make.bells()).toEqual([]);
    make.wait(1);
    expect(make.bells()).toEqual(["bloom opens"]);
    expect(make.bells()).toEqual([]);
    make.wait(7 * minute);
    expect(make.bells()).toEqual(["infuse opens"]);
    make.wait(minute);
    expect(make.bells()).toEqual(["infuse minute"]);
    make.wait(minute);
    expect(make.bells()).toEqual(["infuse ends"]);
    make.wait(15 * minute);
    expect(make.bells()).toEqual(["bloom minute"]);
    make.wait(5 * minute);
    expect(make.bells()).toEqual(["bloom ends"]);
  });
  test("after a sleep of the machine each clock rings once, for the last that was missed", () => {
    const make = infusing();
    make.wait(11.5 * minute);
    expect(make.bells()).toEqual(["bloom opens", "infuse minute"]);
    make.wait(10 * minute);
    expect(make.bells()).toEqual(["infuse ends"]);
  });
  test("one that was taken on does not ring", () => {
    const make = infusing();
    make.do((one, now) => takeOut(one, 1, now));
    make.wait(10 * minute);
    expect(make.bells()).toEqual(["bloom opens"]);
  });
  test("going on before the opening lets it run, after it closes it", () => {
    const early = infusing();
    early.wait(minute);
    early.do(on);
    expect(here(early.make)).toBe("act combine");
    expect(clockOf(early.make, 1)?.taken).toBeNull();
    const due = infusing();
    due.wait(10 * minute);
    due.do(on);
    expect(clockOf(due.make, 1)?.taken).toBe(due.now);
  });
  test("what blooms on the side runs until the step that takes it in is left", () => {
    const make = infusing();
    make.wait(10 * minute);
    make.do(on);
    expect(clockOf(make.make, 0)?.taken).toBeNull();
    make.do(on);
    expect(clockOf(make.make, 0)?.taken).toBe(make.now);
  });
});

describe("what is done by hand", () => {
  const shake = {
    ...cloud,
    steps: [{ ...cloud.steps[2]!, do: "shake", window: { low_s: 10, high_s: 14, low_hard: false, high_hard: false } }],
  };
  test("is over when one goes on, too soon or in time", () => {
    for (const after of [2000, 12_000]) {
      const make = goOn(begin(shake, start), shake, start + after);
      expect(make.finished).toBe(start + after);
      expect(running(make)).toEqual([]);
    }
  });
});

describe("back", () => {
  test("lets a clock run on that going on had closed, from its old start", () => {
    const make = infusing();
    const started = clockOf(make.make, 1)?.started;
    make.wait(10 * minute);
    make.do(on);
    make.wait(minute / 2);
    make.do(back);
    expect(here(make.make)).toBe("act infuse");
    expect(clockOf(make.make, 1)).toMatchObject({ started: started, taken: null });
  });
  test("and on again does not start a clock anew", () => {
    const make = infusing();
    const started = clockOf(make.make, 1)?.started;
    make.wait(minute);
    make.do(back);
    make.wait(minute);
    make.do(on);
    expect(clockOf(make.make, 1)?.started).toBe(started);
    expect(make.make.clocks).toHaveLength(2);
  });
  test("stops at the first stage", () => {
    const make = walk();
    make.do(back);
    expect(make.make.at).toBe(0);
  });
  test("keeps what went in", () => {
    const make = infusing();
    make.do(back);
    expect(make.make.got).toEqual({ "0.0": 2, "1.0": 36, "1.1": 230 });
  });
});

describe("weigh-in", () => {
  test("goes from take to take, then on", () => {
    const make = walk();
    make.do((one, now) => pour(one, cloud, 2, now));
    make.do(on);
    expect(make.make.take).toBe(0);
    make.do((one, now) => pour(one, cloud, 36.3, now));
    expect([here(make.make), make.make.take]).toEqual(["weigh weigh in", 1]);
    make.do((one, now) => pour(one, cloud, 231, now));
    expect(here(make.make)).toBe("act infuse");
  });
  test("the scale keeps what lies on it until it is set to nought", () => {
    const make = walk();
    make.do((one, now) => pour(one, cloud, 2, now));
    expect(baseOf(make.make, 0)).toBe(0);
    make.do(on);
    make.do((one, now) => pour(one, cloud, 36, now));
    expect(baseOf(make.make, 1)).toBe(36);
    make.do(tare);
    expect(baseOf(make.make, 1)).toBe(0);
  });
  test("a take can be weighed out of order and put right", () => {
    const make = walk();
    make.do((one, now) => pour(one, cloud, 2, now));
    make.do(on);
    make.do((one) => choose(one, 1));
    make.do((one, now) => pour(one, cloud, 229, now));
    expect(make.make.take).toBe(0);
    make.do((one) => choose(one, 1));
    expect(baseOf(make.make, 1)).toBe(0);
    make.do((one, now) => pour(one, cloud, 231, now));
    expect(make.make.on_scale).toBe(231);
    expect(make.make.got["1.1"]).toBe(231);
  });
});

describe("the end", () => {
  function rested(): ReturnType<typeof walk> {
    const make = infusing();
    make.wait(11 * minute);
    make.do(on);
    make.do(on);
    make.do((one, now) => pour(one, cloud, 100, now));
    return make;
  }
  test("a rest at the end counts from its start: made, served from its opening, kept from then", () => {
    const make = rested();
    const made = make.now;
    make.wait(4000);
    make.do(on);
    expect(make.make.finished).toBe(make.now);
    expect(keeping(make.make, cloud)).toEqual({ made: made, from: made + 180 * minute, to: made + (180 + 48 * 60) * minute });
  });
  test("the clock of the rest runs on, and rings", () => {
    const make = rested();
    make.do(on);
    expect(running(make.make).map((clock) => clock.step)).toEqual([4]);
    make.wait(180 * minute);
    expect(make.bells()).toEqual(["rest opens"]);
  });
  test("going on after the end changes nothing, back opens it again", () => {
    const make = rested();
    make.do(on);
    const finished = make.make;
    make.wait(minute);
    make.do(on);
    expect(make.make).toBe(finished);
    make.do(back);
    expect(make.make.finished).toBeNull();
    expect(here(make.make)).toBe("act rest");
  });
  test("without a rest it may be served at once", () => {
    const course = { ...cloud, steps: cloud.steps.slice(2, 4), keeps_h: null };
    const make = pour(goOn(begin(course, start), course, start), course, 100, start + minute);
    expect(keeping(make, course)).toEqual({ made: start + minute, from: null, to: null });
  });
  test("a make survives being written down", () => {
    const make = rested();
    expect(JSON.parse(JSON.stringify(make.make))).toEqual(make.make);
  });
});
