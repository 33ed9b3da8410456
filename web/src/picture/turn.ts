// turn.ts - the order in which flows stand at a bar, on either side, so that nothing crosses inside a part.
import type { Bar, Flow } from "./model";
import type { Prepared } from "./prepare";
import type { PlacedBar, PlacedRow } from "./shapes";

/** The order in which flows leave a bar: what goes up, what is served, the chain; what stays; what goes down; what is lost. */
export function inTurn(bar: Bar, prepared: Prepared, rank: Map<number, number>): Flow[] {
  const here = rank.get(bar.part) ?? 0;
  const turn = (flow: Flow): number => {
    if (flow.kind === "loss") return 90;
    if (flow.kind === "vent") return 91;
    if (flow.kind === "stay") return 50;
    if (flow.kind !== "strand") return 20;
    const there = rank.get(prepared.model.bars.get(flow.to)?.part ?? -1) ?? here;
    return there < here ? 10 - there / 100 : 60 + there / 100;
  };
  return bar.outs
    .map((flow, i) => ({ flow, i, turn: turn(flow) }))
    .sort((a, b) => a.turn - b.turn || a.i - b.i)
    .map((one) => one.flow);
}

/** Flows enter in the order of their rows: the chain first, gas last. */
export function incoming(bar: PlacedBar, bars: Map<string, PlacedBar>, rows: Map<string, PlacedRow>): Flow[] {
  const y = (flow: Flow): number => {
    if (flow.kind === "main") return -1;
    if (flow.kind === "gas") return 1e9;
    if (flow.kind === "arm") return (bars.get(flow.from)?.y ?? 0) + (bars.get(flow.from)?.h ?? 0) / 2;
    return (
      (rows.get(flow.kind === "strand" ? (flow.id.split(">")[1] ?? "") : flow.from) ?? rows.get(flow.from))?.y ??
      bars.get(flow.from)?.y ??
      0
    );
  };
  return bar.bar.ins
    .map((flow, i) => ({ flow, i, y: y(flow) }))
    .sort((a, b) => a.y - b.y || a.i - b.i)
    .map((one) => one.flow);
}
