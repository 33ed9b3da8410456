// drip.ts - a touch within 400 ms of the last is a drip of water or a second contact of a wet finger, and is ignored. Keys are not touches; a key that
// is held down does not press again and again.

export const drip_ms = 400;

/** Whether a touch at this time counts; those that do not leave the last one standing. */
export function dripGuard(): (at_ms: number) => boolean {
  let last = -Infinity;
  return (at_ms) => {
    if (at_ms - last < drip_ms) return false;
    last = at_ms;
    return true;
  };
}

/** Svelte action: swallows dripping clicks on everything inside before anything hears of them. Fields and what a keyboard presses stay free. */
export function noDrips(node: HTMLElement): { destroy(): void } {
  const counts = dripGuard();
  const click = (event: MouseEvent): void => {
    const byKey = event.detail === 0;
    if (byKey || (event.target instanceof Element && event.target.closest("input"))) return;
    if (counts(event.timeStamp)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  };
  const key = (event: KeyboardEvent): void => {
    if (event.repeat && event.key === "Enter") event.preventDefault();
  };
  node.addEventListener("click", click, true);
  node.addEventListener("keydown", key, true);
  return {
    destroy() {
      node.removeEventListener("click", click, true);
      node.removeEventListener("keydown", key, true);
    },
  };
}
