// awake.svelte.ts - keeps the screen on while a make is on, where the browser can. A page that was hidden has to ask again.

class Awake {
  /** Whether the screen stays on. */
  on = $state(false);
  #wanted = false;
  #lock: WakeLockSentinel | null = null;

  constructor() {
    document.addEventListener("visibilitychange", () => void this.#ask());
  }
  async want(wanted: boolean): Promise<void> {
    if (this.#wanted === wanted) return;
    this.#wanted = wanted;
    if (wanted) await this.#ask();
    else await this.#lock?.release().catch(() => undefined);
  }
  async #ask(): Promise<void> {
    if (!this.#wanted || document.visibilityState !== "visible" || !("wakeLock" in navigator) || this.#lock) return;
    try {
      const lock = await navigator.wakeLock.request("screen");
      this.#lock = lock;
      this.on = true;
      lock.addEventListener("release", () => {
        this.#lock = null;
        this.on = false;
      });
      if (!this.#wanted) await lock.release();
    } catch {
      this.on = false; // low battery, or not allowed: the page says that the screen may sleep
    }
  }
}

export const awake = new Awake();
