// arrange.ts - the picture at one scale: groups one under the other, rows in their slots, bars on the chain's level, ribbons between them.
//
// Inside a part nothing crosses: the chain runs level at the top, what comes later stands lower and joins from below, further right. A row for a later
// step keeps clear of every bar it passes under. All in px; y grows downwards.
import { barWidth } from "./columns";
import { notesOf } from "./foot";
import type { Bar, Flow } from "./model";
import { ribbon, stub, type Point } from "./paths";
import type { Lettered, Prepared } from "./prepare";
import { barMass, pixels, thinnest } from "./scale";
import type { Flowing, PlacedBar, PlacedRow } from "./shapes";
import { incoming, inTurn } from "./turn";
import { gateText } from "./words";

const gateHead = 22;
const slotLeast = 25;
const slotTwo = 42;
const lossDrop = 10;
const lossRoom = 36;
const fieldRoom = 36;
const groupGap = 30;

/** All positions at `k` px a gram. */
export function arrange(prepared: Prepared, k: number): Flowing {
  const px = (grams: number): number => pixels(grams, k);
  const { ask } = prepared;
  const all: Flowing = {
    width: ask.width,
    height: 0,
    k,
    edge: prepared.edge,
    gate: { x: ask.gate, top: 2, bottom: 0, text: gateText(ask.sheet) },
    groups: [],
    rows: [],
    ribbons: [],
    bars: [],
    words: [],
    arms: [],
    stubs: [],
    notes: [],
    brackets: [],
    lanes: [],
    marks: [],
    ends: [],
    field: null,
    scale: { y: 0, mass: barMass(k), h: 0, under: 0 },
  };
  const rank = new Map(prepared.groups.map((one, i) => [one.group.part, i]));
  let y = gateHead;
  for (const one of prepared.groups) {
    const foot = group(prepared, one, y, px, all, rank);
    const lane = ask.lanes.get(one.group.part) ?? 0;
    const h = foot - y;
    all.groups.push({ group: one.group, head: one.head, y, h });
    y = foot;
    if (lane > 0) {
      all.lanes.push({ part: one.group.part, x: prepared.edge + 10, y: y + 12, w: ask.gate - prepared.edge - 24, h: lane });
      y += lane + 20;
    }
    y += groupGap;
  }
  all.gate.bottom = y - groupGap + 8;
  flows(prepared, px, all, rank);
  const mass = barMass(k);
  all.scale = { y: y - 6, mass, h: mass * k, under: thinnest / k };
  all.height = Math.ceil(all.scale.y + Math.max(26, all.scale.h) + 8);
  const whole = ask.lanes.get(-1) ?? 0;
  if (whole > 0) {
    all.lanes.push({ part: -1, x: 0, y: all.height, w: ask.gate - 14, h: whole });
    all.height += whole + 12;
  }
  return all;
}

type Grouped = Prepared["groups"][number];

/** Rows, bars and words of one group from `y0` down; answers where it ends. */
function group(
  prepared: Prepared,
  one: Grouped,
  y0: number,
  px: (grams: number) => number,
  all: Flowing,
  rank: Map<number, number>,
): number {
  const { at, ask } = prepared;
  const headHigh = one.head.lines === 2 ? 44 : 28;
  const chainTop = y0 + Math.max(46, one.bandHeight + 10);
  // The first rows stand beside the chain, not beside the words above it.
  const rowsTop = Math.max(y0 + headHigh + 12, one.group.bars.length > 0 ? chainTop - 10 : 0);
  const chain = one.group.bars.filter((bar) => !bar.arm);
  const heights = new Map(one.group.bars.map((bar) => [bar.id, barHeight(bar, px)]));
  for (const bar of chain) all.bars.push({ bar, x: at.get(bar.id)!, y: chainTop - 3, h: heights.get(bar.id)! });
  all.words.push(...one.band.map((words) => ({ ...words, y: words.y + chainTop - one.bandHeight - 6 })));

  let y = rowsTop;
  let armFoot = 0;
  let foot = rowsTop;
  const passes = (bar: Bar | undefined): number => {
    let clear = 0;
    const mine = bar ? at.get(bar.id)! : Number.POSITIVE_INFINITY;
    for (const other of chain) {
      if (at.get(other.id)! >= mine - 1) continue;
      const room = other.outs.some((flow) => flow.to === "loss") ? lossRoom : 8;
      clear = Math.max(clear, chainTop - 3 + heights.get(other.id)! + room);
    }
    return clear;
  };
  const bySteps = [...new Set(one.rows.map((row) => row.row.step))];
  for (const step of bySteps) {
    const bar = one.group.bars.find((candidate) => candidate.step === step);
    if (bar && bar !== chain[0]) y = Math.max(y + 2, passes(bar), armFoot);
    const mine = one.rows.filter((row) => row.row.step === step);
    for (const row of mine) {
      const slot = slotOf(row, px);
      all.rows.push({ ...row, group: one.group, y: y + slot / 2, h: px(row.row.mass), top: y, slot, lead: null });
      y += slot;
    }
    if (ask.field?.part === one.group.part && ask.field.step === step) {
      all.field = { ...ask.field, y };
      y += fieldRoom;
    }
    if (bar?.arm) armFoot = arm(prepared, bar, mine, heights.get(bar.id)!, all);
    foot = Math.max(foot, y, armFoot);
  }
  if (ask.field?.part === one.group.part && !all.field) {
    all.field = { ...ask.field, y: Math.max(y, foot) };
    foot = Math.max(y, foot) + fieldRoom;
  }
  return Math.max(foot, outs(prepared, one, chainTop, px, all, rank));
}

function slotOf(row: Lettered, px: (grams: number) => number): number {
  const words = row.lines.length > 1 || row.under ? slotTwo : slotLeast;
  const h = px(row.row.mass);
  return Math.max(words, h < 25 ? h : h + 3);
}

function barHeight(bar: Bar, px: (grams: number) => number): number {
  const sum = (flows: readonly Flow[]): number => flows.reduce((total, flow) => total + px(flow.mass), 0);
  return Math.max(16, Math.max(sum(bar.ins), sum(bar.outs)) + 6);
}

/** A side arm's bar stands in the middle of its rows; its words stand under it. Answers how low they reach. */
function arm(prepared: Prepared, bar: Bar, rows: readonly Lettered[], h: number, all: Flowing): number {
  const ids = new Set(rows.map((row) => row.row.id));
  const mine = all.rows.filter((row) => ids.has(row.row.id));
  const middle = mine.reduce((sum, row) => sum + row.y, 0) / Math.max(1, mine.length);
  const x = prepared.at.get(bar.id)!;
  const y = middle - h / 2;
  all.bars.push({ bar, x, y, h });
  const words = prepared.arms.get(bar.id)!;
  const left = Math.max(prepared.edge + 6, x + barWidth + 2 - words.w);
  const low = Math.max(y + h, ...mine.map((row) => row.y + row.h / 2));
  all.arms.push({ ...words, x: left, y: low + 3, align: "end", tier: 0 });
  return low + 3 + words.h + 5;
}

/** What leaves the last bars: stays, what is short, losses; answers how low their words reach. */
function outs(
  prepared: Prepared,
  one: Grouped,
  chainTop: number,
  px: (grams: number) => number,
  all: Flowing,
  rank: Map<number, number>,
): number {
  let foot = chainTop;
  for (const bar of one.group.bars) {
    const placed = all.bars.find((other) => other.bar === bar);
    if (!placed) continue;
    foot = Math.max(foot, placed.y + placed.h + 4);
    let y = placed.y + 3;
    for (const flow of inTurn(bar, prepared, rank)) {
      const h = px(flow.mass);
      if (flow.to === "loss") {
        const path = stub(placed.x + barWidth, y, h, lossDrop);
        all.stubs.push({ bar, path, gas: flow.kind === "vent", mass: flow.mass });
      }
      y += h;
    }
  }
  const notes = notesOf(prepared, one, all, px, rank);
  all.notes.push(...notes.notes);
  all.brackets.push(...notes.brackets);
  return Math.max(foot, notes.foot);
}

/** Every ribbon, from where it leaves to where it enters. */
function flows(prepared: Prepared, px: (grams: number) => number, all: Flowing, rank: Map<number, number>): void {
  const bars = new Map(all.bars.map((bar) => [bar.bar.id, bar]));
  const rows = new Map(all.rows.map((row) => [row.row.id, row]));
  const leaving = new Map<Flow, number>();
  const entering = new Map<Flow, number>();
  for (const bar of all.bars) {
    let y = bar.y + 3;
    for (const flow of inTurn(bar.bar, prepared, rank)) {
      leaving.set(flow, y);
      y += px(flow.mass);
    }
    y = bar.y + 3;
    for (const flow of incoming(bar, bars, rows)) {
      entering.set(flow, y);
      y += px(flow.mass);
    }
  }
  const ctx: Routes = { prepared, all, bars, rows, leaving, entering, px };
  for (const flow of prepared.model.flows) {
    const points = route(flow, ctx);
    if (points.length < 2) continue;
    all.ribbons.push({ flow, points, path: ribbon(points), thin: flow.mass * all.k < thinnest });
  }
}

interface Routes {
  prepared: Prepared;
  all: Flowing;
  bars: Map<string, PlacedBar>;
  rows: Map<string, PlacedRow>;
  leaving: Map<Flow, number>;
  entering: Map<Flow, number>;
  px: (grams: number) => number;
}

/** Where a row that comes late begins to bend: behind the bar before, past its stub. */
function bendAt(to: PlacedBar, { prepared, all }: Routes): number {
  let x = prepared.edge;
  for (const other of all.bars) {
    if (other.bar.part !== to.bar.part || other.x >= to.x - 1) continue;
    const clear = other.bar.arm ? (to.bar.arm ? 0 : 4) : other.bar.outs.some((flow) => flow.to === "loss") ? 16 : 4;
    if (clear > 0) x = Math.max(x, other.x + barWidth + clear);
  }
  return Math.max(prepared.edge, Math.min(x, to.x - 22));
}

function route(flow: Flow, ctx: Routes): Point[] {
  const { all, bars, rows, leaving, entering, px, prepared } = ctx;
  const h = px(flow.mass);
  const edge = prepared.edge;
  const from = bars.get(flow.from);
  const to = bars.get(flow.to);
  const start: Point | null = from ? { x: from.x + barWidth, y: leaving.get(flow) ?? from.y + 3, h } : null;
  const end: Point | null = to ? { x: to.x, y: entering.get(flow) ?? to.y + 3, h } : null;
  if (flow.kind === "straight") {
    const row = rows.get(flow.from);
    if (!row) return [];
    const y = row.y - h / 2;
    all.ends.push({ flow, y, h });
    return [
      { x: edge, y, h },
      { x: all.gate.x, y, h },
    ];
  }
  if (flow.kind === "take" && end && to) {
    const row = rows.get(flow.from);
    if (!row) return [];
    const level: Point = { x: edge, y: row.y - h / 2, h };
    const bend = to.bar.arm ? Math.max(edge, to.x - 52) : bendAt(to, ctx);
    return bend > edge + 4 ? [level, { ...level, x: bend }, end] : [level, end];
  }
  if (flow.kind === "gas" && end) return [{ x: end.x - 20, y: end.y + 12, h }, end];
  if (!start) return [];
  if (flow.kind === "gate") {
    all.ends.push({ flow, y: start.y, h });
    return [start, { ...start, x: all.gate.x }];
  }
  if (flow.kind === "stay") {
    const bracket = all.brackets.find((one) => one.part === from?.bar.part && !one.dashed);
    if (!bracket) return [];
    const level: Point = { x: Math.min(start.x + 26, bracket.x - 8), y: bracket.y + 3, h };
    return [start, level, { ...level, x: bracket.x }];
  }
  if (flow.kind === "strand" && end && to) {
    const row = rows.get(flow.id.split(">")[1] ?? "");
    if (!row) return [start, end];
    const room = end.x - start.x;
    const bend = bendAt(to, ctx);
    // Past the words above its own bar before it rises.
    const clear = row.y < start.y ? Math.min((prepared.wide.get(flow.from) ?? 0) / 2, room / 3) : 0;
    const out: Point = { ...start, x: start.x + clear };
    const arrive = out.x + Math.min((room - clear) * 0.6, 130);
    if (room - clear < 84 || bend <= arrive) {
      row.lead = Math.min(start.x + room * 0.5, end.x - 8);
      return [start, out, end];
    }
    row.lead = arrive - 6;
    const level: Point = { x: arrive, y: row.y - h / 2, h };
    return [start, out, level, { ...level, x: Math.max(bend, arrive) }, end];
  }
  return end ? [start, end] : [];
}
