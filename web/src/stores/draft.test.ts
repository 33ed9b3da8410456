import { describe, expect, test } from "vitest";
import type { LarderNumbers, Thing } from "../api/types";
import { draftOf, fieldsOf } from "./draft";

const none: LarderNumbers = {
  brix: null,
  acid_percent: null,
  ph: null,
  strength_percent: null,
  density_kg_m3: null,
  piece_g: null,
  storage_c: null,
  yield_percent: null,
  co2_g_l: null,
  bloom: null,
};
const thing = (family: string, numbers: Partial<LarderNumbers>, pack: Thing["pack"] = null): Thing =>
  ({ family, numbers: { ...none, ...numbers }, pack }) as Thing;

describe("fields", () => {
  test("are those of the family and those that it has", () => {
    const keys = fieldsOf(thing("spirit", { strength_percent: 40, density_kg_m3: 948 })).map((field) => field.key);
    expect(keys).toEqual(["strength", "density", "storage_c", "pack_ml", "price", "currency"]);
    expect(fieldsOf(thing("spice", { piece_g: 0.2 })).map((field) => field.key)).toEqual([
      "piece_g",
      "storage_c",
      "pack_g",
      "price",
      "currency",
    ]);
  });
  test("show what is in force only where it is written in the same unit", () => {
    const now = Object.fromEntries(
      fieldsOf(thing("juice", { brix: 10.6, acid_percent: 0.91, ph: 3.6 })).map((field) => [field.key, field.now]),
    );
    expect(now).toMatchObject({ brix: "10.6", acid_g_l: "", ph: "3.60" });
  });
  test("show the pack and its price", () => {
    const pack = { mass_g: null, volume_ml: 1000, price: 3.2, currency: "EUR" };
    expect(
      fieldsOf(thing("juice", {}, pack))
        .filter((field) => field.pack)
        .map((field) => field.now),
    ).toEqual(["1000", "3.20", "EUR"]);
  });
});
test("what was typed goes under the document's keys; what was not stays out; what is no number is told", () => {
  const fields = fieldsOf(thing("juice", {}));
  expect(draftOf(fields, { brix: "10,6", ph: " ", acid_g_l: "much", price: "3.20", currency: "eur" })).toEqual({
    numbers: { brix: 10.6 },
    pack: { price: 3.2, currency: "EUR" },
    unread: ["acid_g_l"],
  });
});
