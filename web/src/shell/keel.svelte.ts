// keel.svelte.ts - the line at the foot: what has focus and what the keys do there.

class KeelState {
  subject = $state("");
  keys = $state<[string, string][]>([]);
  say(subject: string, keys: [string, string][]): void {
    this.subject = subject;
    this.keys = keys;
  }
  clear(): void {
    this.say("", []);
  }
}

export const keel = new KeelState();
