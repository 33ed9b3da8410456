import { describe, expect, test } from "vitest";
import { tiers, type Block } from "./labels";
import { ribbon } from "./paths";
import { barMass, largest, pixels } from "./scale";
import { broken, textWidth } from "./type";
import { lossText, readable, thingName } from "./words";

const plain = (text: string): string => text.replaceAll("\u00a0", " ");

describe("what is written, as it reads", () => {
  test.each([
    ["70 C", "at", "70 °C"],
    ["-20 to -18 C", "at", "-20 to -18 °C"],
    ["3-5 h", "time", "3–5 h"],
    ["1", "charges", "1 charge"],
    ["2", "charges", "2 charges"],
    ["25 %", "until", "until 25 %"],
    ["4 piece", "", "4"],
    ["45 mL", "", "45 mL"],
    ["siphon, half litre", "vessel", "siphon, half litre"],
  ])("%s of %s: %s", (text, key, reads) => expect(plain(readable(text, key))).toBe(reads));
  test("what is said of a thing stands behind it", () => {
    expect(thingName("cane spirit (40 %vol)")).toBe("cane spirit, 40 %");
    expect(thingName("egg white (pasteurised)")).toBe("egg white, pasteurised");
    expect(thingName("lime juice")).toBe("lime juice");
  });
  test("a loss has the word of its heaviest kind, if that is half of it", () => {
    const both = [
      { kind: "evaporates", mass: 3 },
      { kind: "sticks", mass: 1 },
    ];
    expect(plain(lossText(4, both))).toBe("4.0 g steam");
    expect(plain(lossText(9, both))).toBe("9.0 g lost");
  });
});

describe("words and their room", () => {
  // Source Sans 3 has figures of 497 thousandths, and a space of 200.
  test("widths come from the face", () => expect(textWidth("230 2", 15)).toBeCloseTo((15 * (4 * 497 + 200)) / 1000, 9));
  test("lines break at spaces only", () => expect(broken("siphon, half litre", 58, 12.5)).toEqual(["siphon,", "half litre"]));
  const block = (id: string, w: number, h: number): Block => ({ id, act: id, conds: [], w, h });
  test("a neighbour that comes nearer than 8 px goes to the line above", () => {
    const { placed, height } = tiers(
      [
        { block: block("a", 50, 40), x: 100, align: "middle" },
        { block: block("b", 50, 20), x: 157, align: "middle" },
        { block: block("c", 50, 30), x: 220, align: "middle" },
      ],
      0,
      400,
    );
    expect(placed.map((one) => one.tier)).toEqual([0, 1, 0]);
    expect(height).toBe(40 + 4 + 20 + 4);
    expect(placed.map((one) => one.y)).toEqual([24, 0, 24]);
  });
});

describe("the scale", () => {
  test("threads are two pixels", () => expect([pixels(0, 1), pixels(0.3, 1), pixels(30, 0.5)]).toEqual([0, 2, 15]));
  test("the largest step that fits", () => expect(largest((k) => k <= 0.15)).toBe(0.141));
  test("the bar shows 1, 2 or 5, 11 px or more", () => expect([barMass(0.141), barMass(0.05), barMass(2)]).toEqual([100, 500, 10]));
});

test("a ribbon has horizontal handles at half the distance, and keeps its height", () => {
  const path = ribbon([
    { x: 0, y: 10, h: 6 },
    { x: 100, y: 40, h: 6 },
  ]);
  expect(path.upper).toBe("M0,10C50,10 50,40 100,40");
  expect(path.lower).toBe("M0,16C50,16 50,46 100,46");
  expect(path.fill).toBe("M0,10C50,10 50,40 100,40L100,46C50,46 50,16 0,16Z");
});
