// order.ts - in which order the groups stand. Parts that are served stand as in the glass: what is poured last is on top. A part that only other parts
// use stands where its strand crosses least: for every place, the rows and groups it would pass are counted. They count alike, whatever they weigh:
// so no amount that is typed ever reshuffles the picture. At most eight sweeps; a tie keeps the written order.
import type { Group, Model } from "./model";

export function inOrder(model: Model): Group[] {
  const glass = model.groups.filter((group) => group.serve);
  const parts = model.groups.filter((group) => !group.serve);
  const pouredAt = (group: Group): number => {
    const uses = group.bars.flatMap((bar) => bar.outs).flatMap((flow) => (flow.use ? [flow.use.step * 1000 - flow.use.number] : []));
    return uses.length ? Math.max(...uses) : -1;
  };
  const served = parts.filter((group) => pouredAt(group) >= 0).sort((a, b) => pouredAt(b) - pouredAt(a) || a.part - b.part);
  let order = served;
  // From the users back to what they use, so that a part's users stand before it is placed.
  const waiting = parts.filter((group) => !served.includes(group));
  while (waiting.length > 0) {
    const ready = waiting.findLast((group) => users(group, model).every((user) => order.includes(user)));
    const group = ready ?? waiting.at(-1)!;
    waiting.splice(waiting.indexOf(group), 1);
    order = bestPlace(order, group, model);
  }
  for (let sweep = 0; sweep < 8; sweep++) {
    let swapped = false;
    for (let i = 0; i + 1 < order.length; i++) {
      const [upper, lower] = [order[i]!, order[i + 1]!];
      if (served.includes(upper) && served.includes(lower)) continue;
      const other = order.with(i, lower).with(i + 1, upper);
      if (crossings(other, model) < crossings(order, model) - 1e-9) {
        order = other;
        swapped = true;
      }
    }
    if (!swapped) break;
  }
  // The glass reads from the top down, as it is seen: what is put in last stands first.
  for (const group of glass) group.rows.sort((a, b) => b.step - a.step || a.number - b.number);
  return [...order, ...glass];
}

const strandsOf = (group: Group) => group.bars.flatMap((bar) => bar.outs).filter((flow) => flow.kind === "strand");
const users = (group: Group, model: Model): Group[] => {
  const parts = new Set(strandsOf(group).map((flow) => model.bars.get(flow.to)?.part));
  return model.groups.filter((one) => parts.has(one.part));
};

function bestPlace(order: Group[], group: Group, model: Model): Group[] {
  let best = [...order, group];
  let least = crossings(best, model);
  for (let at = order.length - 1; at >= 0; at--) {
    const other = order.toSpliced(at, 0, group);
    const cost = crossings(other, model);
    if (cost < least - 1e-9) [best, least] = [other, cost];
  }
  return best;
}

/** How many flows the strands pass over: rows of who receives them, and whole groups, which count as two. */
export function crossings(order: readonly Group[], model: Model): number {
  const at = new Map(order.map((group, i) => [group.part, i]));
  let sum = 0;
  for (const group of order) {
    for (const strand of strandsOf(group)) {
      const receiver = order.find((one) => one.part === model.bars.get(strand.to)?.part);
      if (!receiver) continue;
      const [from, to] = [at.get(group.part)!, at.get(receiver.part)!];
      sum += 2 * Math.max(0, Math.abs(from - to) - 1);
      const row = receiver.rows.findIndex((one) => strand.id.endsWith(`>${one.id}`));
      sum += from < to ? Math.max(row, 0) : receiver.rows.length - 1 - row;
    }
  }
  return sum;
}
