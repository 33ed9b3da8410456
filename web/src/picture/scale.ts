// scale.ts - grams to pixels: twenty steps a decade, so that the picture does not tremble while one edits, and two pixels for what is too little to see.

/** Below this a ribbon is two edges with nothing between: not to scale, and the scale bar says so. */
export const thinnest = 2;

/** The steps from 0.001 to 10 px/g. */
export const steps: readonly number[] = Array.from({ length: 81 }, (_, i) => Number((10 ** (i / 20 - 3)).toPrecision(3)));

export const pixels = (grams: number, k: number): number => (grams <= 0 ? 0 : Math.max(thinnest, grams * k));

/** The largest step that fits; the first one if none does. `fits` must not get true again once it is false. */
export function largest(fits: (k: number) => boolean): number {
  let low = 0;
  let high = steps.length - 1;
  if (!fits(steps[0]!)) return steps[0]!;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (fits(steps[middle]!)) low = middle;
    else high = middle - 1;
  }
  return steps[low]!;
}

/** The mass the scale bar shows: 1, 2 or 5 with noughts, 11 px or more. */
export function barMass(k: number): number {
  for (let tens = 1; tens < 1e6; tens *= 10) for (const one of [1, 2, 5]) if (one * tens * k >= 11) return one * tens;
  return 1e6;
}
