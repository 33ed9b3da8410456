// route.svelte.ts - which place of the page is shown. Paths: /bench/NAME, /counter/NAME, /shelf, /larder, /kit.

export type Place = "bench" | "counter" | "shelf" | "larder" | "kit";
const places: readonly string[] = ["bench", "counter", "shelf", "larder", "kit"];

function parsed(path: string): { place: Place; name: string } {
  const [place = "", name = ""] = path.split("/").slice(1);
  return { place: places.includes(place) ? (place as Place) : "bench", name: decodeURIComponent(name) };
}

class Route {
  #at = $state(parsed(location.pathname));
  get place(): Place {
    return this.#at.place;
  }
  /** The formula that is open; empty: a blank bench. */
  get name(): string {
    return this.#at.name;
  }
  constructor() {
    addEventListener("popstate", () => (this.#at = parsed(location.pathname)));
  }
  go(path: string, replace = false): void {
    history[replace ? "replaceState" : "pushState"](null, "", path);
    this.#at = parsed(location.pathname);
    document.querySelector<HTMLElement>("main")?.focus({ preventScroll: true });
  }
}

export const route = new Route();
export const pathOf = (place: Place, name = ""): string => (name ? `/${place}/${encodeURIComponent(name)}` : `/${place}`);

/** For `<a href>`: stays on the page, unless a person asks for another tab. */
export function follow(event: MouseEvent): void {
  const link = (event.currentTarget as HTMLElement).closest("a");
  if (!link || event.defaultPrevented || event.button !== 0 || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
  event.preventDefault();
  route.go(link.pathname);
}
