import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { engine, Refused } from "../api/client";
import { OwnText } from "./own_text.svelte";

const found = { schema: 1 as const, kind: "larder", name: "house", revision: 3, saved_ms: 1, gone: false, text: "kept" };
const fault = { code: "c", message: "brix must lie between 0 and 85", hint: null, file: null, line: 4, column: 8, length: 2 };

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});
async function opened(faults = [] as (typeof fault)[]): Promise<OwnText> {
  vi.spyOn(engine, "read").mockResolvedValue(found);
  vi.spyOn(engine, "sound").mockResolvedValue({ faults });
  const own = new OwnText("larder", "house");
  await own.open();
  return own;
}

test("what stands on the shelf is not changed", async () => {
  const own = await opened();
  expect([own.text, own.revision, own.changed]).toEqual(["kept", 3, false]);
});
test("a text is checked once the writing pauses", async () => {
  const own = await opened();
  vi.mocked(engine.sound).mockClear();
  own.write("a");
  own.write("ab");
  await vi.advanceTimersByTimeAsync(300);
  expect(engine.sound).toHaveBeenCalledTimes(1);
  expect(engine.sound).toHaveBeenCalledWith("larder", "ab");
});
test("a text with faults is not saved, and stays", async () => {
  const own = await opened([fault]);
  const save = vi.spyOn(engine, "save");
  own.write("brix = -4");
  expect(await own.save()).toBe(false);
  expect(save).not.toHaveBeenCalled();
  expect([own.text, own.faults]).toEqual(["brix = -4", [fault]]);
});
test("a sound one is saved from the revision it was made of", async () => {
  const own = await opened();
  const save = vi.spyOn(engine, "save").mockResolvedValue({ ...found, revision: 4 });
  own.write("new");
  expect(await own.save()).toBe(true);
  expect(save).toHaveBeenCalledWith("larder", "house", "new", 3);
  expect([own.revision, own.changed]).toEqual([4, false]);
});
test("when somebody else was first, mine can go on top or theirs be taken", async () => {
  const theirs = { revision: 5, saved_ms: 2, gone: false, text: "theirs" };
  const own = await opened();
  const save = vi.spyOn(engine, "save").mockRejectedValueOnce(new Refused(412, "conflict", "changed meanwhile", [], { theirs }));
  own.write("mine");
  expect(await own.save()).toBe(false);
  expect(own.theirs).toEqual(theirs);
  save.mockResolvedValueOnce({ ...found, revision: 6 });
  expect(await own.settle(true)).toBe(true);
  expect(save).toHaveBeenLastCalledWith("larder", "house", "mine", 5);
  expect(own.theirs).toBeNull();
});
test("theirs taken is what stands here", async () => {
  const own = await opened();
  vi.spyOn(engine, "save").mockRejectedValueOnce(
    new Refused(412, "conflict", "", [], { theirs: { revision: 5, saved_ms: 2, gone: false, text: "theirs" } }),
  );
  own.write("mine");
  await own.save();
  await own.settle(false);
  expect([own.text, own.revision, own.changed]).toEqual(["theirs", 5, false]);
});
