// shapes.ts - what a laid-out picture consists of: places in px, paths, words. What draws it needs nothing else.
import type { Head } from "./prepare";
import type { Mark } from "./findings";
import type { Block, Placed } from "./labels";
import type { Bar, Flow, Group, Row } from "./model";
import type { Path, Point } from "./paths";

export interface PlacedRow {
  row: Row;
  lines: string[];
  most: number;
  under: Block | null;
  group: Group;
  /** Middle of its ribbon and of its words. */
  y: number;
  /** Height of the ribbon, 0 for none. */
  h: number;
  top: number;
  slot: number;
  /** A made thing: from its words a dotted line leads to where its strand comes in, x of that. */
  lead: number | null;
}
export interface Ribbon {
  flow: Flow;
  points: Point[];
  path: Path;
  /** Two pixels, not to scale. */
  thin: boolean;
}
export interface PlacedBar {
  bar: Bar;
  x: number;
  y: number;
  h: number;
}
export interface Stub {
  bar: Bar;
  path: string;
  gas: boolean;
  mass: number;
}
/** Words that the engine says, in one place: a loss, what stays. */
export interface Note {
  id: string;
  kind: "loss" | "stay" | "short" | "name";
  part: number;
  x: number;
  y: number;
  w: number;
  h: number;
  align: "start" | "middle" | "end";
  lines: string[];
  /** What a summed loss consists of. */
  parts: string[];
}
export interface Bracket {
  part: number;
  x: number;
  y: number;
  h: number;
  dashed: boolean;
}
export interface Lane {
  part: number;
  x: number;
  y: number;
  w: number;
  h: number;
}
export interface PlacedMark extends Mark {
  x: number;
  y: number;
}
export interface PlacedGroup {
  group: Group;
  head: Head;
  y: number;
  h: number;
}
/** Where a flow meets the gate. */
export interface End {
  flow: Flow;
  y: number;
  h: number;
}
export interface Flowing {
  width: number;
  height: number;
  /** px a gram. */
  k: number;
  edge: number;
  gate: { x: number; top: number; bottom: number; text: string };
  groups: PlacedGroup[];
  rows: PlacedRow[];
  ribbons: Ribbon[];
  bars: PlacedBar[];
  words: Placed[];
  arms: Placed[];
  stubs: Stub[];
  notes: Note[];
  brackets: Bracket[];
  lanes: Lane[];
  marks: PlacedMark[];
  ends: End[];
  field: { part: number; step: number; y: number } | null;
  scale: { y: number; mass: number; h: number; under: number };
}
