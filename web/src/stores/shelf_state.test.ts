import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { engine, Refused } from "../api/client";
import { ShelfState } from "./shelf_state.svelte";

const entry = (name: string, saved_ms: number, kind = "formula", revision = 1) => ({ kind, name, revision, saved_ms });
const documents = (...all: ReturnType<typeof entry>[]) => ({ schema: 1 as const, documents: all });
const saved = (name: string, revision: number) => ({ schema: 1 as const, kind: "formula", name, revision, saved_ms: 900, gone: false });
const names = (shelf: ShelfState): string[] => shelf.shown.map((row) => row.entry.name);

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});
async function loaded(...all: ReturnType<typeof entry>[]): Promise<ShelfState> {
  vi.spyOn(engine, "documents").mockResolvedValue(documents(...all));
  const shelf = new ShelfState();
  await shelf.load();
  return shelf;
}

test("the last written comes first; one kind can be looked at alone", async () => {
  const shelf = await loaded(entry("a", 1), entry("b", 3), entry("rum", 2, "larder"));
  expect(names(shelf)).toEqual(["b", "rum", "a"]);
  shelf.kind = "larder";
  expect(names(shelf)).toEqual(["rum"]);
  expect(shelf.says).toBe("one document");
});
test("of ten thousand only the first are laid out, more on a press", async () => {
  const shelf = await loaded(...Array.from({ length: 10_000 }, (_, index) => entry(`n${index}`, index)));
  expect(shelf.shown).toHaveLength(60);
  expect(shelf.more).toBe(9940);
  shelf.showMore();
  expect(shelf.shown).toHaveLength(260);
});

describe("looking", () => {
  test("waits for the typing to pause and shows only the newest answer", async () => {
    const shelf = await loaded(entry("a", 1));
    const asked = vi
      .spyOn(engine, "search")
      .mockImplementation((words) => Promise.resolve({ schema: 1, documents: [{ ...entry(words, 1), excerpt: "«x»" }] }));
    shelf.look("o");
    shelf.look("or");
    await vi.advanceTimersByTimeAsync(200);
    expect(asked.mock.calls.map(([words]) => words)).toEqual(["or"]);
    expect(names(shelf)).toEqual(["or"]);
    expect(shelf.says).toBe("one found");
    shelf.look(" ");
    expect(names(shelf)).toEqual(["a"]);
  });
});

describe("one document", () => {
  test("is copied under a free name, with its title", async () => {
    const shelf = await loaded(entry("Harbour Light", 1), entry("Harbour Light 2", 2));
    vi.spyOn(engine, "read").mockResolvedValue({ ...saved("Harbour Light", 1), text: "old" });
    vi.spyOn(engine, "bench").mockResolvedValue({ schema: 1, text: "new title", outline: null, sheet: null, faults: [] });
    const save = vi.spyOn(engine, "save").mockResolvedValue(saved("Harbour Light 3", 1));
    expect(await shelf.copy(shelf.shown[1]!.entry)).toBe("Harbour Light 3");
    expect(save).toHaveBeenCalledWith("formula", "Harbour Light 3", "new title", 0);
    expect(names(shelf)[0]).toBe("Harbour Light 3");
  });
  test("is removed in its place and comes back with its text", async () => {
    const shelf = await loaded(entry("a", 2), entry("b", 1));
    const one = shelf.shown[0]!.entry;
    vi.spyOn(engine, "read").mockResolvedValue({ ...saved("a", 4), text: "text" });
    vi.spyOn(engine, "remove").mockResolvedValue({ ...saved("a", 5), gone: true });
    const save = vi.spyOn(engine, "save").mockResolvedValue(saved("a", 6));
    await shelf.remove(one);
    expect(shelf.isGone(one)).toBe(true);
    expect(names(shelf)).toEqual(["a", "b"]);
    await shelf.bringBack(one);
    expect(save).toHaveBeenCalledWith("formula", "a", "text", 5);
    expect(shelf.isGone(one)).toBe(false);
    expect(shelf.shown[0]!.entry.revision).toBe(6);
  });
  test("takes an earlier revision as its newest", async () => {
    const shelf = await loaded(entry("a", 2, "formula", 7));
    vi.spyOn(engine, "revision").mockResolvedValue({ ...saved("a", 3), text: "third" });
    const save = vi.spyOn(engine, "save").mockResolvedValue(saved("a", 8));
    await shelf.restore(shelf.shown[0]!.entry, 3);
    expect(save).toHaveBeenCalledWith("formula", "a", "third", 7);
  });
  test("that cannot be removed stays, and says why", async () => {
    const shelf = await loaded(entry("a", 2));
    vi.spyOn(engine, "read").mockRejectedValue(new Refused(507, "io", "the disk is full", [], null));
    await shelf.remove(shelf.shown[0]!.entry);
    expect(shelf.isGone(shelf.shown[0]!.entry)).toBe(false);
    expect(shelf.trouble).toBe("the disk is full");
  });
});
