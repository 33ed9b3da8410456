import { expect, test } from "vitest";
import { stepped } from "./step";

test.each([
  ["45 mL", 1, "46 mL"],
  ["45 mL", -10, "35 mL"],
  ["1.1 %", -1, "1.0 %"],
  ["10-12 min", 1, "11-13 min"],
  ["-20 to -18 C", 1, "-19 to -17 C"],
  ["2 g", -10, "0 g"],
  ["all", 1, "all"],
  ["0.75 oz", 1, "0.76 oz"],
])("%s by %d", (text, by, next) => expect(stepped(text, by)).toBe(next));
