// foot.ts - the words and brackets under a part's chain: what was lost where, what stays after the serves and for how many it is enough, what is short.
// Losses stand on one line a bar; where two would collide they become one, which opens on focus.
import { fixed, hours, roughGrams } from "../lib/format";
import { barWidth } from "./columns";
import type { Prepared } from "./prepare";
import type { Bracket, Flowing, Note } from "./shapes";
import { inTurn } from "./turn";
import { textWidth } from "./type";
import { lossText } from "./words";

const size = 12.5;
const lineHigh = 16;
const drop = 10;

export function notesOf(
  prepared: Prepared,
  one: Prepared["groups"][number],
  all: Flowing,
  px: (grams: number) => number,
  rank: Map<number, number>,
): { notes: Note[]; brackets: Bracket[]; foot: number } {
  const { group } = one;
  const losses: Note[] = [];
  for (const bar of group.bars) {
    const placed = all.bars.find((other) => other.bar === bar);
    const gone = bar.outs.filter((flow) => flow.to === "loss");
    if (!placed || gone.length === 0) continue;
    let low = placed.y + 3;
    let wide = 0;
    for (const flow of inTurn(bar, prepared, rank)) {
      low += px(flow.mass);
      if (flow.to === "loss") wide = Math.max(wide, px(flow.mass));
    }
    const parts = gone.map((flow) => (flow.kind === "vent" ? `${roughGrams(flow.mass)} gas` : lossText(flow.mass, bar.losses)));
    const text = parts.join(", ");
    const w = Math.ceil(textWidth(text, size)) + 2;
    // To the left under its bar; right of the stub, where the labels' edge is near.
    const foot = placed.x + barWidth + Math.min(wide, 40);
    const x = foot + 8 - w >= prepared.edge + 12 ? foot + 8 - w : foot + 12;
    const detail = bar.losses.length > 1 ? bar.losses.map((loss) => lossText(loss.mass, [loss])).join(", ") : text;
    losses.push({
      id: `loss:${bar.id}`,
      kind: "loss",
      part: group.part,
      x,
      y: Math.max(low, placed.y + placed.h - 3) + drop + 2,
      w,
      h: lineHigh,
      align: "end",
      lines: [text],
      parts: [`${bar.do}: ${detail}`],
    });
  }
  const notes = summed(
    losses,
    group.bars.flatMap((bar) => bar.outs.filter((flow) => flow.to === "loss").map((flow) => ({ id: `loss:${bar.id}`, mass: flow.mass }))),
  );

  const brackets: Bracket[] = [];
  const last = group.bars.findLast((bar) => bar.outs.some((flow) => flow.kind === "stay")) ?? group.bars.at(-1);
  const placed = all.bars.find((other) => other.bar === last);
  if (last && placed && (group.stays > 0 || group.short > 0)) {
    const served = last.outs.some((flow) => flow.kind === "gate");
    const isBelow = (to: string): boolean => (rank.get(prepared.model.bars.get(to)?.part ?? -1) ?? 0) > (rank.get(group.part) ?? 0);
    let y = placed.y + 3;
    let h = 0;
    for (const flow of inTurn(last, prepared, rank)) {
      if (flow.kind === "stay") {
        h = px(flow.mass);
        break;
      }
      if (flow.kind === "strand" && isBelow(flow.to)) continue;
      if (flow.to === "loss") continue;
      y += px(flow.mass);
    }
    const short = group.short > 0 && group.stays <= 0;
    if (short) h = Math.max(12, px(group.short));
    const lines = words(group, h, prepared.ask.sheet.serves);
    const w = Math.ceil(Math.max(...lines.map((line) => textWidth(line, size)))) + 2;
    // Clear of a strand that goes down from the same bar.
    const down = last.outs.some((flow) => flow.kind === "strand" && isBelow(flow.to)) ? 34 : 0;
    const end = served ? all.gate.x - 14 : Math.min(all.gate.x - 14, placed.x + barWidth + Math.max(76, w + 24 + down));
    const top = (y > placed.y + 3 ? y + 5 : y) - 3;
    brackets.push({ part: group.part, x: end, y: top, h: h + 6, dashed: short });
    if (!short && h >= 34) {
      const on = `${roughGrams(group.stays)} stay`;
      const wide = Math.ceil(textWidth(on, 13)) + 2;
      const left = placed.x + barWidth + 4;
      if (end - left > wide + 8)
        notes.push({
          id: `stay-on:${group.part}`,
          kind: "name",
          part: group.part,
          x: (left + end - wide) / 2,
          y: top + 3 + h / 2 - 9,
          w: wide,
          h: 18,
          align: "middle",
          lines: [on],
          parts: [],
        });
      else lines.unshift(on);
    }
    const high = lines.length * lineHigh;
    let low = Math.max(top + h + 10, placed.y + placed.h + 6);
    const x = Math.max(prepared.edge + 20, end - w - 2);
    for (const other of [...notes].sort((a, b) => a.y - b.y))
      if (other.kind === "loss" && other.x < x + w + 8 && other.x + other.w + 28 > x && other.y < low + high && other.y + other.h > low)
        low = other.y + other.h + 3;
    notes.push({
      id: `stay:${group.part}`,
      kind: short ? "short" : "stay",
      part: group.part,
      x,
      y: low,
      w,
      h: high,
      align: "start",
      lines,
      parts: [],
    });
  }
  named(one, all, px, notes, prepared, rank);
  return {
    notes,
    brackets,
    foot: Math.max(0, ...notes.map((note) => note.y + note.h + 4), ...brackets.map((bracket) => bracket.y + bracket.h + 4)),
  };
}

/** The part's name on its ribbon to the gate, if that is high and long enough. */
function named(
  one: Prepared["groups"][number],
  all: Flowing,
  px: (grams: number) => number,
  notes: Note[],
  prepared: Prepared,
  rank: Map<number, number>,
): void {
  const last = one.group.bars.at(-1);
  const placed = all.bars.find((other) => other.bar === last);
  const flow = last?.outs.find((out) => out.kind === "gate");
  if (!last || !placed || !flow || px(flow.mass) < 40) return;
  const abv = one.group.facts?.abv_percent ?? 0;
  const lines = [one.group.name, `${roughGrams(flow.mass)}${abv > 0.05 ? ` · ${fixed(abv, 1)} % vol` : ""}`];
  const w = Math.ceil(Math.max(textWidth(lines[0]!, 16, "serif"), textWidth(lines[1]!, 12.5))) + 4;
  const left = placed.x + barWidth;
  if (all.gate.x - left < w + 24) return;
  let y = placed.y + 3;
  for (const before of inTurn(last, prepared, rank)) {
    if (before === flow) break;
    y += px(before.mass);
  }
  notes.push({
    id: `name:${one.group.part}`,
    kind: "name",
    part: one.group.part,
    x: (left + all.gate.x - w) / 2,
    y: y + px(flow.mass) / 2 - 18,
    w,
    h: 36,
    align: "middle",
    lines,
    parts: [],
  });
}

function words(group: Prepared["groups"][number]["group"], h: number, serves: number): string[] {
  const facts = group.facts;
  if (group.short > 0 && group.stays <= 0) return [`${roughGrams(group.short)} short`, `for ${fixed(serves, 0)}`];
  const used = facts?.used_per_serve_g ?? 0;
  const made = (facts?.batch_mass_g ?? 0) * (facts?.batches ?? 1);
  const enough = used > 0 ? Math.floor(made / used + 1e-9) : 0;
  const keeps = facts?.keeps_h ? `keeps ${hours(facts.keeps_h)}` : "";
  const first = h < 34 ? `${roughGrams(group.stays)} stay` : "";
  const second = [enough > 0 ? `enough for ${fixed(enough, 0)}` : "", keeps].filter(Boolean).join(", ");
  return [first, second].filter(Boolean);
}

/** Neighbours that would touch become one. */
function summed(losses: Note[], masses: readonly { id: string; mass: number }[]): Note[] {
  const out: (Note & { ids: string[] })[] = [];
  for (const loss of losses.sort((a, b) => a.x + a.w - (b.x + b.w))) {
    const before = out.at(-1);
    if (before && loss.x < before.x + before.w + 8 && Math.abs(loss.y - before.y) < lineHigh + 2) {
      before.ids.push(loss.id);
      const mass = masses.filter((one) => before.ids.includes(one.id)).reduce((sum, one) => sum + one.mass, 0);
      const text = `${roughGrams(mass)} left behind`;
      const right = loss.x + loss.w;
      const w = Math.ceil(textWidth(text, size)) + 2;
      Object.assign(before, { lines: [text], parts: [...before.parts, ...loss.parts], w, x: right - w, y: Math.max(before.y, loss.y) });
    } else out.push({ ...loss, ids: [loss.id] });
  }
  return out;
}
