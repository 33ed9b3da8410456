// @vitest-environment happy-dom
import { beforeEach, expect, test } from "vitest";
import { cloud } from "./fixture";
import { readKept, writeKept } from "./kept";
import { begin } from "./make";

const counter = { schema: 1 as const, title: "Harbour Light", serves: 6, courses: [cloud], findings: [] };
beforeEach(() => sessionStorage.clear());

test("a make comes back as it was, with its absolute times", () => {
  const kept = { text: "title", counter, makes: [begin(cloud, 1234)], shown: "orange cloud" };
  writeKept("Harbour Light", kept);
  expect(readKept("Harbour Light")).toEqual(kept);
  expect(readKept("Quay Sour")).toBeNull();
});
test("nothing on the stove, nothing kept", () => {
  writeKept("Harbour Light", { text: "", counter, makes: [begin(cloud, 0)], shown: null });
  writeKept("Harbour Light", { text: "", counter, makes: [], shown: null });
  expect(sessionStorage.length).toBe(0);
});
test("what cannot be read is no make", () => {
  sessionStorage.setItem("bloomset.counter.x", "{");
  expect(readKept("x")).toBeNull();
});
