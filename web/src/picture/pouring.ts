// pouring.ts - the glass in px: how large it is drawn in the room it has, where its layers are, and where the flows from the gate swell into them.
import type * as wire from "../api/types";
import { fixed } from "../lib/format";
import { glassAt, levelOf, radiusAt, spread, type Glass } from "./glass";
import type { Group } from "./model";
import type { Path } from "./paths";
import type { End } from "./shapes";

/** Where the glass stands: its middle and its inside bottom in px, and px a mm. */
export interface Stand {
  glass: Glass;
  x: number;
  floor: number;
  scale: number;
}
const wordsWide = 84;
const most = 3.4; // px a mm: a glass is never drawn larger than about life size on a common screen

/** The glass as it is in the sheet at this moment; without a sheet the empty one cannot be known. */
export function pouredAt(sheet: wire.Sheet, outline: wire.Outline | null, now: wire.Properties): Glass {
  const serve = sheet.serve!;
  const ice = serve.takes.find((take) => take.pieces !== null && take.pieces > 0 && /\bice\b/.test(take.thing));
  const blended =
    outline?.parts.some((part) => part.steps.some((step) => step.do === "blend" && step.takes.some((take) => take.kind === "ice"))) ??
    false;
  return glassAt(serve.vessel, now, Math.round(ice?.pieces ?? 0), blended && !ice);
}

/** As large as the room allows; the words stand to its right. */
export function standIn(glass: Glass, left: number, top: number, width: number, height: number): Stand {
  const room = Math.max(60, width - wordsWide);
  const scale = Math.min(most, room / Math.max(1, 2 * glass.widest + 3), (height - 22) / Math.max(1, glass.height));
  return { glass, x: left + room / 2, floor: top + height - 20, scale };
}

const upTo = (stand: Stand, mm: number): number => stand.floor - mm * stand.scale;

/** The inside as a path: left wall down, bottom, right wall up. */
export function inside(stand: Stand, closed: boolean): string {
  const side = (sign: number): string[] =>
    stand.glass.rings.map((ring) => `${(stand.x + sign * ring.r * stand.scale).toFixed(1)},${upTo(stand, ring.h).toFixed(1)}`);
  return `M${side(-1).reverse().join("L")}L${side(1).join("L")}${closed ? "Z" : ""}`;
}
/** The outside: 1.6 mm of glass, and a base that is thicker. */
export function outside(stand: Stand): string {
  const { rings } = stand.glass;
  const wall = 1.6 * stand.scale;
  const side = (sign: number): string[] =>
    rings.map(
      (ring, i) =>
        `${(stand.x + sign * (ring.r * stand.scale + wall)).toFixed(1)},${(upTo(stand, ring.h) + (i === 0 ? 5 * stand.scale : 0)).toFixed(1)}`,
    );
  return `M${side(-1).reverse().join("L")}L${side(1).join("L")}`;
}

export interface Word {
  key: "headroom" | "foam" | "ice" | "drink";
  y: number;
  text: string;
}
/** What stands beside the glass, from the top down, never nearer than 36 px. */
export function beside(stand: Stand): Word[] {
  const { glass } = stand;
  const y = (mm: number): number => upTo(stand, mm);
  const words: Word[] = [
    {
      key: "headroom",
      y: (y(glass.height) + y(glass.top)) / 2,
      text: glass.roomMl < -0.5 ? `${fixed(-glass.roomMl, 0)} mL too much` : `${fixed(Math.max(0, glass.roomMl), 0)} mL`,
    },
  ];
  if (glass.foamMl > 0.5) words.push({ key: "foam", y: (y(glass.top) + y(glass.surface)) / 2, text: `${fixed(glass.foamMl, 0)} mL` });
  const low = Math.min(glass.surface, ...glass.blocks.map((block) => block.y - block.side / 2));
  if (glass.iceG > 0.5) words.push({ key: "ice", y: (y(glass.surface) + y(Math.max(0, low))) / 2, text: `${fixed(glass.iceG, 0)} g` });
  if (glass.drinkMl > 0.5)
    words.push({
      key: "drink",
      y: (y(glass.iceG > 0.5 ? Math.max(0, low) * 0.75 : glass.surface) + y(0)) / 2,
      text: `${fixed(glass.drinkMl, 0)} mL`,
    });
  const at = spread(
    words.map((word) => word.y - 17),
    36,
    Math.min(y(glass.height) - 10, stand.floor - words.length * 36),
    stand.floor - 34,
  );
  return words.map((word, i) => ({ ...word, y: at[i]! }));
}

/** The flows behind the gate: from what they weigh to what they fill. Foam goes on top, all else shares what stands under the surface. */
export function swelling(
  ends: readonly End[],
  groups: readonly Group[],
  sheet: wire.Sheet,
  stand: Stand,
  gate: number,
): (Path & { id: string; matter: string })[] {
  const { glass } = stand;
  const volume = (end: End): number => {
    const { step, number } = end.flow.use ?? { step: 0, number: 0 };
    const take = sheet.serve?.takes.filter((one) => one.step === step)[number - 1];
    return take?.volume_ml ?? take?.mass_g ?? end.flow.mass / sheet.serves;
  };
  const foams = (end: End): boolean => {
    const part = /^step:(\d+)/.exec(end.flow.from)?.[1];
    const group = groups.find((one) => String(one.part) === part);
    return glass.foamMl > 0.5 && (group?.steps.some((one) => one.do === "charge" || one.do === "froth") ?? false);
  };
  // What is on the rim is not in the drink.
  const rims = new Set(
    groups
      .find((group) => group.serve)
      ?.steps.filter((step) => step.do === "rim")
      .map((step) => step.number),
  );
  const sorted = ends.filter((end) => !rims.has(end.flow.use?.step ?? 0)).sort((a, b) => Number(foams(b)) - Number(foams(a)) || a.y - b.y);
  const total = { foam: 0, drink: 0 };
  for (const end of sorted) total[foams(end) ? "foam" : "drink"] += volume(end);
  let at = glass.topMl;
  return sorted.map((end) => {
    const room = foams(end) ? glass.foamMl : total.foam > 0 ? glass.surfaceMl : glass.topMl;
    const share = (volume(end) / Math.max(1e-9, total[foams(end) ? "foam" : "drink"])) * room;
    const [top, bottom] = [levelOf(glass.rings, at), levelOf(glass.rings, Math.max(0, at - share))];
    at -= share;
    return { id: end.flow.id, matter: end.flow.matter, ...toWall(end, gate, stand, top, bottom) };
  });
}

/** From the gate to a layer: both edges meet the wall where the layer does, and between them the ribbon follows the wall. */
function toWall(end: End, gate: number, stand: Stand, top: number, bottom: number): Path {
  const { rings } = stand.glass;
  const at = (mm: number): [number, number] => [stand.x - radiusAt(rings, mm) * stand.scale, upTo(stand, mm)];
  const say = ([x, y]: [number, number]): string => `${x.toFixed(1)},${y.toFixed(1)}`;
  const curve = (from: [number, number], to: [number, number]): string => {
    const middle = (from[0] + to[0]) / 2;
    return `C${say([middle, from[1]])} ${say([middle, to[1]])} ${say(to)}`;
  };
  const high: [number, number] = [gate + 3, end.y];
  const low: [number, number] = [gate + 3, end.y + end.h];
  const wall = [
    top,
    ...rings
      .map((ring) => ring.h)
      .filter((h) => h < top && h > bottom)
      .reverse(),
    bottom,
  ].map(at);
  const upper = `M${say(high)}${curve(high, wall[0]!)}`;
  return {
    fill: `${upper}${wall.map((point) => `L${say(point)}`).join("")}${curve(wall.at(-1)!, low)}Z`,
    upper,
    lower: `M${say(low)}${curve(low, wall.at(-1)!)}`,
  };
}
