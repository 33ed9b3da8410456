// What must hold for any formula: run over the whole demo and the large formula, at three widths, with parts folded and unfolded.
import { describe, expect, test } from "vitest";
import type * as wire from "../api/types";
import { fixture, fixtures, type Fixture } from "./fixtures/read";
import { layout, type Ask, type Flowing } from "./layout";
import { makeModel } from "./model";
import { foldWide, thingSize, thingStart } from "./prepare";
import { pixels, steps, thinnest } from "./scale";
import { textWidth } from "./type";

const none = new Set<number>();
const borrowed = (outline: wire.Outline): Set<number> => new Set(outline.parts.filter((part) => part.borrowed).map((part) => part.index));
const ask = (one: Fixture, more: Partial<Ask> = {}): Ask => ({
  sheet: one.sheet,
  outline: one.outline,
  width: 1056,
  height: 720,
  gate: 736,
  folded: borrowed(one.outline),
  lanes: new Map(),
  field: null,
  k: null,
  ...more,
});
const cases = fixtures.flatMap((one) =>
  [
    { gate: 560, folded: borrowed(one.outline) },
    { gate: 736, folded: none },
    { gate: 980, folded: borrowed(one.outline) },
  ].map((more) => ({ name: `${one.name}, gate ${more.gate}`, flow: layout(ask(one, { ...more, width: more.gate + 8 })) })),
);

interface Box {
  what: string;
  x: number;
  y: number;
  w: number;
  h: number;
}
/** Every piece of text with its place. */
function words(flow: Flowing): Box[] {
  const rows = flow.rows.flatMap(({ row, lines, top, slot, y }) => [
    { what: `row ${row.id}`, x: 0, y: top, w: flow.edge - 10, h: slot },
    { what: `thing ${row.id}`, x: thingStart, y: y - 8, w: Math.max(0, ...lines.map((line) => textWidth(line, thingSize))), h: 16 },
  ]);
  return [
    ...rows.filter((box) => box.what.startsWith("row")),
    ...flow.groups.map(({ group, head, y }) => ({ what: `head ${group.name}`, x: 0, y, w: flow.edge - 10, h: head.lines === 2 ? 44 : 28 })),
    ...[...flow.words, ...flow.arms].map(({ id, x, y, w, h }) => ({ what: `words ${id}`, x, y, w, h })),
    ...flow.notes.map(({ id, x, y, w, h }) => ({ what: id, x, y, w, h })),
    ...flow.lanes.map(({ part, x, y, w, h }) => ({ what: `lane ${part}`, x, y, w, h })),
  ];
}
const meets = (a: Box, b: Box): boolean => a.x < b.x + b.w - 0.5 && b.x < a.x + a.w - 0.5 && a.y < b.y + b.h - 0.5 && b.y < a.y + a.h - 0.5;

describe("for every formula of the demo", () => {
  test.each(cases)("$name: no two labels overlap", ({ flow }) => {
    const boxes = words(flow);
    const touching = boxes.flatMap((a, i) => boxes.slice(i + 1).flatMap((b) => (meets(a, b) ? [`${a.what} / ${b.what}`] : [])));
    expect(touching).toEqual([]);
  });

  test.each(cases)("$name: every word stands inside the picture", ({ flow }) => {
    for (const box of words(flow)) {
      expect(box.x, box.what).toBeGreaterThanOrEqual(-0.5);
      expect(box.x + box.w, box.what).toBeLessThanOrEqual(flow.gate.x + 0.5);
      expect(box.y, box.what).toBeGreaterThanOrEqual(0);
      expect(box.y + box.h, box.what).toBeLessThanOrEqual(flow.height);
    }
  });

  test.each(cases)("$name: ribbons stack at a bar without gap or overlap", ({ flow }) => {
    for (const bar of flow.bars) {
      const entering = flow.ribbons
        .filter((one) => one.flow.to === bar.bar.id)
        .map((one) => one.points.at(-1)!)
        .sort((a, b) => a.y - b.y);
      let at = bar.y + 3;
      for (const point of entering) {
        expect(point.x).toBe(bar.x);
        expect(point.y).toBeCloseTo(at, 6);
        at += point.h;
      }
      expect(at).toBeLessThanOrEqual(bar.y + bar.h - 2.999);
    }
  });

  test.each(cases)("$name: what enters a bar leaves it: in grams, and in px but for the threads", ({ flow }) => {
    for (const { bar } of flow.bars) {
      const grams = (flows: { mass: number }[]): number => flows.reduce((sum, one) => sum + one.mass, 0);
      const px = (flows: { mass: number }[]): number => flows.reduce((sum, one) => sum + pixels(one.mass, flow.k), 0);
      const threads = [...bar.ins, ...bar.outs].filter((one) => one.mass * flow.k < thinnest).length;
      expect(grams(bar.ins), bar.id).toBeCloseTo(grams(bar.outs), 2);
      expect(Math.abs(px(bar.ins) - px(bar.outs)), bar.id).toBeLessThanOrEqual(thinnest * threads + 0.02);
    }
  });

  test.each(cases)("$name: what feeds stands left of what is fed, the gate is last", ({ flow }) => {
    const at = new Map(flow.bars.map((bar) => [bar.bar.id, bar.x]));
    for (const { flow: one } of flow.ribbons) {
      const [from, to] = [at.get(one.from), at.get(one.to)];
      if (from !== undefined && to !== undefined) expect(from + 9, one.id).toBeLessThan(to);
    }
    for (const bar of flow.bars) expect(bar.x + 9).toBeLessThan(flow.gate.x);
  });

  test.each(cases)("$name: a row keeps clear of the bars of its part that it passes", ({ flow }) => {
    for (const ribbon of flow.ribbons.filter((one) => one.flow.kind === "take")) {
      const row = flow.rows.find((one) => one.row.id === ribbon.flow.from)!;
      const level = ribbon.points.length > 2 ? ribbon.points[1]!.x : flow.edge;
      for (const bar of flow.bars.filter((one) => one.bar.part === row.row.part && one.x < level)) {
        const over = row.y - row.h / 2 < bar.y + bar.h && bar.y < row.y + row.h / 2;
        expect(over, `${row.row.id} through ${bar.bar.id}`).toBe(false);
      }
    }
  });

  test.each(fixtures)("$name: the same input, the same picture", (one) => {
    const again = structuredClone(one);
    expect(JSON.stringify(layout(ask(again)).ribbons)).toBe(JSON.stringify(layout(ask(one)).ribbons));
  });

  test.each(fixtures)("$name: no order changes when amounts move by a few percent", (one) => {
    const order = (flow: Flowing): string[] => [...flow.groups.map((group) => group.group.name), ...flow.rows.map((row) => row.row.id)];
    const before = order(layout(ask(one)));
    for (const seed of [1, 2, 3]) {
      const moved = structuredClone(one);
      moved.sheet.streams.forEach((stream, i) => (stream.mass_g = (stream.mass_g ?? 0) * (1 + (((i * 37 + seed * 11) % 9) - 4) / 100)));
      expect(order(layout(ask(moved)))).toEqual(before);
    }
  });
});

describe("the scale", () => {
  const harbour = fixture("08-harbour-light");
  test("is one of twenty a decade", () => expect(steps).toContain(layout(ask(harbour)).k));
  test("is kept while a person types", () => {
    const k = layout(ask(harbour)).k;
    const typed = structuredClone(harbour);
    typed.sheet.streams.find((one) => one.id.startsWith("take:1.1.1"))!.mass_g = 270;
    const held = layout(ask(typed, { k }));
    expect(held.k).toBe(k);
    expect(held.rows.find((row) => row.row.id === "take:1.1.1")!.h).toBeCloseTo(270 * k, 6);
  });
  test("settles early when a ribbon would outgrow its slot", () => {
    const k = layout(ask(harbour)).k;
    const typed = structuredClone(harbour);
    for (const stream of typed.sheet.streams) stream.mass_g = (stream.mass_g ?? 0) * 10;
    expect(layout(ask(typed, { k })).k).toBeLessThan(k);
  });
  test("what is too little to see is two pixels and still has a slot for its words", () => {
    const flow = layout(ask(harbour));
    const gelatin = flow.rows.find((row) => row.row.id === "take:1.3.1")!;
    expect(gelatin.row.mass * flow.k).toBeLessThan(thinnest);
    expect([gelatin.h, gelatin.slot]).toEqual([thinnest, 25]);
  });
});

describe("Harbour Light", () => {
  const harbour = fixture("08-harbour-light");
  const flow = layout(ask(harbour));
  test("stands in the order of the glass; the syrup next to who uses it", () =>
    expect(flow.groups.map((group) => group.group.name)).toEqual(["orange cloud", "shaken cane", "house syrup", "the glass"]));
  test("the glass reads from the top down: what goes in last stands first", () => {
    const glass = flow.rows.filter((row) => row.group.serve);
    expect(glass.map((row) => row.row.label)).toEqual(["mint sprig", "ginger soda", "ice cubes"]);
  });
  test("bloom is a side arm: the juice passes it by", () => {
    const arm = flow.bars.find((bar) => bar.bar.id === "step:1.3")!;
    expect(arm.bar.arm).toBe(true);
    expect(arm.bar.ins.map((one) => one.from)).toEqual(["take:1.3.1", "take:1.3.65534"]);
    const main = flow.ribbons.find((one) => one.flow.from === "step:1.2" && one.flow.to === "step:1.4")!;
    expect(main.flow.mass).toBeCloseTo(260.68684, 4);
  });
  test("of the shaking ice only what melts is drawn: 1200 g less the 917.69 g that stay in the tin", () => {
    const ice = flow.rows.find((row) => row.row.kind === "ice")!.row;
    expect([ice.gross, ice.mass]).toEqual([1200, expect.closeTo(282.3077, 3)]);
  });
  test("a borrowed part is one row and one bar: the whole batch", () => {
    const syrup = flow.groups.find((group) => group.group.name === "house syrup")!.group;
    expect([syrup.rows.length, syrup.bars.length]).toEqual([1, 1]);
    expect(syrup.rows[0]!.mass).toBeCloseTo(111.309989 + 384.437003, 3);
    expect(syrup.bars[0]!.outs.map((one) => one.kind)).toEqual(["strand", "stay"]);
  });
  test("the bracket says what stays and for how many it is enough", () => {
    const note = flow.notes
      .filter((one) => one.part === 1 && (one.kind === "stay" || one.id.startsWith("stay-on")))
      .flatMap((one) => one.lines);
    expect(note.join(" ").replaceAll("\u00a0", " ")).toMatch(/312 g stay.*enough for 31, keeps 2 d|enough for 31, keeps 2 d.*312 g stay/);
  });
  test("an open finding makes room under its part and pushes the rest down", () => {
    const open = layout(ask(harbour, { lanes: new Map([[1, 150]]), k: flow.k }));
    const y = (one: Flowing, name: string): number => one.groups.find((group) => group.group.name === name)!.y;
    expect(y(open, "orange cloud")).toBe(y(flow, "orange cloud"));
    expect(y(open, "shaken cane")).toBeCloseTo(y(flow, "shaken cane") + 170, 6);
  });
  test("too little is a dashed bracket", () => {
    const short = structuredClone(harbour);
    Object.assign(short.sheet.parts[0]!, { short_g: 96, left_over_g: 0 });
    short.sheet.streams = short.sheet.streams.filter((one) => one.id !== "step:1.9>left over");
    const bracket = layout(ask(short)).brackets.find((one) => one.part === 1)!;
    expect(bracket.dashed).toBe(true);
  });
});

test("a bath gives what it gives; the rest of it stays in its own part", () => {
  const roe = fixture("12-buoys-and-roe");
  const model = makeModel(roe.sheet, roe.outline, none);
  const sphere = model.bars.get("step:2.4")!;
  expect(sphere.ins.find((one) => one.kind === "strand")!.mass).toBeCloseTo(1000 - 988.346, 1);
  const bath = model.groups.find((group) => group.name === "alginate bath")!;
  expect(bath.stays).toBeCloseTo(5 + 988.346, 1);
});

test("a part name's fold button has its room in the head", () => expect(foldWide).toBeGreaterThanOrEqual(18));
