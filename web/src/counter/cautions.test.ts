import { expect, test } from "vitest";
import type { Finding } from "../api/types";
import { cautionsOf } from "./cautions";
import { stepOf } from "./fixture";

const finding = (code: string, severity: Finding["severity"], says: string): Finding => ({
  code,
  severity,
  says,
  why: "",
  source: "",
  remedies: [],
  from_serves: null,
  where: { part: null, step: null, take: null, property: null, file: null, line: null, column: null },
});
const findings = [
  finding("gas_caution", "note", "let the gas out first"),
  finding("assumption", "note", "honey is taken as 82.4 Brix"),
  finding("too_acid", "mind", "gelatin sets softer"),
  finding("over_charges", "stop", "too many charges"),
  finding("assumption", "mind", "the sieve holds much"),
];

test("the heaviest first, notes on reckoning not at all, then the usual cautions", () =>
  expect(cautionsOf(stepOf(1, "charge", { findings: [0, 1, 2, 3, 4], cautions: ["Hot sugar sticks."] }), findings)).toEqual([
    { severity: "stop", says: "Too many charges." },
    { severity: "mind", says: "Gelatin sets softer." },
    { severity: "mind", says: "The sieve holds much." },
    { severity: "note", says: "Let the gas out first." },
    { severity: "note", says: "Hot sugar sticks." },
  ]));
test("a caution that only repeats a finding is the finding", () =>
  expect(
    cautionsOf(stepOf(1, "charge", { findings: [0, 1], cautions: ["let the gas out first", "honey is taken as 82.4 Brix"] }), findings),
  ).toEqual([{ severity: "note", says: "Let the gas out first." }]));
test("nothing twice, and a finding that is not there is passed over", () =>
  expect(cautionsOf(stepOf(1, "charge", { findings: [0, 9], cautions: ["let the gas out first"] }), findings)).toHaveLength(1));
