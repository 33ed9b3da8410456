// own_text.svelte.ts - a document of the shelf as a text in the making: read, checked while it is written, saved as its next revision.
import type { Fault, Revision } from "../api/types";
import { engine, Refused, told } from "../api/client";

const settle_ms = 250;

export class OwnText {
  text = $state("");
  revision = $state(0);
  faults = $state.raw<Fault[]>([]);
  /** What stands on the shelf; differs from `text`: not saved. */
  kept = $state("");
  checking = $state(false);
  saving = $state(false);
  trouble = $state("");
  theirs = $state.raw<Revision | null>(null);
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = 0;

  constructor(
    readonly kind: "larder" | "kit",
    readonly name: string,
  ) {}

  get changed(): boolean {
    return this.text !== this.kept;
  }
  /** Takes what stands on the shelf, or a text to begin with. */
  async open(beginning?: string): Promise<void> {
    if (beginning !== undefined) {
      this.text = beginning;
      return this.check();
    }
    try {
      const found = await engine.read(this.kind, this.name);
      this.text = this.kept = found.text;
      this.revision = found.revision;
      await this.check();
    } catch (fault) {
      this.#failed(fault);
    }
  }
  write(text: string): void {
    this.text = text;
    this.trouble = "";
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.check(), settle_ms);
  }
  async check(): Promise<void> {
    clearTimeout(this.#timer);
    const ask = (this.#asked += 1);
    this.checking = true;
    try {
      const { faults } = await engine.sound(this.kind, this.text);
      if (ask === this.#asked) this.faults = faults;
    } catch (fault) {
      if (ask === this.#asked) this.#failed(fault);
    } finally {
      if (ask === this.#asked) this.checking = false;
    }
  }
  /** Saves, unless there is a fault; true: it stands on the shelf. */
  async save(): Promise<boolean> {
    await this.check();
    if (this.faults.length > 0) return false;
    this.saving = true;
    const text = this.text;
    try {
      const saved = await engine.save(this.kind, this.name, text, this.revision);
      this.revision = saved.revision;
      this.kept = text;
      this.trouble = "";
      this.theirs = null;
      return true;
    } catch (fault) {
      if (fault instanceof Refused && fault.status === 412) this.theirs = (fault.body as { theirs: Revision | null }).theirs ?? null;
      this.#failed(fault);
      return false;
    } finally {
      this.saving = false;
    }
  }
  /** Somebody else was first: mine goes on top of theirs, or theirs is taken. */
  async settle(mine: boolean): Promise<boolean> {
    if (!this.theirs) return false;
    this.revision = this.theirs.revision;
    if (!mine) this.text = this.kept = this.theirs.text;
    this.theirs = null;
    this.trouble = "";
    return mine ? this.save() : true;
  }
  #failed(fault: unknown): void {
    this.trouble = told(fault);
    if (fault instanceof Refused && fault.faults.length > 0) this.faults = fault.faults;
  }
}
