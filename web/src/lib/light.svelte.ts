// light.svelte.ts - day or night colours: the machine's wish, until a person says otherwise. Kept in this browser.

type Light = "day" | "night" | null;
const kept = (): Light => {
  const word = localStorage.getItem("bloomset.light");
  return word === "day" || word === "night" ? word : null;
};

class LightSwitch {
  #said = $state<Light>(kept());
  constructor() {
    this.#show();
  }
  #show(): void {
    if (this.#said) document.documentElement.dataset.light = this.#said;
  }
  turn(): void {
    const night = this.#said ? this.#said === "night" : matchMedia("(prefers-color-scheme: dark)").matches;
    this.#said = night ? "day" : "night";
    localStorage.setItem("bloomset.light", this.#said);
    this.#show();
  }
}

export const light = new LightSwitch();
