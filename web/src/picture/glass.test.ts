import { describe, expect, test } from "vitest";
import type * as wire from "../api/types";
import { glassAt, levelOf, radiusAt, ruler, sectionTo, spread, volumeTo, type Ring, type Vessel } from "./glass";

// By hand: a cylinder of radius 30 mm holds pi * 3² = 28.274 mL a centimetre; a cone of radius 40 and height 90 mm holds pi * 4² * 9 / 3 = 150.796 mL,
// and up to two thirds of its height (2/3)³ of that.
const cylinder: Ring[] = [
  { h: 0, r: 30 },
  { h: 140, r: 30 },
];
const cone: Ring[] = [
  { h: 0, r: 0 },
  { h: 90, r: 40 },
];

describe("volumes of outlines", () => {
  test("a cylinder", () => {
    expect(volumeTo(cylinder, 10)).toBeCloseTo(28.274, 3);
    expect(volumeTo(cylinder, 140)).toBeCloseTo(395.841, 3);
    expect(levelOf(cylinder, 197.92)).toBeCloseTo(70, 2);
  });
  test("a cone", () => {
    expect(volumeTo(cone, 90)).toBeCloseTo(150.796, 3);
    expect(volumeTo(cone, 60)).toBeCloseTo((150.796 * 8) / 27, 2);
    expect(levelOf(cone, 150.796 / 8)).toBeCloseTo(45, 2);
  });
  test("the section is a rectangle or a triangle", () => {
    expect(sectionTo(cylinder, 50)).toBeCloseTo(50 * 60, 6);
    expect(sectionTo(cone, 90)).toBeCloseTo((90 * 80) / 2, 6);
  });
  test("level and volume undo each other in any outline", () => {
    const cup: Ring[] = [
      { h: 0, r: 12 },
      { h: 5, r: 28 },
      { h: 12, r: 36 },
      { h: 25, r: 42 },
      { h: 45, r: 45.5 },
      { h: 49.3, r: 46 },
    ];
    for (const ml of [1, 7, 40, 99, 180, 230]) expect(volumeTo(cup, levelOf(cup, ml))).toBeCloseTo(ml, 6);
    expect(radiusAt(cup, 35)).toBeCloseTo(43.75, 9);
  });
  test("what does not fit stands at the brim", () => expect(levelOf(cylinder, 1000)).toBe(140));
});

const properties = { volume_ml: 200, ice_g: 100, foam_volume_ml: 40, density_kg_m3: 1000 } as wire.Properties;
const vessel: Vessel = {
  brim_ml: 395.841,
  inside_mm: [
    [0, 30],
    [140, 30],
  ],
};

describe("the glass", () => {
  test("ice lifts the surface by its mass of liquid, foam stands on it", () => {
    const glass = glassAt(vessel, properties);
    expect(glass.surfaceMl).toBeCloseTo(300, 9);
    expect(glass.surface).toBeCloseTo(300 / 2.8274, 2);
    expect(glass.roomMl).toBeCloseTo(55.841, 6);
  });
  test("the area of the ice is its volume, by the measure of the drink", () => {
    const glass = glassAt(vessel, properties);
    // 100 g of ice are 109.05 mL; a mL of this cylinder is 60 mm / 2.8274 mL/mm wide in the section: 2.122 mm² a µL
    const area = glass.blocks.reduce((sum, block) => sum + block.side * block.side, 0);
    expect(area).toBeCloseTo((100 / 0.917) * (60 / 2.8274), 0);
  });
  test("blocks float: about a twelfth above the surface, and stay inside the walls", () => {
    const glass = glassAt(vessel, properties);
    const highest = Math.max(...glass.blocks.map((block) => block.y + block.side / 2));
    expect((highest - glass.surface) / glass.blocks[0]!.side).toBeCloseTo(0.09, 2);
    for (const block of glass.blocks) expect(Math.abs(block.x) + block.side / 2).toBeLessThanOrEqual(30);
  });
  test("an empty glass has neither level nor ice", () => {
    const glass = glassAt(vessel, null);
    expect([glass.surface, glass.top, glass.blocks.length]).toEqual([0, 0, 0]);
  });
  test("the ruler goes up to the brim", () => {
    const marks = ruler(cylinder, 395.841);
    expect(marks).toHaveLength(20);
    expect(marks[5]).toMatchObject({ ml: 100, long: true });
    expect(marks[5]!.h).toBeCloseTo(100 / 2.8274, 2);
  });
});

test("words are spread apart and stay in their room", () => {
  expect(spread([10, 12, 14], 30, 0, 200)).toEqual([10, 40, 70]);
  expect(spread([180, 190, 195], 30, 0, 200)).toEqual([140, 170, 200]);
  expect(spread([20, 90, 180], 30, 0, 200)).toEqual([20, 90, 180]);
});
