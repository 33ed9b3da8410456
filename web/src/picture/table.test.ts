// @vitest-environment happy-dom
import { render } from "@testing-library/svelte";
import { beforeEach, expect, test } from "vitest";
import { session } from "../lib/session.svelte";
import { fixture } from "./fixtures/read";
import Ledger from "./Ledger.svelte";

beforeEach(() => {
  const { sheet, outline } = fixture("08-harbour-light");
  Object.assign(session, { sheet, outline, trying: null, silentSince: 0 });
});
const focusable = "button, input, select, textarea, a[href], [tabindex]";
const plain = (text: string | null | undefined): string => (text ?? "").replace(/[\s\u00a0]+/g, " ").trim();

test("heard only: all is there as text, and nothing can have focus out of sight", () => {
  const { container } = render(Ledger, { seen: false, onfinding: () => undefined });
  expect(container.querySelectorAll(focusable)).toHaveLength(0);
  const text = plain(container.textContent);
  for (const words of ["orange cloud", "230 g", "62.8 %", "chill", "8 °C", "312 g stay", "note: 312 g of 'orange cloud' is left over"])
    expect(text).toContain(words);
});

test("seen: every written amount and condition is a pen; what is borrowed is ink", () => {
  const { container } = render(Ledger, { seen: true, onfinding: () => undefined });
  const pens = [...container.querySelectorAll("button.num")].map((one) => one.getAttribute("aria-label"));
  for (const label of [
    "orange juice, amount: 230 g. Change",
    "chill, ends at: 8 C. Change",
    "charge, charges: 1. Change",
    "ice cubes, amount: 200 g. Change",
    "orange cloud, amount: 12 g. Change",
  ])
    expect(pens).toContain(label);
  const rows = [...container.querySelectorAll("tr.take")].map((row) => [
    plain(row.querySelector("th")?.textContent),
    row.querySelectorAll(".num").length,
  ]);
  expect(rows.find(([name]) => String(name).startsWith("white sugar"))?.[1]).toBe(0);
});

test("with no engine the pens are locked", () => {
  session.silentSince = 1;
  const { container } = render(Ledger, { seen: true, onfinding: () => undefined });
  for (const pen of container.querySelectorAll<HTMLButtonElement>("button.num")) expect(pen.disabled).toBe(true);
});
