// draft.ts - the fields of a larder entry: which a thing of its family has use for, and what was typed as the keys of its document.
import type { Thing } from "../api/types";
import { fixed } from "../lib/format";
import { numberKinds, typedNumber } from "./larder_numbers";

export interface Field {
  /** As the document writes it. */
  key: string;
  word: string;
  unit: string;
  /** What is in force where the document says nothing; empty: not told, or told in another unit. */
  now: string;
  /** Belongs to the pack, not to the matter. */
  pack: boolean;
  /** A word, not a number. */
  word_field: boolean;
}
const liquid = [
  "juice",
  "puree",
  "syrup",
  "sweetener",
  "fruit",
  "soda",
  "liqueur",
  "wine",
  "spirit",
  "bitters",
  "dairy",
  "plant_milk",
  "tea_coffee",
  "acid_solution",
];

/** The fields for a thing: every number it has, those its family usually has, and its pack. */
export function fieldsOf(thing: Thing): Field[] {
  const use: Record<string, boolean> = {
    brix: ["juice", "puree", "syrup", "sweetener", "fruit", "soda"].includes(thing.family),
    acid_g_l: ["juice", "puree", "fruit", "soda"].includes(thing.family),
    ph: ["juice", "puree", "fruit", "soda", "dairy", "plant_milk"].includes(thing.family),
    strength: ["spirit", "liqueur", "wine", "bitters"].includes(thing.family),
    bloom: thing.numbers.bloom !== null,
    storage_c: true,
  };
  const numbers = numberKinds
    .filter((kind) => use[kind.writes] === true || thing.numbers[kind.key] !== null)
    .map((kind): Field => ({
      key: kind.writes,
      word: kind.word,
      unit: kind.writesUnit,
      now: kind.same && thing.numbers[kind.key] !== null ? fixed(thing.numbers[kind.key], kind.decimals) : "",
      pack: false,
      word_field: false,
    }));
  const pack = (key: string, word: string, unit: string, now: string, word_field = false): Field => ({
    key,
    word,
    unit,
    now,
    pack: true,
    word_field,
  });
  const one = thing.pack;
  const size = liquid.includes(thing.family)
    ? pack("pack_ml", "a pack holds", "mL", one?.volume_ml == null ? "" : fixed(one.volume_ml, 0))
    : pack("pack_g", "a pack holds", "g", one?.mass_g == null ? "" : fixed(one.mass_g, 0));
  return [
    ...numbers,
    size,
    pack("price", "its price", "", one?.price == null ? "" : fixed(one.price, 2)),
    pack("currency", "currency", "", one?.currency ?? "", true),
  ];
}

export interface DraftValues {
  numbers: Record<string, number>;
  pack: Record<string, number | string>;
  /** Keys whose text is no number. */
  unread: string[];
}
export function draftOf(fields: Field[], values: Record<string, string>): DraftValues {
  const draft: DraftValues = { numbers: {}, pack: {}, unread: [] };
  for (const field of fields) {
    const typed = values[field.key]?.trim() ?? "";
    if (typed === "") continue;
    const number = typedNumber(typed);
    if (field.word_field) draft.pack[field.key] = typed.toUpperCase();
    else if (number === null) draft.unread.push(field.key);
    else if (field.pack) draft.pack[field.key] = number;
    else draft.numbers[field.key] = number;
  }
  return draft;
}
