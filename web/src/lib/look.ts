// look.ts - one colour map for matter, everywhere: what a stream or thing is, as the pair of custom properties that paints it. The engine says the look
// (`streams[].look`); a few names say more than their family does, so that orange and lime are told apart.

const byName: [RegExp, string][] = [
  [/\blime\b/, "lime"],
  [/\b(lemon|yuzu|bergamot)\b/, "ginger"],
  [/\bhoney\b/, "honey"],
  [/\b(orange|mandarin|mango|passion)\b/, "orange"],
  [/\b(mint|basil|cucumber|herb)\b/, "green"],
  [/\bginger\b/, "ginger"],
  [/\b(sucrose|sugar|glucose|fructose|maltose|lactose)\b/, "sugar"],
  [/\bacid\b/, "lime"],
  [/\b(salt|chloride|citrate)\b/, "rim"],
];
const byLook: Record<string, string> = {
  juice: "orange",
  puree: "orange",
  sweetener: "sugar",
  syrup: "syrup",
  spirit: "rum",
  liqueur: "rum",
  wine: "rim",
  bitters: "rum",
  dairy: "sugar",
  egg: "honey",
  plant_milk: "sugar",
  acid: "lime",
  acid_solution: "lime",
  salt: "rim",
  saline: "rim",
  soda: "ginger",
  tea_coffee: "rum",
  spice: "spice",
  herb: "green",
  fruit: "orange",
  ice: "ice",
  water: "water",
  agent: "gel",
  gas: "gas",
  chemical: "gas",
};

/** The matter colour (`orange` for `--m-orange` and `--m-orange-e`) of a look, and of a thing's name where that says more. */
export function matterOf(look: string, thing = ""): string {
  const found = look === "ice" || look === "agent" ? undefined : byName.find(([name]) => name.test(thing));
  return found?.[1] ?? byLook[look] ?? "base";
}
/** Fill and edge as custom properties, for `style:` of Svelte. */
export const fill = (matter: string): string => `var(--m-${matter})`;
export const edge = (matter: string): string => `var(--m-${matter}-e)`;
