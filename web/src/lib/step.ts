// step.ts - arrow keys on a number that a person wrote: the first number of the text moves by one of its last digit, all else stays. Text in, text out.

/** `45 mL` by 1 → `46 mL`; `1.1 %` by -1 → `1.0 %`; `10-12 min` moves both ends. Not below zero, unless the number was below it. Nothing to move: the text itself. */
export function stepped(text: string, by: number): string {
  const found = /^(-?\d+(?:\.\d+)?)(?:(\s*(?:-|–|to)\s*)(-?\d+(?:\.\d+)?))?/.exec(text.trim());
  if (!found) return text;
  const [whole, low = "", dash, high] = found;
  const moved = (word: string): string => {
    const decimals = word.split(".")[1]?.length ?? 0;
    const unit = Number(`1e-${decimals}`);
    const next = Number(word) + by * unit;
    return (word.startsWith("-") ? next : Math.max(0, next)).toFixed(decimals);
  };
  const tail = text.trim().slice(whole.length);
  return dash && high ? `${moved(low)}${dash}${moved(high)}${tail}` : `${moved(low)}${tail}`;
}
