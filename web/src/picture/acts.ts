// acts.ts - what one can do to a line or a step of the picture, as acts on the document with the words that undo shows.
import { tick } from "svelte";
import type * as wire from "../api/types";
import { session, type Change } from "../lib/session.svelte";
import type { Row } from "./model";
import { view, type Spot } from "./view.svelte";

export const writes =
  (at: wire.Place) =>
  (value: string): Change => ({ acts: [{ act: "write", at, value }] });
export const renames =
  (part: number) =>
  (value: string): Change => ({ acts: [{ act: "set_name", part, value }] });
/** A condition of a step; one inside of another (bath.takes_up) is written where it stands. */
export const conditions =
  (part: number, step: number, key: string, at: wire.Place | null = null) =>
  (value: string): Change => ({
    acts: [key.includes(".") && at ? { act: "write", at, value } : { act: "set_condition", part, step, key, value }],
  });

const locked = (): boolean => session.silentSince > 0;
/** `then`: the line that has focus afterwards, as its data-line. */
const act = (one: wire.Act, says: string, then = ""): void => {
  if (locked()) return;
  void session.change({ acts: [one] }, says).then(async (made) => {
    if (!made || !then) return;
    await tick();
    document.querySelector<HTMLElement>(`[data-line="${then}"] button`)?.focus();
  });
};

export const removeTake = ({ part, step, number, label }: Row): void =>
  act({ act: "remove_take", part, step, take: number }, `take out ${label}`);
export function moveTake({ part, step, number, label }: Row, by: -1 | 1): void {
  act({ act: "move_take", part, step, take: number, by }, `move ${label} ${by < 0 ? "up" : "down"}`, `take:${part}.${step}.${number + by}`);
}
export const removeStep = (part: number, step: wire.OutlineStep): void =>
  act({ act: "remove_step", part, step: step.number }, `take out ${step.do}`);
export function moveStep(part: number, step: wire.OutlineStep, by: -1 | 1): void {
  act(
    { act: "move_step", part, step: step.number, by },
    `move ${step.do} ${by < 0 ? "earlier" : "later"}`,
    `step:${part}.${step.number + by}`,
  );
}
export function turnMade(part: wire.OutlinePart): void {
  const value = part.made === "ahead" ? "to order" : "ahead";
  act({ act: "set_made", part: part.index, value }, `${part.name} ${value}`);
}

/** Opens the field for a new line: at what has focus, else at the last own part's last step. */
export function add(kind: "take" | "step", outline: wire.Outline | null, at: Spot | null = view.at): void {
  if (locked() || !outline) return;
  const own = outline.parts.findLast((part) => !part.borrowed);
  const part = at?.part ?? own?.index ?? outline.serve?.index;
  if (part === undefined) return;
  const steps = outline.serve?.index === part ? outline.serve.steps : (outline.parts.find((one) => one.index === part)?.steps ?? []);
  const step = steps.find((one) => one.number === at?.step)?.number ?? steps.at(-1)?.number ?? 0;
  view.field = { kind, part, step };
}

/** The keys of a row or a step. Answers whether it was one. */
export function rowKey(event: KeyboardEvent, row: Row): boolean {
  if (event.target instanceof HTMLInputElement || !row.take) return false;
  if (event.altKey && (event.key === "ArrowUp" || event.key === "ArrowDown")) moveTake(row, event.key === "ArrowUp" ? -1 : 1);
  else if (event.key === "Delete") removeTake(row);
  else return false;
  event.preventDefault();
  return true;
}
export function stepKey(event: KeyboardEvent, part: number, step: wire.OutlineStep): boolean {
  if (event.target instanceof HTMLInputElement || !step.do_pen) return false;
  const back = event.key === "ArrowUp" || event.key === "ArrowLeft";
  if (event.altKey && (back || event.key === "ArrowDown" || event.key === "ArrowRight")) moveStep(part, step, back ? -1 : 1);
  else if (event.key === "Delete") removeStep(part, step);
  else return false;
  event.preventDefault();
  return true;
}
