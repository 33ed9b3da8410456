// streams.ts - the engine's streams as flows of the model: every stream finds its row and its bar by its id (take:P.S.T, step:P.S, serve, stays, lost).
// A stream from a take the outline does not know (water that a leaf drinks, a bath, a line that is being typed) makes its own row.
import type * as wire from "../api/types";
import { matterOf } from "../lib/look";
import type { Bar, Flow, Group, Model, Row } from "./model";

const numbers = (id: string): number[] => (id.split(":")[1] ?? "").split(".").map(Number);
const drunkNumber = 65534;
const gasNumber = 65535;

export function addFlows(model: Model, sheet: wire.Sheet, outline: wire.Outline): void {
  const serveAt = outline.serve?.index ?? -1;
  const groups = new Map(model.groups.map((group) => [group.part, group]));
  // Of a folded part every step is its last one.
  const barAt = (id: string): Bar | null => {
    const [part = 0] = numbers(id);
    const group = groups.get(part);
    return model.bars.get(id) ?? (group?.folded ? (group.bars[0] ?? null) : null);
  };
  for (const stream of sheet.streams) {
    const mass = stream.mass_g ?? 0;
    if (mass <= 0) continue;
    const [fromPart = 0, fromStep = 0, fromNumber = 0] = numbers(stream.from);
    const target = /take:[\d.]+$/.exec(stream.id.split(">")[1] ?? "")?.[0] ?? "";
    const [toPart = 0, toStep = 0] = numbers(stream.to);
    const flow: Flow = { id: stream.id, kind: "main", from: stream.from, to: stream.to, mass, matter: "", use: null };
    if (stream.from.startsWith("take:")) {
      const group = groups.get(fromPart);
      if (!group || group.folded) continue;
      if (fromNumber === gasNumber) {
        const bar = barAt(stream.to);
        bar?.ins.push({ ...flow, kind: "gas", matter: "gas" });
        continue;
      }
      const row = model.rows.get(stream.from) ?? added(model, group, stream.from, fromStep, fromNumber);
      row.mass = row.gross = mass;
      row.matter = matterOf(stream.look, row.label);
      if (row.kind === "idle") row.kind = "take";
      barAt(stream.to)?.ins.push({ ...flow, kind: "take", matter: row.matter });
      continue;
    }
    if (fromPart === serveAt) continue;
    const bar = barAt(stream.from);
    if (!bar) continue;
    const group = groups.get(fromPart);
    flow.from = bar.id;
    flow.matter = chainMatter(stream, group, fromStep);
    if (stream.to === "stays" && stream.id.endsWith("left over")) {
      bar.outs.push({ ...flow, kind: "stay", to: "stay" });
      if (group) group.stays += mass;
    } else if (stream.to === "stays" || stream.to === "lost") {
      if (!group?.folded) bar.outs.push({ ...flow, kind: "loss", to: stream.to });
    } else if (toPart === serveAt) {
      const [, , number = 0] = numbers(target);
      const take = outline.serve?.steps.find((one) => one.number === toStep)?.takes.find((one) => one.number === number) ?? null;
      bar.outs.push({ ...flow, kind: "gate", to: "gate", use: { step: toStep, take, number } });
      const row = model.rows.get(target);
      if (row) Object.assign(row, { mass, gross: mass, from: bar.id, matter: flow.matter });
    } else if (toPart !== fromPart) {
      const receiver = groups.get(toPart);
      const to = barAt(stream.to);
      if (!to || !receiver) continue;
      if (receiver.folded) {
        bar.outs.push({ ...flow, kind: "strand", to: to.id });
        to.ins.push({ ...flow, kind: "strand", to: to.id });
        continue;
      }
      const row = model.rows.get(target) ?? added(model, receiver, target, toStep, numbers(target)[2] ?? 0);
      Object.assign(row, { kind: "made", mass, gross: mass, from: bar.id, matter: flow.matter });
      if (!row.take) row.label = group?.name ?? row.label;
      const strand: Flow = { ...flow, kind: "strand", to: to.id };
      bar.outs.push(strand);
      to.ins.push(strand);
    } else if (!group?.folded) {
      bar.outs.push(flow);
      barAt(stream.to)?.ins.push(flow);
    }
  }
  for (const group of model.groups) if (group.folded) foldedRow(model, group);
}

/** A stream that the outline knows no take for: water a leaf drinks, a bath, or a line that is being typed. */
function added(model: Model, group: Group, id: string, step: number, number: number): Row {
  const facts = (group.facts?.takes ?? []).filter((one) => one.step === step);
  const written = group.steps.find((one) => one.number === step)?.takes.length ?? 0;
  const fact = facts[number === drunkNumber ? written : number - 1] ?? null;
  const kind = number === drunkNumber ? "drunk" : "take";
  const label = kind === "drunk" ? "water it drinks" : (fact?.thing ?? "");
  const row: Row = {
    id,
    part: group.part,
    step,
    number,
    kind,
    label,
    mass: 0,
    gross: 0,
    matter: "water",
    from: null,
    take: null,
    facts: fact,
    maybe: false,
  };
  const after = group.rows.findLastIndex((one) => one.step <= step);
  group.rows.splice(after + 1, 0, row);
  model.rows.set(id, row);
  return row;
}

function foldedRow(model: Model, group: Group): void {
  const bar = group.bars[0];
  if (!bar) return;
  const mass = bar.outs.reduce((sum, flow) => sum + flow.mass, 0) - bar.ins.reduce((sum, flow) => sum + flow.mass, 0);
  const id = `batch:${group.part}`;
  const matter = bar.outs[0]?.matter ?? "base";
  const row: Row = {
    id,
    part: group.part,
    step: bar.step,
    number: 1,
    kind: "batch",
    label: "",
    mass,
    gross: mass,
    matter,
    from: null,
    take: null,
    facts: null,
    maybe: false,
  };
  group.rows = [row];
  model.rows.set(id, row);
  bar.ins.unshift({ id: `${id}>${bar.id}`, kind: "take", from: id, to: bar.id, mass, matter, use: null });
}

function chainMatter(stream: wire.Stream, group: Group | undefined, step: number): string {
  const foams = group?.steps.find((one) => one.do === "charge" || one.do === "froth");
  if (foams && step >= foams.number) return "cloud";
  const mixed = (group?.steps.filter((one) => one.number <= step).flatMap((one) => one.takes).length ?? 0) > 1;
  const matter = matterOf(stream.look);
  if (matter === "gas") return "water";
  return mixed && (matter === "rum" || matter === "gel") ? "base" : matter;
}
