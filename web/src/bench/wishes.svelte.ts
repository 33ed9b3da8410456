// wishes.svelte.ts - the model asked backwards from the bench: which amounts the solver may change, its answer, and how sure the drink is.
//
// Both works run in the program and can be broken off. An answer holds for the text it was asked of and falls away when the text changes.
import type * as wire from "../api/types";
import { engine, told } from "../api/client";
import { session } from "../lib/session.svelte";

class Work<T> {
  answer = $state.raw<T | null>(null);
  of = $state("");
  share = $state(0);
  running = $state(false);
  trouble = $state("");
  #stop: AbortController | null = null;

  constructor(private readonly ask: (text: string, progress: (share: number) => void, signal: AbortSignal) => Promise<T>) {}

  /** The answer, if it still speaks of what is written. */
  get fresh(): T | null {
    return this.of === session.text ? this.answer : null;
  }
  async run(): Promise<void> {
    this.#stop?.abort();
    const stop = new AbortController();
    this.#stop = stop;
    this.running = true;
    this.share = 0;
    this.trouble = "";
    await session.rested();
    const text = session.text;
    try {
      this.answer = await this.ask(text, (share) => (this.share = share), stop.signal);
      this.of = text;
    } catch (fault) {
      if (!stop.signal.aborted) this.trouble = told(fault);
    } finally {
      if (this.#stop === stop) this.running = false;
    }
  }
  cancel(): void {
    this.#stop?.abort();
    this.running = false;
  }
}

class Wishes {
  /** Things that a person handed to the solver; none: all that is bought by measure. */
  free = $state.raw<readonly string[]>([]);
  readonly balance = new Work<wire.Balanced>((text, progress, signal) =>
    engine.balance({ text, ...(this.free.length ? { vary: [...this.free] } : {}) }, progress, signal),
  );
  readonly scatter = new Work<wire.Scattered>((text, progress, signal) => engine.scatter({ text, draws: 4096 }, progress, signal));

  turn(thing: string): void {
    this.free = this.free.includes(thing) ? this.free.filter((one) => one !== thing) : [...this.free, thing];
  }
}

export const wishes = new Wishes();
