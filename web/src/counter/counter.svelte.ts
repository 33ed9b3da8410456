// counter.svelte.ts - the counter as it stands: courses of the open formula, the makes that are on, time, bells. All rules are in make.ts.
import type { Counter as Answer, Course, Fault } from "../api/types";
import { engine, Refused, told } from "../api/client";
import { isLate } from "./clock";
import { awake } from "./awake.svelte";
import { readKept, writeKept } from "./kept";
import { begin, due, running, type Clock, type Make, type Ring } from "./make";
import { sound, speak, wakeSound } from "./ring";
import { bellSays } from "./words";

export interface RunningClock {
  course: Course;
  make: Make;
  clock: Clock;
}
export interface Alert {
  /** The make whose clock rings. */
  id: string;
  ring: Ring;
  says: string;
  /** Something is lost by waiting on. */
  late: boolean;
}
const voiceKey = "bloomset.voice";

export class CounterState {
  name = $state("");
  answer = $state.raw<Answer | null>(null);
  makes = $state.raw<Make[]>([]);
  /** The make in sight; null: the choice. */
  shown = $state<string | null>(null);
  now = $state(Date.now());
  alert = $state.raw<Alert | null>(null);
  voice = $state(localStorage.getItem(voiceKey) === "on");
  faults = $state.raw<Fault[]>([]);
  /** Why there is nothing to show. */
  silent = $state("");
  /** The formula was changed since these makes began. */
  changed = $state(false);
  /** What is typed as the scale's reading, by take: a new take begins empty. */
  #typed = $state<Record<string, string>>({});
  #text = "";
  #asked = 0;
  #inSight = false;
  #timer: ReturnType<typeof setInterval> | undefined;

  get courses(): Course[] {
    return this.answer?.courses ?? [];
  }
  get course(): Course | null {
    return this.courses.find((course) => course.part === this.make?.part) ?? null;
  }
  get make(): Make | null {
    return this.makes.find((make) => make.id === this.shown) ?? null;
  }
  /** Every clock that runs, of all courses, in the order they were started. */
  get clocks(): RunningClock[] {
    return this.makes
      .flatMap((make) => {
        const course = this.courses.find((one) => one.part === make.part);
        return course ? running(make).map((clock) => ({ course, make, clock })) : [];
      })
      .sort((one, other) => one.clock.started - other.clock.started);
  }

  /** Takes up the makes of this formula that this tab keeps, else asks the engine what its courses are. */
  async open(name: string, text: string): Promise<void> {
    if (name !== this.name) {
      const kept = readKept(name);
      this.name = name;
      this.answer = kept?.counter ?? null;
      this.makes = kept?.makes ?? [];
      this.shown = kept?.shown ?? null;
      this.#text = kept?.text ?? "";
      this.alert = null;
      this.#stayAwake();
    }
    this.changed = this.makes.length > 0 && text !== "" && text !== this.#text;
    if (this.makes.length > 0 || text === "" || (text === this.#text && this.answer)) return;
    await this.ask(text);
  }
  async ask(text: string): Promise<void> {
    const ask = ++this.#asked;
    try {
      const answer = await engine.counter({ text });
      if (ask !== this.#asked) return;
      this.answer = answer;
      this.#text = text;
      this.faults = [];
      this.silent = "";
    } catch (fault) {
      if (ask !== this.#asked) return;
      this.answer = null;
      this.faults = fault instanceof Refused ? fault.faults : [];
      this.silent = told(fault);
    }
  }

  /** The newest make of a course. */
  latest(course: Course): Make | null {
    return this.makes.findLast((make) => make.part === course.part) ?? null;
  }
  /** Begins a course, or goes back to where it stands. */
  show(course: Course): void {
    const on = this.latest(course);
    if (!on) return this.begin(course, 1);
    wakeSound();
    this.shown = on.id;
    this.#keep();
  }
  /** Begins a batch, a round or a glass of a course; clocks of those before run on, and what is over of them is put away. */
  begin(course: Course, round: number): void {
    wakeSound();
    const make = begin(course, this.tick(), round);
    this.makes = [...this.makes.filter((one) => one.part !== course.part || (one.id !== make.id && running(one).length > 0)), make];
    this.shown = make.id;
    this.#keep();
  }
  leave(): void {
    this.shown = null;
    this.#keep();
  }
  /** Puts the next value of a make in the place of the one before. */
  change(id: string, next: (make: Make, now_ms: number) => Make): void {
    wakeSound();
    const now = this.tick();
    this.makes = this.makes.map((make) => (make.id === id ? next(make, now) : make));
    const rings = this.alert;
    if (rings?.id === id && !this.clocks.some(({ make, clock }) => make.id === id && clock.step === rings.ring.step)) this.alert = null;
    this.#keep();
  }
  typed(make: Make): string {
    return this.#typed[`${make.id} ${make.at} ${make.take}`] ?? "";
  }
  type(make: Make, text: string): void {
    this.#typed[`${make.id} ${make.at} ${make.take}`] = text;
  }
  turnVoice(): void {
    this.voice = !this.voice;
    localStorage.setItem(voiceKey, this.voice ? "on" : "off");
    if (this.voice) speak("speaking");
  }
  heard(): void {
    this.alert = null;
  }

  tick(): number {
    this.now = Date.now();
    return this.now;
  }
  /** Twice a second: time goes on, and what is due rings. */
  beat(): void {
    const now = this.tick();
    let rung = false;
    const makes = this.makes.map((make) => {
      const course = this.courses.find((one) => one.part === make.part);
      if (!course) return make;
      const { make: next, rings } = due(make, course, now);
      for (const ring of rings) this.#ring(course, make, ring);
      rung ||= rings.length > 0;
      return next;
    });
    this.#rest();
    if (!rung) return;
    this.makes = makes;
    this.#keep();
  }
  #ring(course: Course, make: Make, ring: Ring): void {
    const step = course.steps[ring.step];
    if (!step?.window) return;
    const says = bellSays(step.heading, step.window, ring.bell);
    this.alert = { id: make.id, ring, says, late: ring.bell === "ends" && isLate(step.window, "over") };
    sound(ring.bell);
    if (this.voice) speak(says);
  }
  #keep(): void {
    if (this.answer) writeKept(this.name, { text: this.#text, counter: this.answer, makes: this.makes, shown: this.shown });
    this.#stayAwake();
  }
  #stayAwake(): void {
    void awake.want(this.#inSight && (this.makes.some((make) => make.finished === null) || this.clocks.length > 0));
  }
  /** The counter comes into sight: time runs. The answer takes it out of sight; clocks that run then still ring, on whatever place is open. */
  start(): () => void {
    this.#inSight = true;
    this.#stayAwake();
    this.#timer ??= setInterval(() => this.beat(), 500);
    return () => {
      this.#inSight = false;
      this.#stayAwake();
      this.#rest();
    };
  }
  #rest(): void {
    if (this.#inSight || this.clocks.length > 0) return;
    clearInterval(this.#timer);
    this.#timer = undefined;
  }
}

/** One for the page, so that a bell rings also while the bench is open. */
export const counter = new CounterState();
