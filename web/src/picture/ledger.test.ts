import { expect, test } from "vitest";
import { fixture, fixtures } from "./fixtures/read";
import { ledgerOf, type Line } from "./ledger";

const said = (line: Line): string => {
  if (line.kind === "head") return `# ${line.group.name}`;
  if (line.kind === "take") return line.row.label;
  if (line.kind === "step") return `> ${line.step.do}`;
  return line.kind === "stay" ? `= ${line.says.replaceAll("\u00a0", " ")}` : `! ${line.finding.code}`;
};

test("takes stand before the step that receives them, parts as in the picture", () => {
  const { sheet, outline } = fixture("08-harbour-light");
  const lines = ledgerOf(sheet, outline)
    .filter((line) => line.kind !== "finding")
    .map(said);
  expect(lines).toEqual([
    "# orange cloud",
    ...["orange juice", "honey", "cardamom pod", "> infuse", "> strain", "gelatin, gold leaf", "water it drinks", "> bloom", "> combine"],
    ...["orange juice", "> combine", "> strain", "> chill", "> charge", "> rest", "= 312 g stay"],
    "# shaken cane",
    ...["cane spirit, 40 %", "orange juice", "lime juice", "house syrup", "ice cubes", "> shake"],
    "# house syrup",
    ...["water", "white sugar", "> warm", "> chill", "> rest", "= 384 g stay"],
    "# the glass",
    ...["ice cubes", "shaken cane", "> pour", "ginger soda", "> top", "orange cloud", "> dispense", "mint sprig", "> garnish"],
  ]);
});

test.each(fixtures)("$name: every finding that has a place is in the table once, and every id is its own", ({ sheet, outline }) => {
  const lines = ledgerOf(sheet, outline);
  expect(new Set(lines.map((line) => line.id)).size).toBe(lines.length);
  const told = lines.flatMap((line) => (line.kind === "finding" ? [line.index] : []));
  expect(new Set(told).size).toBe(told.length);
  const placed = sheet.findings.filter((one) => one.where.part !== null).length;
  expect(told.length).toBe(placed);
});
