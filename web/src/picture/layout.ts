// layout.ts - from the wire to the flow picture: what stands where, at the largest scale that fits. Pure and deterministic; the order of its passes:
//
//   model.ts     sheet and outline → groups, rows, bars, flows, in grams
//   order.ts     the order of the groups, columns.ts the columns of the bars, labels.ts the words above them, findings.ts what the marks stand on
//   prepare.ts   all of that, once
//   arrange.ts   the same at one scale, foot.ts its losses and what stays; tried for up to seven scales
import { arrange } from "./arrange";
import { barWidth } from "./columns";
import { faceOf, prepare, thingStart, type Ask, type Prepared } from "./prepare";
import { largest, steps } from "./scale";
import type { Flowing, PlacedMark } from "./shapes";
import { textWidth } from "./type";

export type { Ask } from "./prepare";
export type * from "./shapes";

/** No ribbon is higher than this share of the height that is there. */
const highest = 0.22;
/** A held scale is given up if a ribbon would be so much higher than a settled picture's may be, or the whole picture so much. */
const outgrown = 1.4;
const grown = 1.1;

export function layout(ask: Ask): Flowing {
  const prepared = prepare(ask);
  const heaviest = Math.max(1, ...prepared.model.flows.filter((flow) => flow.kind !== "gas").map((flow) => flow.mass));
  const least = arrange(prepared, steps[0]!).height;
  // Where the words alone fill the height, the picture grows instead of turning to threads.
  const room = Math.max(ask.height, least + 150);
  const most = ask.height * highest;
  const held = ask.k !== null && heaviest * ask.k <= most * outgrown ? arrange(prepared, ask.k) : null;
  const all =
    held && held.height <= room * grown
      ? held
      : arrange(
          prepared,
          largest((k) => heaviest * k <= most && arrange(prepared, k).height <= room),
        );
  all.marks = marked(prepared, all);
  return all;
}

function marked(prepared: Prepared, all: Flowing): PlacedMark[] {
  const out: PlacedMark[] = [];
  for (const mark of prepared.marks) {
    const place = placeOf(mark.at, prepared, all);
    if (place) out.push({ ...mark, ...place });
  }
  return out;
}

function placeOf(at: string, prepared: Prepared, all: Flowing): { x: number; y: number } | null {
  const row = all.rows.find((one) => one.row.id === at);
  if (row) {
    const last = row.lines.at(-1) ?? "";
    const wide = textWidth(row.row.take || !row.under ? last : row.under.act, ...faceOf(row.row));
    const y = row.y + (row.lines.length > 1 ? 9 : row.under ? -8 : 0);
    return { x: thingStart + wide + 13, y };
  }
  const bar = all.bars.find((one) => one.bar.id === at);
  if (bar) return { x: bar.x + barWidth / 2, y: bar.y + bar.h / 2 };
  const [kind, part] = at.split(":");
  if (kind === "stay") {
    const note = all.notes.find((one) => one.id === at);
    if (note) return { x: note.x - 11, y: note.y + 8 };
  }
  const group = all.groups.find((one) => String(one.group.part) === part);
  if (!group) return null;
  const { head } = group;
  return head.lines === 1 ? { x: head.nameWide + 10 + head.kindWide + 14, y: group.y + 14 } : { x: head.kindWide + 14, y: group.y + 32 };
}
