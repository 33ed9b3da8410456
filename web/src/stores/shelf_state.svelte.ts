// shelf_state.svelte.ts - the shelf as it is listed: everything or what was found, so many rows as are looked at, and what can be done with one.
import type { Entry } from "../api/types";
import { engine, told } from "../api/client";
import { freeName } from "./shelf";

export interface Row {
  entry: Entry;
  excerpt: string;
}
const first_rows = 60;
const more_rows = 200;
const settle_ms = 120;

const lastFirst = (one: Entry, other: Entry): number => (one.saved_ms === other.saved_ms ? 0 : one.saved_ms < other.saved_ms ? 1 : -1);

export class ShelfState {
  kind = $state("");
  trouble = $state("");
  #all = $state.raw<Row[]>([]);
  #found = $state.raw<Row[] | null>(null);
  #rows = $state(first_rows);
  #loaded = $state(false);
  /** Removed rows stay in their place, with a way back, by `kind name`: the text and the revision of the removal. */
  #gone = $state.raw<Record<string, { text: string; revision: number }>>({});
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asking: AbortController | null = null;

  get rows(): Row[] {
    const rows = this.#found ?? this.#all;
    return this.kind ? rows.filter(({ entry }) => entry.kind === this.kind) : rows;
  }
  get shown(): Row[] {
    return this.rows.slice(0, this.#rows);
  }
  get more(): number {
    return Math.max(0, this.rows.length - this.#rows);
  }
  get says(): string {
    if (!this.#loaded) return "";
    const count = this.rows.length;
    if (this.#found) return count === 0 ? "nothing found" : count === 1 ? "one found" : `${count} found`;
    return count === 0 ? "nothing on the shelf yet" : count === 1 ? "one document" : `${count} documents, the last written first`;
  }
  showMore(): void {
    this.#rows += more_rows;
  }
  isGone(entry: Entry): boolean {
    return `${entry.kind} ${entry.name}` in this.#gone;
  }

  async load(): Promise<void> {
    await this.#try(async () => {
      const { documents } = await engine.documents();
      this.#all = documents.sort(lastFirst).map((entry) => ({ entry, excerpt: "" }));
      this.#loaded = true;
    });
  }
  /** Looks for what is typed once the typing pauses; only the newest answer counts. */
  look(typed: string): void {
    clearTimeout(this.#timer);
    this.#asking?.abort();
    this.#rows = first_rows;
    if (typed.trim() === "") {
      this.#found = null;
      return;
    }
    this.#timer = setTimeout(() => void this.#search(typed), settle_ms);
  }
  async #search(typed: string): Promise<void> {
    const asking = (this.#asking = new AbortController());
    await this.#try(async () => {
      const { documents } = await engine.search(typed, asking.signal);
      if (!asking.signal.aborted) this.#found = documents.map(({ excerpt, ...entry }) => ({ entry, excerpt }));
    });
  }

  /** Another document with the same text and a free name; its title too, where it is a formula. Answers the name. */
  async copy(entry: Entry): Promise<string> {
    const name = freeName(entry.name, (one) => this.#all.some((row) => row.entry.kind === entry.kind && row.entry.name === one));
    await this.#try(async () => {
      let { text } = await engine.read(entry.kind, entry.name);
      if (entry.kind === "formula")
        text = (await engine.bench({ text, acts: [{ act: "set_title", value: name }] }).catch(() => null))?.text ?? text;
      const { revision, saved_ms } = await engine.save(entry.kind, name, text, 0);
      const row: Row = { entry: { kind: entry.kind, name, revision, saved_ms }, excerpt: "" };
      this.#all = [row, ...this.#all];
      this.#found &&= [row, ...this.#found];
    });
    return name;
  }
  async remove(entry: Entry): Promise<void> {
    await this.#try(async () => {
      const { text, revision } = await engine.read(entry.kind, entry.name);
      const gone = await engine.remove(entry.kind, entry.name, revision);
      this.#gone = { ...this.#gone, [`${entry.kind} ${entry.name}`]: { text, revision: gone.revision } };
    });
  }
  async bringBack(entry: Entry): Promise<void> {
    const key = `${entry.kind} ${entry.name}`;
    const gone = this.#gone[key];
    if (!gone) return;
    await this.#try(async () => {
      this.#renew(entry, await engine.save(entry.kind, entry.name, gone.text, gone.revision));
      this.#gone = Object.fromEntries(Object.entries(this.#gone).filter(([one]) => one !== key));
    });
  }
  /** An earlier revision goes on top, as the newest. */
  async restore(entry: Entry, revision: number): Promise<void> {
    await this.#try(async () => {
      const { text } = await engine.revision(entry.kind, entry.name, revision);
      this.#renew(entry, await engine.save(entry.kind, entry.name, text, entry.revision));
    });
  }
  #renew(entry: Entry, { revision, saved_ms }: { revision: number; saved_ms: number }): void {
    const renewed = (row: Row): Row =>
      row.entry.kind === entry.kind && row.entry.name === entry.name ? { ...row, entry: { ...row.entry, revision, saved_ms } } : row;
    this.#all = this.#all.map(renewed);
    this.#found &&= this.#found.map(renewed);
  }
  async #try(act: () => Promise<void>): Promise<void> {
    try {
      await act();
      this.trouble = "";
    } catch (fault) {
      if (fault instanceof DOMException && fault.name === "AbortError") return;
      this.trouble = told(fault);
    }
  }
}
