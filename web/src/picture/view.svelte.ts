// view.svelte.ts - what is open in the picture and in the table alike: a finding's lane, folded parts, a line being added, what has focus.
import { untrack } from "svelte";
import type * as wire from "../api/types";
import { session } from "../lib/session.svelte";
import { moment } from "./moment.svelte";

export interface Spot {
  part: number;
  step: number;
  /** 0: the step itself. */
  take: number;
}

class View {
  /** Index of the finding whose lane is open; -1: none. */
  open = $state(-1);
  /** The line that is being added. */
  field = $state.raw<{ kind: "take" | "step"; part: number; step: number } | null>(null);
  /** Parts that a person folded or unfolded. */
  folds = $state<Record<string, boolean>>({});
  /** What had focus last: where N adds. */
  at = $state.raw<Spot | null>(null);
  table = $state(false);
  /** What `?` does in an amount; null: nothing. */
  free = $state.raw<((thing: string) => void) | null>(null);

  /** Borrowed parts are folded until a person says otherwise. */
  folded(outline: wire.Outline): Set<number> {
    return new Set(outline.parts.filter((part) => this.folds[part.name] ?? part.borrowed).map((part) => part.index));
  }
  toggle(part: wire.OutlinePart): void {
    this.folds[part.name] = !(this.folds[part.name] ?? part.borrowed);
  }
  /** A press on a mark: its first finding, then its next, then none. */
  step(findings: readonly number[]): void {
    const here = findings.indexOf(this.open);
    this.open = here < 0 ? (findings[0] ?? -1) : (findings[here + 1] ?? -1);
  }
}
export const view = new View();

/** For the one component that is always there: another document begins afresh, and an open finding stays with what it says when others come before it. */
export function followSession(): void {
  const tagOf = (finding: wire.Finding | undefined): string =>
    finding ? JSON.stringify([finding.code, finding.where.part, finding.where.step, finding.where.take]) : "";
  let tag = "";
  $effect(() => {
    void session.name;
    untrack(() => {
      Object.assign(view, { open: -1, field: null, at: null, folds: {} });
      moment.index = 0;
    });
  });
  $effect(() => {
    tag = tagOf(untrack(() => session.sheet)?.findings[view.open]);
  });
  $effect(() => {
    const findings = session.sheet?.findings ?? [];
    const open = untrack(() => view.open);
    if (open >= 0 && tagOf(findings[open]) !== tag) view.open = findings.findIndex((one) => tagOf(one) === tag);
  });
}

/**
 * The outline whose places belong to `session.text`. While a person types, the session's outline is that of a text that is not kept, so its places
 * would miss; the numbers beside it may already answer.
 */
export function keptOutline(): { readonly outline: wire.Outline | null } {
  let kept = $state.raw(untrack(() => session.outline));
  $effect.pre(() => {
    if (!session.trying) kept = session.outline;
  });
  return {
    get outline() {
      return kept;
    },
  };
}
