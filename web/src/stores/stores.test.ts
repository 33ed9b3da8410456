import { describe, expect, test } from "vitest";
import type { Fault, KitVessel, LarderNumbers, Thing } from "../api/types";
import { byFamily, matches } from "./find";
import { homeless, linesOf, spanOf } from "./lines";
import { told, typedNumber, variesWords } from "./larder_numbers";
import { byKind, fillAt, sectionOf } from "./section";
import { documentName, freeName, pieces } from "./shelf";
import { sourceWords } from "./sources";
import { keyOf, withKey } from "./toml_keys";

const plain = (text: string): string => text.replaceAll("\u00a0", " ");

describe("finding", () => {
  test.each([
    ["lime", true],
    ["LIME ju", true],
    ["juice lime", true],
    ["ju", true],
    ["ime", true],
    ["im", false],
    ["lime syrup", false],
    ["", true],
  ])("lime juice by %j: %s", (typed, found) => expect(matches(["lime juice"], typed)).toBe(found));
  test("accents do not count", () => expect(matches(["crème fraîche"], "creme frai")).toBe(true));
  test("other names count", () => expect(matches(["mandarin juice", "tangerine juice"], "tanger")).toBe(true));
  test("families keep their order, those without a find go", () => {
    const thing = (name: string, family: string): Thing => ({ name, family, also: [] }) as unknown as Thing;
    const all = [thing("rye", "spirit"), thing("lime juice", "juice"), thing("apple juice", "juice"), thing("odd", "unheard_of")];
    expect(byFamily(all, "").map((one) => `${one.family}: ${one.things.map((each) => each.name).join(", ")}`)).toEqual([
      "juice: apple juice, lime juice",
      "spirit: rye",
      "unheard_of: odd",
    ]);
    expect(byFamily(all, "rye").map((one) => one.family)).toEqual(["spirit"]);
  });
});

describe("names on the shelf", () => {
  const taken =
    (...names: string[]) =>
    (name: string) =>
      names.includes(name);
  test.each([
    ["Harbour Light", [], "Harbour Light 2"],
    ["Harbour Light", ["Harbour Light 2"], "Harbour Light 3"],
    ["Harbour Light 2", ["Harbour Light 2"], "Harbour Light 3"],
    ["1815", [], "1815 2"],
  ])("a copy of %s is", (name, others, next) => expect(freeName(name, taken(...others))).toBe(next));
  test("what was found is told apart", () =>
    expect(pieces("… 230 g «orange» juice\n  …")).toEqual([
      { text: "… 230 g ", found: false },
      { text: "orange", found: true },
      { text: " juice …", found: false },
    ]));
  test("a document's name has no slash", () => expect(documentName(" rum/rye ")).toBe("rum-rye"));
});

describe("one key of a larder document", () => {
  const text = `# mine
[[thing]]
name   = "rowan syrup"  # cooked in August
brix   = 58   # read twice
source = "own refractometer"
[thing.varies]
brix = 0.05

[[thing]]
name = 'quince "jam"'
like = "honey"
`;
  test("is read as it stands", () => {
    expect(keyOf(text, "rowan syrup", "brix")).toBe("58");
    expect(keyOf(text, "rowan syrup", "source")).toBe("own refractometer");
    expect(keyOf(text, "rowan syrup", "ph")).toBe("");
    expect(keyOf(text, 'quince "jam"', "like")).toBe("honey");
    expect(keyOf(text, "nothing", "brix")).toBe("");
  });
  test("changes where it stands, with the comment behind it", () =>
    expect(withKey(text, "rowan syrup", "brix", "59.5")).toBe(text.replace("= 58 ", "= 59.5 ")));
  test("is added behind the thing's own keys, not into its tables", () =>
    expect(withKey(text, "rowan syrup", "ph", "3.4")).toBe(text.replace('refractometer"\n', 'refractometer"\nph = 3.4\n')));
  test("is added at the end of the last thing", () =>
    expect(withKey(text, 'quince "jam"', "currency", "EUR")).toBe(`${text.trimEnd()}\ncurrency = "EUR"\n`));
  test("goes when it is empty", () =>
    expect(withKey(text, "rowan syrup", "brix", " ")).toBe(text.replace("brix   = 58   # read twice\n", "")));
  test("of a thing that is not there changes nothing", () => expect(withKey(text, "nothing", "brix", "1")).toBe(text));
  test("a text is quoted, quotes in it are seen to", () =>
    expect(withKey(text, "rowan syrup", "source", 'label "old"')).toContain('source = "label \\"old\\""\n'));
});

describe("lines", () => {
  const fault = (line: number | null): Fault => ({ code: "c", message: "m", hint: null, file: null, line, column: 1, length: 1 });
  test("carry their faults", () =>
    expect(linesOf("a\nbcd\n", [fault(2)]).map((line) => [line.number, line.length, line.faults.length])).toEqual([
      [1, 1, 0],
      [2, 3, 1],
      [3, 0, 0],
    ]));
  test("faults without a line are not lost", () => expect(homeless("a\nb", [fault(null), fault(2), fault(9)])).toHaveLength(2));
  test("a line has its place", () => expect(spanOf("a\nbcd\ne", 2)).toEqual({ begin: 2, end: 5 }));
});

describe("vessels", () => {
  const vessel = (more: Partial<KitVessel>): KitVessel =>
    ({ name: "", kind: "glass", brim_ml: null, fill_line_ml: null, inside_mm: [], ...more }) as KitVessel;
  test("stand in section, brim up, as wide as their widest point", () => {
    const section = sectionOf(
      vessel({
        inside_mm: [
          [0, 20],
          [20, 45],
          [48, 40],
        ],
      }),
    );
    expect(section).toEqual({ width: 98, height: 48, path: "M9 0L4 28L29 48L69 48L94 28L89 0" });
  });
  test("without an outline have none", () => expect(sectionOf(vessel({ inside_mm: [[0, 20]] }))).toBeNull());
  test("have their fill line as a share of the brim", () => {
    expect(fillAt(vessel({ brim_ml: 750, fill_line_ml: 500 }))).toBeCloseTo(2 / 3);
    expect(fillAt(vessel({ brim_ml: 750 }))).toBeNull();
  });
  test("stand by what they are for", () =>
    expect(
      byKind([vessel({ kind: "pan" }), vessel({ kind: "glass" }), vessel({ kind: "tray" }), vessel({ kind: "jug" })]).map(
        (one) => `${one.kind} ${one.vessels.length}`,
      ),
    ).toEqual(["glasses and cups 1", "pans, trays and moulds 2", "other 1"]));
});

test("sources in words", () => {
  expect(sourceWords("practice")).toBe("common practice, no published source");
  expect(sourceWords("memory: a handbook")).toBe("from memory of a handbook");
  expect(sourceWords("ifct2017")).toBe("published, “ifct2017” in the list of sources");
  expect(sourceWords("own refractometer, twelve boxes")).toBe("own refractometer, twelve boxes");
  expect(sourceWords("")).toBe("no source told");
});
test("numbers that a thing has, and how they vary", () => {
  const numbers = { brix: 10.6, ph: 3.6, acid_percent: null } as LarderNumbers;
  const all = Object.fromEntries(
    ["brix", "acid_percent", "ph", "strength_percent", "density_kg_m3", "piece_g", "storage_c", "yield_percent", "co2_g_l", "bloom"].map(
      (key) => [key, null],
    ),
  );
  expect(told({ ...all, ...numbers }).map(({ kind, value }) => plain(`${kind.word} ${value}`))).toEqual([
    "dissolved solids 10.6 °Bx",
    "pH 3.60",
  ]);
  expect(plain(variesWords({ property: "brix", width: 0.05, relative: true, source: "" }))).toBe("dissolved solids ± 5.0 %");
  expect(variesWords({ property: "ph", width: 0.1, relative: false, source: "" })).toBe("pH ± 0.10");
});
test.each([
  ["12", 12],
  ["12,5", 12.5],
  ["−18", -18],
  ["12 g", null],
  ["", null],
])("a typed number %j", (text, value) => expect(typedNumber(text)).toBe(value));
