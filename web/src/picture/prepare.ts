// prepare.ts - all of the layout that does not depend on the scale: what stands in which group, where the bars are from left to right, how wide words are.
import type * as wire from "../api/types";
import { fixed, plural } from "../lib/format";
import { barWidth, columnsOf, placed, xAt } from "./columns";
import { marksOf, type Mark } from "./findings";
import { block, condSize, oneLine, tiers, type Block, type Placed, type Wanted } from "./labels";
import { makeModel, type Bar, type Group, type Model, type Row } from "./model";
import { inOrder } from "./order";
import { broken, textWidth, type Face } from "./type";
import { forServes, madeText, readable } from "./words";

export interface Ask {
  sheet: wire.Sheet;
  outline: wire.Outline;
  /** px that the picture has, and the height it should not pass if that can be helped. */
  width: number;
  height: number;
  /** x of the gate. */
  gate: number;
  folded: ReadonlySet<number>;
  /** Heights of the open lanes, by part; the glass has the serve's number. */
  lanes: ReadonlyMap<number, number>;
  /** A line that is being added: behind which step's rows room is made. */
  field: { part: number; step: number } | null;
  /** Keeps this scale (while a person types) unless a ribbon would outgrow it. */
  k: number | null;
}
export interface Lettered {
  row: Row;
  lines: string[];
  /** px the thing's name may take. */
  most: number;
  /** Words under the thing, in the glass: the act that puts it in. */
  under: Block | null;
}
export interface Prepared {
  ask: Ask;
  model: Model;
  groups: { group: Group; rows: Lettered[]; band: Placed[]; bandHeight: number; head: Head }[];
  /** Left edge of every bar. */
  at: Map<string, number>;
  /** px that the words above a bar take. */
  wide: Map<string, number>;
  arms: Map<string, Block>;
  marks: Mark[];
  /** Right edge of the labels. */
  edge: number;
}
export interface Head {
  name: string;
  kind: string;
  right: string;
  /** px of its name and of what it is; on two lines where one does not hold them. */
  nameWide: number;
  kindWide: number;
  lines: 1 | 2;
}

export const nameSize = 16;
export const thingSize = 15;
/** Amounts end here, things begin `gapThing` further on. */
export const amountEnd = 66;
export const thingStart = 76;
export const rightWide = 58;
export const markWide = 20;
export const foldWide = 20;

export const edgeFor = (gate: number): number => (gate >= 660 ? 262 : 240);

export function prepare(ask: Ask): Prepared {
  const model = makeModel(ask.sheet, ask.outline, ask.folded);
  const order = inOrder(model);
  const columns = columnsOf(model);
  const edge = edgeFor(ask.gate);
  const marks = marksOf(ask.sheet.findings, model);
  const blocks = new Map<string, Block>();
  const arms = new Map<string, Block>();
  const widths = new Map<string, number>();
  for (const bar of model.bars.values()) {
    if (bar.arm) arms.set(bar.id, oneLine(bar));
    else {
      const words = block(bar.id, bar.outline, 58, answers(bar, order));
      blocks.set(bar.id, words);
      widths.set(bar.id, words.w);
    }
  }
  for (const group of order) {
    const words = gateBlock(group, ask.outline);
    if (!words) continue;
    blocks.set(words.id, words);
    widths.set(words.id, words.w);
  }
  const xs = placed(order, columns, widths, edge, ask.gate);
  const at = new Map([...columns.of].map(([id, column]) => [id, xAt(xs, column)]));
  for (const bar of model.bars.values()) if (bar.arm) at.set(bar.id, armAt(bar, model, at, edge));
  const groups = order.map((group) => {
    const wanted = group.bars
      .filter((bar) => !bar.arm)
      .map((bar): Wanted => ({ block: blocks.get(bar.id)!, x: at.get(bar.id)! + 4.5, align: "middle" }));
    const words = blocks.get(`gate:${group.part}`);
    if (words) wanted.push({ block: words, x: ask.gate - 10, align: "end" });
    const { placed: band, height: bandHeight } = tiers(wanted, edge - 4, ask.gate - 8);
    return { group, rows: lettered(group, marks, edge), band, bandHeight, head: headOf(group, ask, edge, marks) };
  });
  return { ask, model, groups, at, wide: widths, arms, marks, edge };
}

/** What the engine answers of a step, where it matters as much as what is written: the pressure in the bottle, the rounds of the shaker. */
function answers(bar: Bar, groups: readonly Group[]): string[] {
  const facts = groups.find((group) => group.part === bar.part)?.facts;
  const pressure = bar.do === "charge" ? facts?.siphon?.pressure_at_service_bar_gauge : null;
  const rounds = ["shake", "stir", "blend"].includes(bar.do) && facts?.made === "to order" ? facts.rounds : 1;
  return [pressure ? `${fixed(pressure, 1)}\u00a0bar` : "", rounds > 1 ? plural(rounds, "round") : ""].filter(Boolean);
}

/** Half way between the step that a side arm meets and the one before that. */
function armAt(bar: Bar, model: Model, at: Map<string, number>, edge: number): number {
  const target = model.bars.get(bar.outs.find((flow) => flow.kind === "arm")?.to ?? "");
  const main = target?.ins.find((flow) => flow.kind === "main");
  const right = (target && at.get(target.id)) ?? edge + 100;
  const left = (main && at.get(main.from)) ?? edge;
  return Math.round(Math.max((left + right) / 2, right - 70 - barWidth));
}

/** How the serve takes of a part: act, and the amount as written. */
function gateBlock(group: Group, outline: wire.Outline): Block | null {
  const uses = group.bars.flatMap((bar: Bar) => bar.outs).flatMap((flow) => (flow.kind === "gate" && flow.use ? [flow.use] : []));
  const first = uses[0];
  const step = outline.serve?.steps.find((one) => one.number === first?.step);
  if (!first || !step) return null;
  const words = block(`gate:${group.part}`, { ...step, conditions: [] }, 70);
  for (const use of uses) {
    const amount = use.take?.amount;
    if (!amount) continue;
    const shown = readable(amount.text);
    words.conds.push({ key: "amount", text: amount.text, place: amount.place, shown, lines: 1 });
    words.w = Math.max(words.w, Math.ceil(textWidth(shown, condSize)) + 2);
    words.h += 15;
  }
  return words;
}

function lettered(group: Group, marks: readonly Mark[], edge: number): Lettered[] {
  let before = -1;
  return group.rows
    .filter((row) => !group.serve || row.from === null)
    .map((row) => {
      const marked = marks.some((mark) => mark.at === row.id) ? markWide : 0;
      const most = edge - 10 - rightWide - thingStart - marked;
      const first = row.step !== before;
      before = row.step;
      const step = group.steps.find((one) => one.number === row.step);
      const under = group.serve && first && step ? block(row.id, step, 1e6) : null;
      return { row, lines: shortened(kept(row.label), most, faceOf(row)), most, under };
    });
}

/** A number and its unit stay together. */
export const kept = (label: string): string => label.replace(/(?<=\d) (?=[%a-zA-Z])/g, "\u00a0");

/** Things made are set in the serif. */
export const faceOf = (row: Row): [number, Face] => (row.from === null ? [thingSize, "plain"] : [nameSize, "serif"]);

/** One or two lines; what does not fit ends in dots. */
function shortened(text: string, most: number, [size, face]: [number, Face]): string[] {
  const lines = broken(text, most, size, face);
  const two = lines.length > 2 ? [lines[0]!, lines.slice(1).join(" ")] : lines;
  return two.map((line) => {
    if (textWidth(line, size, face) <= most) return line;
    let cut = line;
    while (cut.length > 1 && textWidth(`${cut}…`, size, face) > most) cut = cut.slice(0, -1);
    // At a space, where there is one.
    return `${cut.replace(/[\s,]+\S*$/, "").trimEnd()}…`;
  });
}

function headOf(group: Group, ask: Ask, edge: number, marks: readonly Mark[]): Head {
  const part = group.outline;
  const file = part?.borrowed && part.file ? part.file.split("/").at(-1)! : "";
  const kind = group.serve ? "one serve" : part ? (file ? `borrowed from ${file}` : madeText(part, group.facts)) : "";
  const right = group.folded ? "" : group.serve || part?.made === "to order" ? forServes(ask.sheet.serves) : "of base";
  const nameWide = textWidth(group.name, nameSize, "serif") + (group.serve ? 0 : foldWide);
  const kindWide = textWidth(kind, 12);
  const mark = marks.some((one) => one.at === `group:${group.part}`) ? markWide : 0;
  const one = nameWide + 10 + kindWide + mark + (right ? textWidth(right, 12) + 12 : 0) <= edge - 10;
  return { name: group.name, kind, right, nameWide, kindWide, lines: one ? 1 : 2 };
}
