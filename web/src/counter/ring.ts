// ring.ts - how a bell sounds: short tones made here, and a voice if it is switched on. No sound file, no request.
import type { Bell } from "./clock";

// Pitch [Hz] of each tone of a bell: two up for an opening, one low for the last minute, three down for the end.
const tunes: Record<Bell, number[]> = { opens: [660, 880], minute: [660], ends: [880, 660, 880, 660] };
const tone_s = 0.16;
const apart_s = 0.24;

let context: AudioContext | null = null;

/** Called from a touch: browsers let a page sound only after one. */
export function wakeSound(): void {
  try {
    context ??= new AudioContext();
    if (context.state === "suspended") void context.resume();
  } catch {
    context = null; // no sound device: the flash and the words remain
  }
}

export function sound(bell: Bell): void {
  if (!context) return;
  tunes[bell].forEach((pitch, index) => {
    if (!context) return;
    const at = context.currentTime + 0.02 + index * apart_s;
    const tone = context.createOscillator();
    const loud = context.createGain();
    tone.type = "triangle";
    tone.frequency.value = pitch;
    loud.gain.setValueAtTime(0, at);
    loud.gain.linearRampToValueAtTime(0.5, at + 0.015);
    loud.gain.linearRampToValueAtTime(0, at + tone_s);
    tone.connect(loud).connect(context.destination);
    tone.start(at);
    tone.stop(at + tone_s + 0.02);
  });
}

export const canSpeak = (): boolean => "speechSynthesis" in globalThis;
export function speak(words: string): void {
  if (canSpeak()) speechSynthesis.speak(new SpeechSynthesisUtterance(words));
}
