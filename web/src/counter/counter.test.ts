// @vitest-environment happy-dom
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Counter } from "../api/types";
import { engine, Refused } from "../api/client";
import { CounterState } from "./counter.svelte";
import { cloud } from "./fixture";
import { clockOf, goOn, pour, takeOut } from "./make";

const cane = { ...cloud, part: "shaken cane", steps: cloud.steps.slice(2, 4) };
const answer: Counter = { schema: 1, title: "Harbour Light", serves: 6, courses: [cloud, cane], findings: [] };
const minute = 60_000;

beforeEach(() => {
  vi.useFakeTimers({ now: Date.UTC(2026, 10, 25, 16, 0) });
  sessionStorage.clear();
  localStorage.clear();
});
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

async function opened(): Promise<CounterState> {
  vi.spyOn(engine, "counter").mockResolvedValue(answer);
  const state = new CounterState();
  await state.open("Harbour Light", "text");
  return state;
}
/** To the bloom, whose clock runs. */
function blooming(state: CounterState): void {
  state.show(cloud);
  state.change("orange cloud 1", (make, now) => pour(make, cloud, 2, now));
}

describe("courses", () => {
  test("are asked once for a text, and again when it changes", async () => {
    const state = await opened();
    await state.open("Harbour Light", "text");
    expect(engine.counter).toHaveBeenCalledTimes(1);
    await state.open("Harbour Light", "other text");
    expect(engine.counter).toHaveBeenCalledTimes(2);
  });
  test("stay as they were begun while a make is on, and the page says so", async () => {
    const state = await opened();
    state.show(cloud);
    await state.open("Harbour Light", "other text");
    expect(engine.counter).toHaveBeenCalledTimes(1);
    expect(state.changed).toBe(true);
  });
  test("that cannot be made say why", async () => {
    const fault = { code: "c", message: "no such vessel", hint: null, file: null, line: 3, column: 1, length: 1 };
    vi.spyOn(engine, "counter").mockRejectedValue(new Refused(400, "bad_input", "cannot be made", [fault], null));
    const state = new CounterState();
    await state.open("x", "text");
    expect(state.courses).toEqual([]);
    expect(state.faults).toEqual([fault]);
    expect(state.silent).toBe("cannot be made");
  });
});

describe("while a make is on", () => {
  test("a reload finds it where it stood, its clock further on", async () => {
    const state = await opened();
    blooming(state);
    vi.advanceTimersByTime(2 * minute);
    const again = new CounterState();
    await again.open("Harbour Light", "text");
    expect(again.make).toEqual(state.make);
    expect(again.course?.part).toBe("orange cloud");
    expect(clockOf(again.make!, 0)?.started).toBe(Date.now() - 2 * minute);
    expect(engine.counter).toHaveBeenCalledTimes(1);
  });
  test("what is due rings once, stays until it is heard, and is not rung again by a reload", async () => {
    const state = await opened();
    blooming(state);
    const stop = state.start();
    vi.advanceTimersByTime(5 * minute);
    expect(state.alert?.says.replaceAll("\u00a0", " ")).toBe("bloom: open from now, 5 min are over");
    state.heard();
    vi.advanceTimersByTime(minute);
    expect(state.alert).toBeNull();
    stop();
    const again = new CounterState();
    await again.open("Harbour Light", "text");
    again.beat();
    expect(again.alert).toBeNull();
  });
  test("clocks ring on while another place is open, and time stands still once none runs", async () => {
    const state = await opened();
    blooming(state);
    state.start()();
    vi.advanceTimersByTime(5 * minute);
    expect(state.alert?.ring.bell).toBe("opens");
    state.change("orange cloud 1", (make, now) => takeOut(make, 0, now));
    vi.advanceTimersByTime(1000);
    expect(vi.getTimerCount()).toBe(0);
  });
  test("an alert goes when its clock is stopped", async () => {
    const state = await opened();
    blooming(state);
    vi.advanceTimersByTime(5 * minute);
    state.beat();
    expect(state.alert).not.toBeNull();
    state.change("orange cloud 1", (make, now) => takeOut(make, 0, now));
    expect(state.alert).toBeNull();
  });
  test("clocks of one course run on while another is made", async () => {
    const state = await opened();
    blooming(state);
    state.show(cane);
    expect(state.clocks.map(({ course, clock }) => `${course.part} ${clock.step}`)).toEqual(["orange cloud 0"]);
    vi.advanceTimersByTime(5 * minute);
    state.beat();
    expect(state.alert?.id).toBe("orange cloud 1");
  });
  test("what is typed belongs to its take", async () => {
    const state = await opened();
    state.show(cane);
    state.change("shaken cane 1", (make, now) => goOn(make, cane, now));
    state.type(state.make!, "88");
    expect(state.typed(state.make!)).toBe("88");
    state.show(cloud);
    expect(state.typed(state.make!)).toBe("");
  });
});

describe("made several times", () => {
  test("the next round begins anew, what is over of the one before is put away", async () => {
    const state = await opened();
    state.show(cane);
    state.change("shaken cane 1", (make, now) => goOn(make, cane, now));
    state.change("shaken cane 1", (make, now) => pour(make, cane, 100, now));
    state.begin(cane, 2);
    expect(state.makes.map((make) => make.id)).toEqual(["shaken cane 2"]);
    expect(state.make).toMatchObject({ round: 2, at: 0, got: {} });
  });
  test("clocks of the one before run on, and ring", async () => {
    const state = await opened();
    blooming(state);
    state.begin(cloud, 2);
    expect(state.make?.id).toBe("orange cloud 2");
    expect(state.clocks.map(({ make }) => make.id)).toEqual(["orange cloud 1"]);
    vi.advanceTimersByTime(5 * minute);
    state.beat();
    expect(state.alert?.id).toBe("orange cloud 1");
  });
});
test("the voice is remembered", () => {
  const state = new CounterState();
  expect(state.voice).toBe(false);
  state.turnVoice();
  expect(new CounterState().voice).toBe(true);
});
