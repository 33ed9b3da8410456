// model.ts - the flow as the picture sees it, in grams: groups (parts, then the glass), their rows (what goes in), their bars (steps), and the flows
// between them. No pixel yet. From the wire's sheet (masses) and outline (what is written, and where).
//
// Three things are told differently from the engine's streams, because the eye wants it so:
// - A step that works on its own takes (bloom, disperse, hydrate) is a side arm: the main stream passes it by and meets it at the next step.
// - Ice that is left behind, a bath that is used and not eaten, and rinsing water are drawn with what stays of them in the food (`mass`), said with what
//   was taken (`gross`): 282 g melt of 1200 g ice.
// - A folded part is one row, one bar: its last step.
import type * as wire from "../api/types";
import { matterOf } from "../lib/look";
import { addFlows } from "./streams";
import { thingName } from "./words";

export interface Row {
  /** take:P.S.T, or batch:P of a folded part. */
  id: string;
  part: number;
  step: number;
  number: number;
  kind: "take" | "made" | "ice" | "drunk" | "batch" | "idle";
  label: string;
  /** Grams as drawn, and as taken: all serves, whole batches. */
  mass: number;
  gross: number;
  matter: string;
  /** The bar a made thing comes from. */
  from: string | null;
  take: wire.OutlineTake | null;
  facts: wire.SheetTake | null;
  maybe: boolean;
}
export type FlowKind = "take" | "main" | "arm" | "strand" | "gate" | "straight" | "stay" | "loss" | "gas" | "vent";
export interface Flow {
  id: string;
  kind: FlowKind;
  /** A row, a bar; of gas: nothing. */
  from: string;
  /** A bar, `gate`, `stay`, `loss`. */
  to: string;
  mass: number;
  matter: string;
  /** The serve's take that a part's strand is for. */
  use: { step: number; take: wire.OutlineTake | null; number: number } | null;
}
export interface Bar {
  /** step:P.S */
  id: string;
  part: number;
  step: number;
  do: string;
  arm: boolean;
  outline: wire.OutlineStep;
  ins: Flow[];
  outs: Flow[];
  /** What its loss consists of, the heaviest first. */
  losses: { kind: string; mass: number }[];
}
export interface Group {
  part: number;
  name: string;
  serve: boolean;
  folded: boolean;
  outline: wire.OutlinePart | null;
  facts: wire.SheetPart | null;
  /** The serve's steps. */
  steps: wire.OutlineStep[];
  rows: Row[];
  bars: Bar[];
  stays: number;
  short: number;
}
export interface Model {
  groups: Group[];
  bars: Map<string, Bar>;
  rows: Map<string, Row>;
  flows: Flow[];
  serves: number;
}

const ownActs = new Set(["bloom", "disperse", "hydrate"]);
export function makeModel(sheet: wire.Sheet, outline: wire.Outline, folded: ReadonlySet<number>): Model {
  const model: Model = { groups: [], bars: new Map(), rows: new Map(), flows: [], serves: sheet.serves };
  const factsOf = (part: wire.OutlinePart): wire.SheetPart | null => sheet.parts.find((one) => one.name === part.name) ?? null;
  for (const part of outline.parts) {
    const facts = factsOf(part);
    const group: Group = {
      part: part.index,
      name: part.name,
      serve: false,
      folded: folded.has(part.index),
      outline: part,
      facts,
      steps: part.steps,
      rows: [],
      bars: [],
      stays: 0,
      short: facts?.short_g ?? 0,
    };
    for (const step of part.steps) {
      if (group.folded && step !== part.steps.at(-1)) continue;
      const id = `step:${part.index}.${step.number}`;
      group.bars.push({ id, part: part.index, step: step.number, do: step.do, arm: false, outline: step, ins: [], outs: [], losses: [] });
    }
    for (const bar of group.bars) model.bars.set(bar.id, bar);
    if (!group.folded) addRows(group, facts?.takes ?? []);
    model.groups.push(group);
  }
  const serve = outline.serve;
  if (serve) {
    const group: Group = {
      part: serve.index,
      name: "the glass",
      serve: true,
      folded: false,
      outline: null,
      facts: null,
      steps: serve.steps,
      rows: [],
      bars: [],
      stays: 0,
      short: 0,
    };
    addRows(group, sheet.serve?.takes ?? []);
    model.groups.push(group);
  }
  for (const group of model.groups) for (const row of group.rows) model.rows.set(row.id, row);
  addFlows(model, sheet, outline);
  for (const group of model.groups) {
    if (!group.serve && !group.folded) {
      group.bars.forEach((bar, i) => net(model, bar, i === 0));
      turnArms(group);
    }
    dropPassed(model, group);
  }
  model.flows = [...new Set([...model.bars.values()].flatMap((bar) => [...bar.ins, ...bar.outs])), ...straight(model)];
  return model;
}

/** One row a take, in written order; the water a leaf drinks is added with its stream. */
function addRows(group: Group, facts: readonly wire.SheetTake[]): void {
  for (const step of group.steps) {
    const ofStep = facts.filter((one) => one.step === step.number);
    if (group.serve && step.takes.length === 0) group.rows.push(actRow(group, step));
    step.takes.forEach((take, i) => {
      group.rows.push({
        id: take.stream,
        part: group.part,
        step: step.number,
        number: take.number,
        kind: take.kind === "bought" ? "take" : take.kind,
        label: thingName(take.label || take.thing),
        mass: 0,
        gross: 0,
        matter: matterOf(take.kind === "ice" ? "ice" : "", take.thing),
        from: null,
        take,
        facts: ofStep[i] ?? null,
        maybe: step.maybe,
      });
    });
  }
}

/** A step of the serve that takes nothing (torch) has a row too: there it is read and changed. */
const actRow = (group: Group, step: wire.OutlineStep): Row => ({
  id: `step:${group.part}.${step.number}`,
  part: group.part,
  step: step.number,
  number: 0,
  kind: "idle",
  label: "",
  mass: 0,
  gross: 0,
  matter: "water",
  from: null,
  take: null,
  facts: null,
  maybe: step.maybe,
});

/** What is used and not eaten counts with what stays of it. */
function net(model: Model, bar: Bar, first: boolean): void {
  for (const flow of bar.ins) {
    const row = model.rows.get(flow.kind === "strand" ? (flow.id.split(">")[1] ?? "") : flow.from);
    if (!row || row.kind === "drunk") continue;
    const passes = row.kind === "ice" || bar.do === "sphere" ? "stays" : bar.do === "rinse" && !first ? "lost" : "";
    const away = bar.outs.find((out) => out.kind === "loss" && out.to === passes);
    if (!away || (row.kind !== "ice" && (away.mass < 0.8 * row.gross || away.mass > 1.02 * row.gross))) continue;
    const gone = Math.min(away.mass, row.gross);
    flow.mass = row.mass = row.gross - gone;
    away.mass -= gone;
    const source = flow.kind === "strand" ? model.bars.get(flow.from) : undefined;
    if (!source) continue;
    // A bath goes on as what it gives; the rest of it stays, beside what was left over.
    const stay = source.outs.find((one) => one.kind === "stay");
    if (stay) stay.mass += gone;
    else source.outs.push({ ...flow, id: `${source.id}>bath`, kind: "stay", to: "stay", mass: gone });
    const owner = model.groups.find((one) => one.part === source.part);
    if (owner) owner.stays += gone;
  }
}

/** Steps on their own takes leave the chain. */
function turnArms(group: Group): void {
  let joined = 0;
  for (const [i, bar] of group.bars.entries()) {
    const main = bar.ins.find((flow) => flow.kind === "main");
    const next = bar.outs.find((flow) => flow.kind === "main");
    const own = bar.ins.filter((flow) => flow !== main).reduce((sum, flow) => sum + flow.mass, 0);
    const before = group.bars[i - 1];
    if (main && next && before && own > 0 && ownActs.has(bar.do) && joined < 8) {
      const follows = group.bars.find((one) => one.id === next.to);
      const passing = { ...main, id: `${main.id}>${next.to}`, to: next.to };
      const source = group.bars.find((one) => one.id === main.from);
      if (!follows || !source) continue;
      bar.arm = true;
      joined++;
      source.outs[source.outs.indexOf(main)] = passing;
      bar.ins = bar.ins.filter((flow) => flow !== main);
      const arm: Flow = { ...next, kind: "arm", mass: Math.max(0, next.mass - main.mass), matter: bar.ins[0]?.matter ?? next.matter };
      bar.outs[bar.outs.indexOf(next)] = arm;
      follows.ins = follows.ins.flatMap((flow) => (flow === next ? [passing, arm] : [flow]));
    }
  }
}

/** Losses of one bar become one, gas apart; what is nothing goes. */
function dropPassed(model: Model, group: Group): void {
  const times = group.outline?.made === "ahead" ? (group.facts?.batches ?? 1) : model.serves;
  for (const bar of group.bars) {
    const parts = (group.facts?.losses ?? [])
      .filter((one) => one.step === bar.step)
      .map((one) => ({ kind: one.kind, mass: (one.mass_g ?? 0) * times }));
    const gone = bar.outs.filter((flow) => flow.kind === "loss");
    const all = gone.reduce((sum, flow) => sum + flow.mass, 0);
    const gas = Math.min(
      all,
      parts.filter((one) => one.kind === "gas").reduce((sum, one) => sum + one.mass, 0),
    );
    bar.losses = parts.filter((one) => one.kind !== "gas" && one.mass > 0).sort((a, b) => b.mass - a.mass);
    bar.outs = bar.outs.filter((flow) => flow.kind !== "loss" && flow.mass > 1e-6);
    bar.ins = bar.ins.filter((flow) => flow.mass > 1e-6);
    const sample = gone[0];
    if (!sample) continue;
    if (all - gas > 1e-3) bar.outs.push({ ...sample, id: `${bar.id}>loss`, to: "loss", mass: all - gas });
    if (gas > 1e-6) bar.outs.push({ ...sample, id: `${bar.id}>vent`, kind: "vent", to: "loss", mass: gas, matter: "gas" });
  }
}

/** What is poured straight into the glass. */
function straight(model: Model): Flow[] {
  const glass = model.groups.find((group) => group.serve);
  return (glass?.rows ?? [])
    .filter((row) => row.from === null && row.mass > 0)
    .map((row) => ({
      id: `${row.id}>gate`,
      kind: "straight",
      from: row.id,
      to: "gate",
      mass: row.mass,
      matter: row.matter,
      use: { step: row.step, take: row.take, number: row.number },
    }));
}
