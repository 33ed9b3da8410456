import { expect, test } from "vitest";
import { trackOf } from "./track";

test("holds every value, with room", () => {
  const track = trackOf([8.6, 8, 11, 7.2]);
  for (const value of [7.2, 8, 8.6, 11]) {
    expect(track.at(value)).toBeGreaterThan(0);
    expect(track.at(value)).toBeLessThan(1);
  }
});
test("does not tremble while a value moves a little", () => {
  const ends = [8.61, 8.62, 8.66, 8.7].map((value) => trackOf([value, 8, 11]));
  expect(new Set(ends.map((t) => `${t.low} ${t.high}`)).size).toBe(1);
});
test("keeps order and stays on the line", () => {
  const track = trackOf([-3, 0, -1]);
  expect(track.at(-3)).toBeLessThan(track.at(-1));
  expect(track.at(1000)).toBe(1);
  expect(track.at(-1000)).toBe(0);
});
test("one value, or none, has a line too", () => {
  expect(trackOf([2.76]).at(2.76)).toBeGreaterThan(0);
  expect(trackOf([null, undefined]).high).toBeGreaterThanOrEqual(1);
});
