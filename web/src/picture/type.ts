// type.ts - how wide a word will be, without a page to measure it on: the advance widths of the bundled faces, in thousandths of the size.
//
// So the layout is the same everywhere, and its tests need no browser. A letter the table lacks counts as an `n`; kerning is left out (under 1 %).

const plain =
  "200,289,426,497,497,824,609,249,303,303,418,497,249,311,249,350,497,497,497,497,497,497,497,497,497,497,249,249,497,497,497,425,847,543,588,570,615,527,495,617,652,263,479,579,486,727,647,664,567,664,570,534,536,645,515,786,513,476,539,303,350,303,497,500,542,504,553,456,555,496,292,505,544,247,247,495,255,829,547,542,555,555,347,419,338,543,467,719,447,467,425,303,242,303,497";
const strong =
  "200,315,482,513,513,841,639,275,324,324,438,513,275,322,275,344,513,513,513,513,513,513,513,513,513,513,275,275,513,513,513,444,875,558,597,576,625,538,510,628,663,282,494,597,502,745,657,674,582,674,592,545,546,655,536,800,541,501,540,324,344,324,513,500,549,516,563,462,564,507,317,520,558,262,263,522,271,843,560,549,564,564,373,431,361,556,495,748,481,495,443,324,255,324,513";
const serif =
  "224,306,470,581,534,942,713,264,390,390,477,541,304,322,304,352,547,547,547,547,547,547,547,547,547,547,304,304,541,541,541,460,883,689,629,616,707,604,573,672,775,372,366,695,584,930,739,679,583,679,657,508,599,720,655,925,665,600,564,351,345,351,542,519,400,568,538,449,571,457,338,527,592,325,284,514,307,884,607,539,556,537,442,398,362,608,521,793,575,528,504,383,292,383,541";
const tables = { plain: plain.split(",").map(Number), strong: strong.split(",").map(Number), serif: serif.split(",").map(Number) };
const others: Record<string, number> = {
  "–": 500,
  "°": 345,
  "·": 270,
  "×": 505,
  "½": 825,
  "₂": 410,
  "−": 505,
  "\u00a0": 200,
  "\u202f": 110,
  "…": 800,
};

export type Face = keyof typeof tables;

/** Width in px of one line of text. */
export function textWidth(text: string, size: number, face: Face = "plain"): number {
  let sum = 0;
  for (const letter of text) sum += tables[face][(letter.codePointAt(0) ?? 0) - 32] ?? others[letter] ?? 560;
  return (sum * size) / 1000;
}

/** Breaks a text at its spaces into lines no wider than `most` px, where a single word allows it. */
export function broken(text: string, most: number, size: number, face: Face = "plain"): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    const joined = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(joined, size, face) <= most) lines[lines.length - 1] = joined;
    else lines.push(word);
  }
  return lines;
}
