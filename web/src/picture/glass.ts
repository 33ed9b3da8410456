// glass.ts - one glass to scale. A vessel is a solid of revolution: pairs of height and radius inside, in mm, straight between them. Its volume up to a
// height is the sum of its frusta, V = pi/3 h (r1² + r1 r2 + r2²); 1 mL is 1000 mm³. Everything that is drawn (levels, ruler, ice) comes from that.
//
// Ice floats: it displaces its own mass of liquid, so the liquid's surface stands at the volume of liquid and that together. A block's area in the
// section is its volume, by the same measure as the liquid around it.
import type * as wire from "../api/types";

export interface Ring {
  /** mm above the inside bottom, mm from the middle. */
  h: number;
  r: number;
}
const iceDensity = 0.917; // g/mL at 0 °C: CRC Handbook of Chemistry and Physics, "Properties of ice and supercooled water"

/** Of the sheet, or of the kit. */
export type Vessel = Pick<wire.SheetVessel, "brim_ml" | "inside_mm">;
export const ringsOf = (vessel: Vessel): Ring[] =>
  vessel.inside_mm.flatMap(([h, r]) => (h === null || h === undefined || r === null || r === undefined ? [] : [{ h, r }]));

const frustum = (a: Ring, b: Ring): number => ((Math.PI / 3) * (b.h - a.h) * (a.r * a.r + a.r * b.r + b.r * b.r)) / 1000;

/** Radius at a height, mm; above the brim that of the brim. */
export function radiusAt(rings: readonly Ring[], h: number): number {
  for (let i = 1; i < rings.length; i++) {
    const [a, b] = [rings[i - 1]!, rings[i]!];
    if (h <= b.h) return b.h === a.h ? b.r : a.r + ((b.r - a.r) * Math.max(0, h - a.h)) / (b.h - a.h);
  }
  return rings.at(-1)?.r ?? 0;
}

/** mL up to a height in mm. */
export function volumeTo(rings: readonly Ring[], h: number): number {
  let sum = 0;
  for (let i = 1; i < rings.length; i++) {
    const [a, b] = [rings[i - 1]!, rings[i]!];
    if (h <= a.h) break;
    const top = Math.min(h, b.h);
    sum += frustum(a, { h: top, r: radiusAt(rings, top) });
  }
  return sum;
}

/** mm at which so many mL stand; the brim, if they do not fit. */
export function levelOf(rings: readonly Ring[], ml: number): number {
  const brim = rings.at(-1)?.h ?? 0;
  if (ml <= 0) return 0;
  if (ml >= volumeTo(rings, brim)) return brim;
  let [low, high] = [0, brim];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (volumeTo(rings, middle) < ml) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Area of the section up to a height, mm². */
export function sectionTo(rings: readonly Ring[], h: number): number {
  let sum = 0;
  for (let i = 1; i < rings.length; i++) {
    const [a, b] = [rings[i - 1]!, rings[i]!];
    if (h <= a.h) break;
    const top = Math.min(h, b.h);
    sum += (top - a.h) * (a.r + radiusAt(rings, top));
  }
  return sum;
}

export interface Block {
  /** Middle and side in mm; x from the middle of the glass, y above the bottom; degrees. */
  x: number;
  y: number;
  side: number;
  turn: number;
}
export interface Glass {
  rings: Ring[];
  brimMl: number;
  drinkMl: number;
  foamMl: number;
  iceG: number;
  /** mL up to the drink's surface (ice as it displaces), and to the top of the foam. */
  surfaceMl: number;
  topMl: number;
  /** mm. */
  surface: number;
  top: number;
  height: number;
  widest: number;
  /** mL above the foam; negative: it runs over. */
  roomMl: number;
  blocks: Block[];
  /** Beaten to crystals: many small ones. */
  crushed: boolean;
}

/** The glass at one moment. `pieces`: how many blocks of ice went in, where that is known; 0: cubes. */
export function glassAt(vessel: Vessel, now: wire.Properties | null, pieces = 0, crushed = false): Glass {
  const rings = ringsOf(vessel);
  const height = rings.at(-1)?.h ?? 0;
  const brimMl = vessel.brim_ml ?? volumeTo(rings, height);
  const drinkMl = now?.volume_ml ?? 0;
  const foamMl = now?.foam_volume_ml ?? 0;
  const iceG = now?.ice_g ?? 0;
  const density = (now?.density_kg_m3 ?? 1000) / 1000;
  const surfaceMl = drinkMl + iceG / density;
  const topMl = surfaceMl + foamMl;
  const surface = levelOf(rings, surfaceMl);
  const glass: Glass = {
    rings,
    brimMl,
    drinkMl,
    foamMl,
    iceG,
    surfaceMl,
    topMl,
    surface,
    top: levelOf(rings, topMl),
    height,
    widest: Math.max(0, ...rings.map((ring) => ring.r)),
    roomMl: brimMl - topMl,
    blocks: [],
    crushed,
  };
  glass.blocks = floating(glass, pieces);
  return glass;
}

const turns = [-8, 11, 6, -12, 4, -5, 9, -10, 3];

/** Blocks of one size, in rows from the surface down; about a twelfth of them stands out of the liquid. What does not fit below it lies on the bottom. */
function floating(glass: Glass, pieces: number): Block[] {
  const { rings, iceG, surface } = glass;
  if (iceG <= 0.5 || surface <= 0) return [];
  const ml = iceG / iceDensity;
  // mm² of section that stand for a mL: as the liquid's own zone has it.
  const measure = sectionTo(rings, surface) / Math.max(1, volumeTo(rings, surface));
  const count = glass.crushed ? 36 : pieces > 0 ? pieces : Math.max(1, Math.min(9, Math.round(iceG / 20)));
  const inner = 2 * radiusAt(rings, surface * 0.8) * 0.96;
  const side = Math.min(Math.sqrt((ml * measure) / count), inner * 0.94);
  const across = Math.max(1, Math.floor(inner / (side * 1.1)));
  const rows = Math.ceil(count / across);
  const pitch = glass.crushed ? Math.max(side, (surface - side) / Math.max(1, rows)) : side * 1.08;
  const first = surface + side * 0.09 - side / 2;
  const lift = Math.max(0, side / 2 - (first - (rows - 1) * pitch));
  const blocks: Block[] = [];
  for (let i = 0; i < count; i++) {
    const row = Math.floor(i / across);
    const inRow = Math.min(across, count - row * across);
    const step = inner / inRow;
    const nudge = ((((i * 7) % 5) - 2) / 2) * Math.max(0, Math.min(step - side * 1.1, side * 0.2)) * 0.5;
    const x = (i % across) * step + step / 2 - inner / 2 + nudge;
    const y = first - row * pitch + lift;
    const wide = Math.max(0, radiusAt(rings, Math.min(y, surface)) - side / 2 - 0.5);
    blocks.push({ x: Math.max(-wide, Math.min(wide, x)), y, side, turn: pieces === 1 && count === 1 ? 0 : (turns[i % turns.length] ?? 0) });
  }
  return blocks;
}

/** Marks of the ruler: every so many mL, a longer one each fifth. */
export function ruler(rings: readonly Ring[], brimMl: number): { ml: number; h: number; long: boolean }[] {
  const step = [5, 10, 20, 50, 100].find((one) => brimMl / one <= 26) ?? 200;
  const marks = [];
  for (let i = 0; i * step <= brimMl + 1e-6; i++) marks.push({ ml: i * step, h: levelOf(rings, i * step), long: i % 5 === 0 });
  return marks;
}

/** Moves words that want to stand at `wanted` (from the top down) so that all are `apart`, inside of `from` and `to`, as near as can be. */
export function spread(wanted: readonly number[], apart: number, from: number, to: number): number[] {
  const at = [...wanted];
  for (let i = 0; i < at.length; i++) at[i] = Math.max(at[i]!, i === 0 ? from : at[i - 1]! + apart);
  for (let i = at.length - 1; i >= 0; i--) at[i] = Math.min(at[i]!, i === at.length - 1 ? to : at[i + 1]! - apart);
  for (let i = 1; i < at.length; i++) at[i] = Math.max(at[i]!, at[i - 1]! + apart);
  return at;
}
