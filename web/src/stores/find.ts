// find.ts - looking things up by what is typed: case and accents do not count, every word must be there, in any order.
import type { Thing } from "../api/types";

export const folded = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/** Whether every typed word begins a word of one of these names, or stands within one once it has three letters. */
export function matches(names: string[], typed: string): boolean {
  const words = folded(typed).split(/\s+/).filter(Boolean);
  const all = names.map(folded);
  return words.every((word) =>
    all.some((name) => name.split(/[\s,(/-]+/).some((part) => part.startsWith(word)) || (word.length > 2 && name.includes(word))),
  );
}

const familyWords: Record<string, string> = {
  water: "water",
  juice: "juices",
  puree: "purees",
  fruit: "fruit",
  herb: "herbs",
  spice: "spices",
  sweetener: "sweeteners",
  syrup: "syrups",
  spirit: "spirits",
  liqueur: "liqueurs",
  wine: "wines and fortified wines",
  bitters: "bitters",
  soda: "sodas",
  tea_coffee: "tea and coffee",
  dairy: "dairy",
  plant_milk: "plant milks",
  egg: "egg",
  acid: "acids",
  acid_solution: "acid solutions",
  salt: "salts",
  saline: "salt solutions",
  agent: "agents that set, thicken or foam",
  ice: "ice",
  chemical: "pure components",
  other: "other",
};
export const familyWord = (family: string): string => familyWords[family] ?? family.replaceAll("_", " ");

export interface Family {
  family: string;
  things: Thing[];
}
/** Things by family in the order of a bar's shelf, found as typed; families with nothing in them are left out. */
export function byFamily(things: Thing[], typed: string): Family[] {
  const order = Object.keys(familyWords);
  const place = (family: string): number => (family in familyWords ? order.indexOf(family) : order.length);
  const families = [...new Set(things.map((thing) => thing.family))].sort((one, other) => place(one) - place(other));
  return families
    .map((family) => ({
      family,
      things: things
        .filter((thing) => thing.family === family && matches([thing.name, ...thing.also, familyWord(family)], typed))
        .sort((one, other) => one.name.localeCompare(other.name)),
    }))
    .filter(({ things: found }) => found.length > 0);
}
