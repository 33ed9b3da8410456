// hold_focus.ts - what has the focus may be taken away by its own act: a line that is taken out, a finding that is mended, a place that is left. The focus
// then goes to what stands nearest, never to nowhere. Components that know better put it there themselves, and go first.

const rest_ms = 60;
const stops = "a[href], button:not(:disabled), input:not(:disabled), select, textarea, summary, [tabindex='0']";

const shown = (node: HTMLElement): boolean => node.getClientRects().length > 0 && node.tabIndex >= 0;
const stopsIn = (node: Element): HTMLElement[] => [...node.querySelectorAll<HTMLElement>(stops)].filter(shown);

/**
 * Where the focus may go when a path of elements, the inmost first, has lost its beginning: the best first. `order`: how manieth stop it was in each.
 */
export function* nearest(path: readonly Element[], order: ReadonlyMap<Element, number>): Generator<HTMLElement> {
  for (const [i, node] of path.entries()) {
    if (!node.isConnected || node.matches(":disabled")) continue;
    if (i === 0) yield node as HTMLElement;
    const main = node.matches("main") ? null : node.querySelector<HTMLElement>("main");
    if (main) yield main;
    const all = stopsIn(node);
    const at = all[Math.min(order.get(node) ?? 0, all.length - 1)];
    if (at) yield at;
    if (node.matches("main, [tabindex]")) yield node as HTMLElement;
  }
}

/** Begins to watch; once for the page. */
export function holdFocus(): void {
  let path: Element[] = [];
  let order = new Map<Element, number>();
  let waiting = 0;
  const lost = (): boolean => document.activeElement === null || document.activeElement === document.body;

  addEventListener("focusin", (event) => {
    path = [];
    const target = event.target as HTMLElement;
    for (let node: Element | null = target; node && node !== document.body; node = node.parentElement) path.push(node);
  });
  // The place among its neighbours is only worth its price when something goes: then it is too late to ask, so it is asked at each key and press.
  const note = (): void => {
    const [here] = path;
    if (!(here instanceof HTMLElement) || !here.isConnected) return;
    order = new Map(path.map((node) => [node, Math.max(0, stopsIn(node).indexOf(here))]));
  };
  addEventListener("keydown", (event) => (event.key === "Enter" || event.key === "Delete" || event.key === " ") && note(), true);

  // A press beside everything takes the focus away as well: that is a person's wish.
  addEventListener("pointerdown", () => setTimeout(() => lost() && (path = [])), true);
  // What was only moved within the page, or hidden, has lost it too.
  const look = (): void => {
    if (waiting) return;
    waiting = window.setTimeout(() => {
      waiting = 0;
      for (const node of nearest(path, order)) {
        if (!lost()) return;
        node.focus({ preventScroll: node.matches("main") });
      }
    }, rest_ms);
  };
  addEventListener("focusout", (event) => event.relatedTarget === null && look());
  const watch = new MutationObserver(() => path.length > 0 && lost() && look());
  watch.observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ["disabled"] });
}
