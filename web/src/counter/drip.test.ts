// @vitest-environment happy-dom
import { expect, test } from "vitest";
import { dripGuard, noDrips } from "./drip";

test("a touch within 400 ms of the last is a drip", () => {
  const counts = dripGuard();
  expect([1000, 1399, 1400, 1500, 1799, 1800].map(counts)).toEqual([true, false, true, false, false, true]);
});
test("a drip reaches no button, a key does", () => {
  const root = document.createElement("div");
  const button = root.appendChild(document.createElement("button"));
  let pressed = 0;
  button.addEventListener("click", () => ++pressed);
  const action = noDrips(root);
  const press = (detail: number): boolean => button.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true, detail }));
  press(1);
  press(1);
  press(0);
  expect(pressed).toBe(2);
  action.destroy();
  press(1);
  expect(pressed).toBe(3);
});
