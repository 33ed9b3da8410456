// session.svelte.ts - the formula that is open: its text, what the engine says of it, undo, and its way onto the shelf.
//
// The text is the truth. Every change goes to the engine as acts or edits on the text and comes back as the next text with its outline and its sheet.
// While a person types, `try` shows what would be (only the newest answer counts); `keep` makes it so, as one step of undo and one save; `drop` leaves
// everything as it was. A text that cannot be read keeps the last good outline and sheet in sight, with the faults beside them.
import type * as wire from "../api/types";
import { engine, NoEngine, Refused, told } from "../api/client";

export type Change = { acts?: wire.Act[]; edits?: wire.Edit[]; fit?: { part: string; vessel: string }; have?: string };
interface Step {
  text: string;
  says: string;
}
export interface Conflict {
  mine: string;
  theirs: wire.Revision;
  beganFrom: wire.Revision | null;
}

export class Session {
  readonly kind = "formula";
  name = $state("");
  revision = $state(0);
  savedMs = $state(0);
  text = $state.raw("");
  outline = $state.raw<wire.Outline | null>(null);
  sheet = $state.raw<wire.Sheet | null>(null);
  faults = $state.raw<wire.Fault[]>([]);
  /** What a change in the making says; null: nothing is being typed. */
  trying = $state.raw<{ text: string; faults: wire.Fault[] } | null>(null);
  back = $state.raw<Step[]>([]);
  forth = $state.raw<Step[]>([]);
  conflict = $state.raw<Conflict | null>(null);
  /** Why the last save did not go through; the text is still here. */
  unsaved = $state("");
  /** Since when the engine does not answer. */
  silentSince = $state(0);
  saving = $state(false);
  loading = $state(true);
  missing = $state(false);

  #asked = 0;
  #typing: AbortController | null = null;
  #saves: Promise<void> = Promise.resolve();
  #changing: Promise<unknown> = Promise.resolve();

  /** Whether all that was written stands on the shelf. */
  get saved(): boolean {
    return !this.saving && this.unsaved === "" && !this.conflict;
  }
  get title(): string {
    return this.outline?.title?.text || this.name || "Untitled";
  }

  /** Opens a document of the shelf, or an empty bench. */
  async open(name: string): Promise<void> {
    this.loading = true;
    this.missing = false;
    this.name = name;
    this.back = [];
    this.forth = [];
    this.conflict = null;
    this.unsaved = "";
    this.trying = null;
    this.outline = null;
    this.sheet = null;
    this.faults = [];
    this.text = "";
    this.revision = 0;
    try {
      if (name) {
        const found = await engine.read(this.kind, name);
        if (this.name !== name) return;
        this.revision = found.revision;
        this.savedMs = found.saved_ms;
        await this.#show(found.text, {}, false);
      }
    } catch (fault) {
      this.missing = fault instanceof Refused && fault.status === 404;
      if (!this.missing) this.#failed(fault);
    } finally {
      this.loading = false;
    }
  }

  /** Shows what a change would make; nothing is kept. Answers that come late are passed over. */
  async try(change: Change): Promise<void> {
    this.#typing?.abort();
    this.#typing = new AbortController();
    try {
      await this.#show(this.text, change, true, this.#typing.signal);
    } catch (fault) {
      this.#tried(fault);
    }
  }
  /** Makes a change; true: it was made. */
  change(change: Change, says: string): Promise<boolean> {
    const made = this.#change(change, says);
    this.#changing = made;
    return made;
  }
  async #change(change: Change, says: string): Promise<boolean> {
    this.#typing?.abort();
    const before = this.text;
    try {
      await this.#show(before, change, false);
    } catch (fault) {
      this.#tried(fault);
      return false;
    }
    return this.#kept(before, says);
  }
  /** Makes what is being tried so. */
  async keep(change: Change, says: string): Promise<boolean> {
    const made = await this.change(change, says);
    if (made) this.trying = null;
    return made;
  }
  /** Leaves what was being tried. */
  async drop(): Promise<void> {
    this.#typing?.abort();
    if (!this.trying) return;
    this.trying = null;
    await this.#show(this.text, {}, false).catch((fault: unknown) => this.#failed(fault));
  }
  /** Puts a whole text in the place of this one: a remedy of balance, a revision, a paste. */
  async replace(text: string, says: string): Promise<boolean> {
    const before = this.text;
    try {
      await this.#show(text, {}, false);
    } catch (fault) {
      this.#failed(fault);
      return false;
    }
    return this.#kept(before, says);
  }

  /** Shows a text that is not on the shelf yet; no step of undo. */
  preview(text: string): Promise<void> {
    return this.#show(text, {}, false);
  }

  async undo(): Promise<void> {
    const step = this.back.at(-1);
    if (!step) return;
    const here = this.text;
    await this.#show(step.text, {}, false);
    this.back = this.back.slice(0, -1);
    this.forth = [...this.forth, { text: here, says: step.says }];
    this.#save();
  }
  async redo(): Promise<void> {
    const step = this.forth.at(-1);
    if (!step) return;
    const here = this.text;
    await this.#show(step.text, {}, false);
    this.forth = this.forth.slice(0, -1);
    this.back = [...this.back, { text: here, says: step.says }];
    this.#save();
  }

  /** Settles a conflict: mine goes on top of theirs, or theirs is taken and mine stays one step of undo away. */
  async settle(mine: boolean): Promise<void> {
    const conflict = this.conflict;
    if (!conflict) return;
    this.revision = conflict.theirs.revision;
    this.conflict = null;
    if (mine) {
      await this.#show(conflict.mine, {}, false);
      this.#save();
      return;
    }
    const before = conflict.mine;
    await this.#show(conflict.theirs.text, {}, false);
    this.back = [...this.back, { text: before, says: "take the other version" }];
  }
  /** Asks again after a silence or a failed save. */
  async again(): Promise<void> {
    await this.#show(this.text, {}, false).catch((fault: unknown) => this.#failed(fault));
    if (this.unsaved) this.#save();
  }
  /** Resolves when no change is on its way any more: for works that ask about the text as it stands. */
  async rested(): Promise<void> {
    await this.#changing;
  }
  /** Resolves when every save that was begun has ended. */
  settled(): Promise<void> {
    return this.#saves;
  }
  /** Gives a new formula its name on the shelf, and saves it there. */
  christen(name: string): void {
    this.name = name;
    this.revision = 0;
    this.#save();
  }

  async #show(text: string, change: Change, trying: boolean, signal?: AbortSignal): Promise<void> {
    const ask = ++this.#asked;
    const answer = await engine.bench({ text, ...change, ...(this.name ? { name: this.name } : {}) }, signal);
    if (ask !== this.#asked) return;
    this.silentSince = 0;
    if (answer.outline) this.outline = answer.outline;
    if (answer.sheet) this.sheet = answer.sheet;
    if (trying) {
      this.trying = { text: answer.text, faults: answer.faults };
      return;
    }
    this.text = answer.text;
    this.faults = answer.faults;
  }
  #kept(before: string, says: string): boolean {
    if (this.text !== before) {
      this.back = [...this.back, { text: before, says }];
      this.forth = [];
      this.#save();
    }
    return true;
  }
  #tried(fault: unknown): void {
    if (fault instanceof DOMException && fault.name === "AbortError") return;
    if (fault instanceof Refused && fault.kind === "bad_input") {
      const faults =
        fault.faults.length > 0
          ? fault.faults
          : [{ code: "refused", message: fault.message, hint: null, file: null, line: null, column: null, length: null }];
      this.trying = { text: this.text, faults };
      return;
    }
    this.#failed(fault);
  }
  #failed(fault: unknown): void {
    if (fault instanceof DOMException && fault.name === "AbortError") return;
    if (fault instanceof NoEngine) this.silentSince ||= Date.now();
    else this.unsaved = told(fault);
  }

  // One save at a time, each from the revision the one before it made. What was typed meanwhile goes with the next.
  #save(): void {
    if (!this.name) return;
    const name = this.name;
    this.saving = true;
    this.#saves = this.#saves.then(async () => {
      if (this.conflict || this.name !== name) return;
      const text = this.text;
      try {
        const saved = await engine.save(this.kind, name, text, this.revision);
        if (this.name !== name) return;
        this.revision = saved.revision;
        this.savedMs = saved.saved_ms;
        this.unsaved = "";
        this.silentSince = 0;
      } catch (fault) {
        if (fault instanceof Refused && fault.status === 412) {
          const body = fault.body as { theirs: wire.Revision; began_from: wire.Revision | null };
          this.conflict = { mine: text, theirs: body.theirs, beganFrom: body.began_from };
        } else {
          this.unsaved = told(fault);
          if (fault instanceof NoEngine) this.silentSince ||= Date.now();
        }
      } finally {
        if (this.text === text) this.saving = false;
      }
    });
  }
}

export const session = new Session();
