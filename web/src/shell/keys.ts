// keys.ts - letters and digits as short cuts, outside of fields only, and only while a person has not switched them off (WCAG 2.1.4).
//
// `G` waits for a second letter. Chords with Ctrl always work.

type Act = (event: KeyboardEvent) => void;
const letters = new Map<string, Act>();
const chords = new Map<string, Act>();
const places = new Map<string, Act>();
let waiting = 0;

const kept = "bloomset.letters";
export const lettersOn = (): boolean => localStorage.getItem(kept) !== "off";
export const switchLetters = (on: boolean): void => localStorage.setItem(kept, on ? "on" : "off");

function told<T extends Map<string, Act>>(map: T, keys: Record<string, Act>): () => void {
  for (const [key, act] of Object.entries(keys)) map.set(key, act);
  return () => {
    for (const [key, act] of Object.entries(keys)) if (map.get(key) === act) map.delete(key);
  };
}
/** Letters by `event.key` in lower case, `Shift` as a prefix: `N`, `Shift N`. Answers how to take them back. */
export const onLetters = (keys: Record<string, Act>): (() => void) => told(letters, keys);
/** `Ctrl Z`, `Ctrl Shift Z`. */
export const onChords = (keys: Record<string, Act>): (() => void) => told(chords, keys);
/** The letter behind `G`. */
export const onPlaces = (keys: Record<string, Act>): (() => void) => told(places, keys);

const inField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && (target.matches("input, textarea, select") || target.isContentEditable);

function pressed(event: KeyboardEvent): void {
  if (event.defaultPrevented || event.altKey) return;
  const key = event.key.length === 1 ? event.key.toUpperCase() : event.key;
  const name = `${event.shiftKey && /^[A-Z]$/.test(key) ? "Shift " : ""}${key}`;
  if (event.ctrlKey || event.metaKey) {
    const act = chords.get(`Ctrl ${name}`);
    if (!act || (inField(event.target) && key === "Z")) return;
    event.preventDefault();
    act(event);
    return;
  }
  if (inField(event.target) || !lettersOn()) return;
  if (event.timeStamp < waiting) {
    waiting = 0;
    const go = places.get(key);
    if (go) {
      event.preventDefault();
      go(event);
      return;
    }
  }
  if (name === "G") {
    waiting = event.timeStamp + 1500;
    return;
  }
  const act = letters.get(name);
  if (!act) return;
  event.preventDefault();
  act(event);
}

addEventListener("keydown", pressed);
