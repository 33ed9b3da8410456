// format.ts - numbers as they stand on the page: sensible digits, a true minus, thin spaces between thousands. The only place, beside the picture's
// geometry, that does arithmetic on what the engine answers; it rounds for the eye and converts nothing but grams to kilograms and millilitres to litres.
//
// Masses and volumes: from 100 none, from 10 one, below two decimals: what a kitchen scale shows. What cannot be given reads as a dash.

export const notGiven = "–";
const nbsp = "\u00a0";
const narrow = "\u202f";

/** A number with so many decimals; thousands parted, a true minus sign, never "-0". */
export function fixed(value: number | null | undefined, decimals: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return notGiven;
  const [whole = "", part] = Math.abs(value).toFixed(decimals).split(".");
  const parted = whole.length > 4 ? whole.replace(/(?<=\d)(?=(\d{3})+$)/g, narrow) : whole;
  const digits = part === undefined ? parted : `${parted}.${part}`;
  return value < 0 && /[1-9]/.test(digits) ? `−${digits}` : digits;
}

/** Decimals of an amount of its size. */
function decimalsOf(value: number): number {
  const size = Math.abs(value);
  return size >= 99.95 ? 0 : size >= 9.995 ? 1 : 2;
}

function amount(value: number | null | undefined, unit: string, large: string): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return notGiven;
  if (value !== 0 && Math.abs(value) < 0.005) return `<0.01${nbsp}${unit}`;
  if (Math.abs(value) >= 9999.5) return `${fixed(value / 1000, 2)}${nbsp}${large}`;
  return `${fixed(value, decimalsOf(value))}${nbsp}${unit}`;
}

export const grams = (g: number | null | undefined): string => amount(g, "g", "kg");
export const millilitres = (ml: number | null | undefined): string => amount(ml, "mL", "L");
/** Without a second decimal: for labels where room is short. */
export const roughGrams = (g: number): string => (g < 10 ? `${fixed(g, 1)}${nbsp}g` : g < 9999.5 ? `${fixed(g, 0)}${nbsp}g` : grams(g));
export const percent = (p: number | null | undefined): string =>
  p !== null && p !== undefined && p !== 0 && Math.abs(p) < 1 ? `${fixed(p, 2)}${nbsp}%` : `${fixed(p, 1)}${nbsp}%`;
export const celsius = (c: number | null | undefined): string =>
  `${fixed(c, c !== null && c !== undefined && Math.abs(c) >= 99.95 ? 0 : 1)}${nbsp}°C`;

/** `12 s`, `1 min 30 s`, `3 h`, `2 d 4 h`: the two largest parts. */
export function duration(seconds: number | null | undefined): string {
  if (seconds === null || seconds === undefined || !Number.isFinite(seconds)) return notGiven;
  const steps: [number, string][] = [
    [86400, "d"],
    [3600, "h"],
    [60, "min"],
    [1, "s"],
  ];
  let rest = Math.round(seconds);
  const words: string[] = [];
  for (const [size, unit] of steps) {
    const count = Math.floor(rest / size);
    rest -= count * size;
    if (count > 0) words.push(`${count}${nbsp}${unit}`);
    else if (words.length > 0) break;
    if (words.length === 2) break;
  }
  return words.join(" ") || `0${nbsp}s`;
}
export const hours = (h: number | null | undefined): string => duration(h === null || h === undefined ? h : h * 3600);

/** A clock: `3:40`, `1:05:00`. */
export function clock(seconds: number): string {
  const s = Math.max(0, Math.round(seconds));
  const two = (n: number): string => String(n).padStart(2, "0");
  const h = Math.floor(s / 3600);
  return h > 0 ? `${h}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}` : `${Math.floor(s / 60)}:${two(s % 60)}`;
}

/** A share of one as whole percent. */
export const share = (of_one: number | null | undefined): string =>
  of_one === null || of_one === undefined ? notGiven : `${fixed(of_one * 100, 0)}${nbsp}%`;

/** `17:04`, `Sun 20:04` on another day. */
export function timeOfDay(ms: number, now: number = Date.now()): string {
  const at = new Date(ms);
  const time = `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`;
  if (at.toDateString() === new Date(now).toDateString()) return time;
  const days = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
  return Math.abs(ms - now) < 6 * 86_400_000
    ? `${days[at.getDay()]} ${time}`
    : `${at.getFullYear()}-${String(at.getMonth() + 1).padStart(2, "0")}-${String(at.getDate()).padStart(2, "0")} ${time}`;
}

const small = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
/** Counts up to twelve as words. */
export const counted = (n: number): string => small[n] ?? fixed(n, 0);
export const plural = (n: number, one: string, many = `${one}s`): string => `${counted(n)} ${n === 1 ? one : many}`;

/** How each property is called on the page, its unit and its decimals. The keys are the engine's. */
export const properties: Record<string, { name: string; unit: string; decimals: number }> = {
  mass_g: { name: "mass", unit: "g", decimals: 0 },
  volume_ml: { name: "volume", unit: "mL", decimals: 0 },
  volume_20c_ml: { name: "volume at 20 °C", unit: "mL", decimals: 0 },
  ice_g: { name: "ice", unit: "g", decimals: 0 },
  foam_volume_ml: { name: "foam", unit: "mL", decimals: 0 },
  density_kg_m3: { name: "density", unit: "kg/m³", decimals: 1 },
  temperature_c: { name: "temperature", unit: "°C", decimals: 1 },
  abv_percent: { name: "strength", unit: "% vol", decimals: 1 },
  abv_percent_all_melted: { name: "strength, ice melted", unit: "% vol", decimals: 1 },
  ethanol_g: { name: "ethanol", unit: "g", decimals: 1 },
  brix_percent: { name: "dissolved solids", unit: "°Bx", decimals: 1 },
  brix_read_percent: { name: "refractometer", unit: "°Bx", decimals: 1 },
  sugars_g: { name: "sugars", unit: "g", decimals: 1 },
  sugar_percent: { name: "sugar", unit: "% of mass", decimals: 1 },
  sweetness_percent_sucrose: { name: "sweetness", unit: "% as sucrose", decimals: 1 },
  ph_25c: { name: "pH", unit: "", decimals: 2 },
  titratable_acidity_g_100g_citric: { name: "acidity", unit: "% as citric", decimals: 2 },
  titratable_acidity_g_l_citric: { name: "acidity", unit: "g/L as citric", decimals: 1 },
  freezing_point_c: { name: "freezing point", unit: "°C", decimals: 1 },
  water_activity: { name: "water activity", unit: "", decimals: 3 },
  heat_capacity_kj_kg_k: { name: "heat capacity", unit: "kJ/(kg K)", decimals: 2 },
  viscosity_mpa_s: { name: "viscosity", unit: "mPa s", decimals: 1 },
  refractive_index_20c: { name: "refractive index", unit: "", decimals: 4 },
  co2_volumes: { name: "fizz", unit: "vol CO₂", decimals: 2 },
  energy_kcal: { name: "energy", unit: "kcal", decimals: 0 },
};
