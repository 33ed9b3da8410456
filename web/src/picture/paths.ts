// paths.ts - a ribbon as three paths: what is filled, and its two edges. Both handles stand at half the distance, horizontal at the ends.

export interface Point {
  x: number;
  /** Of the upper edge. */
  y: number;
  /** Height of the ribbon here. */
  h: number;
}
export interface Path {
  fill: string;
  upper: string;
  lower: string;
}

const n = (value: number): string => String(Math.round(value * 10) / 10);

/** Through all points, level where two of them share y and h. */
export function ribbon(points: readonly Point[]): Path {
  const edge = (down: boolean, back: boolean): string => {
    const line = back ? [...points].reverse() : points;
    const y = (point: Point): number => point.y + (down ? point.h : 0);
    let path = "";
    line.forEach((point, i) => {
      const before = line[i - 1];
      if (!before) return;
      const middle = (before.x + point.x) / 2;
      path +=
        y(before) === y(point)
          ? `L${n(point.x)},${n(y(point))}`
          : `C${n(middle)},${n(y(before))} ${n(middle)},${n(y(point))} ${n(point.x)},${n(y(point))}`;
    });
    return path;
  };
  const first = points[0]!;
  const last = points.at(-1)!;
  const from = `M${n(first.x)},${n(first.y)}`;
  const below = `M${n(first.x)},${n(first.y + first.h)}`;
  return {
    fill: `${from}${edge(false, false)}L${n(last.x)},${n(last.y + last.h)}${edge(true, true)}Z`,
    upper: from + edge(false, false),
    lower: below + edge(true, false),
  };
}

/** What leaves for good: from the right edge of a bar it turns down, as wide as it is high, and ends `drop` px below the bar's foot. */
export function stub(x: number, y: number, h: number, drop: number): string {
  const [inner, outer, foot] = [x + 7, x + 7 + h, y + h + drop];
  const over = `C${n(x + (7 + h) * 0.6)},${n(y)} ${n(outer)},${n(y + h * 0.35)} ${n(outer)},${n(foot)}`;
  return `M${n(x)},${n(y)}${over}H${n(inner)}C${n(inner)},${n(y + h + drop * 0.4)} ${n(x + 5)},${n(y + h)} ${n(x)},${n(y + h)}Z`;
}
