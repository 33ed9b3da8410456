// tie.ts - the thin line from a bar to the lane of its open finding; it turns aside where words stand.
import type { Flowing, PlacedMark } from "./shapes";

export function tieTo(mark: PlacedMark, flow: Flowing): { id: string; path: string; severity: string } | null {
  const lane = flow.lanes.find((one) => one.part === mark.part);
  const bar = flow.bars.find((one) => one.bar.id === mark.at);
  if (!lane || !bar) return null;
  const from = bar.y + bar.h + 1;
  const to = lane.y - 4;
  const x = mark.x;
  const words = [...flow.notes.filter((note) => note.kind !== "name"), ...flow.arms];
  const clear = (at: number): boolean =>
    words.every((one) => at < one.x - 3 || at > one.x + one.w + 3 || one.y + one.h < from || one.y > to);
  const aside =
    [0, -14, 14, -28, 28, -42, 42, -60, 60, -80, 80, -110, 110, -140, 140].find(
      (by) => clear(x + by) && x + by > flow.edge && x + by < flow.gate.x - 8,
    ) ?? 0;
  const path = aside === 0 ? `M${x},${from}V${to}` : `M${x},${from}v5h${aside}V${to}`;
  return { id: mark.at, path, severity: mark.severity };
}
