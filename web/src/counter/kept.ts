// kept.ts - makes outlive a reload: they are kept in this tab with the course they were begun with, so that a change of the formula does not move what
// stands on the stove.
import type { Counter } from "../api/types";
import type { Make } from "./make";

export interface Kept {
  /** The text the courses were worked out from. */
  text: string;
  counter: Counter;
  makes: Make[];
  /** Part of the course in sight; null: the choice. */
  shown: string | null;
}
const keyOf = (name: string): string => `bloomset.counter.${name}`;

export function readKept(name: string, store: Storage = sessionStorage): Kept | null {
  const text = store.getItem(keyOf(name));
  if (!text) return null;
  try {
    const kept = JSON.parse(text) as Kept;
    return kept.counter.schema === 1 && Array.isArray(kept.makes) ? kept : null;
  } catch {
    return null; // written by another version of the page
  }
}
export function writeKept(name: string, kept: Kept, store: Storage = sessionStorage): void {
  if (kept.makes.length === 0) store.removeItem(keyOf(name));
  else store.setItem(keyOf(name), JSON.stringify(kept));
}
