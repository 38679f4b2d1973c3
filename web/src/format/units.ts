/// How figures are written. The server sends metres, minutes and degrees; what is printed comes from it
/// in words. These few are for axes and fields.
import type { PaperKeys } from '../api/types';

export type Lengths = NonNullable<PaperKeys['units']>;

const foot_m = 0.3048;
const mile_km = 1.609344;
const pound_kg = 0.45359237;

/** A field's unit as this party thinks of it: shown = stored / per. */
export interface Shown {
  unit: string;
  per: number;
}
export function shown_unit(unit: string, lengths: Lengths): Shown {
  if (lengths === 'imperial') {
    if (unit === 'm') return { unit: 'ft', per: foot_m };
    if (unit === 'km/h') return { unit: 'mph', per: mile_km };
    if (unit === 'kg') return { unit: 'lb', per: pound_kg };
  }
  return { unit, per: 1 };
}

/** At most `digits` after the point, no trailing zeros. */
export function plain(value: number, digits = 2): string {
  return String(Number(value.toFixed(digits)));
}

/** Heights of an axis: a round step, in metres, that gives about `wanted` lines, and its label. */
export function height_steps(low_m: number, high_m: number, wanted: number, lengths: Lengths): { m: number; text: string }[] {
  const { unit, per } = shown_unit('m', lengths);
  const low = low_m / per, high = high_m / per;
  const raw = Math.max(high - low, 1) / wanted;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((k) => k * power).find((s) => s >= raw) ?? 10 * power;
  const steps = [];
  for (let h = Math.ceil(low / step) * step; h <= high; h += step) steps.push({ m: h * per, text: `${plain(h, 0)} ${unit}` });
  return steps;
}

/** 231 -> "3 h 51"; 42 -> "42 min". */
export function duration(minutes: number): string {
  const whole = Math.round(Math.abs(minutes));
  const sign = minutes < 0 && whole > 0 ? '−' : '';
  const hours = Math.floor(whole / 60);
  return hours ? `${sign}${hours} h ${String(whole % 60).padStart(2, '0')}` : `${sign}${whole} min`;
}

/** Minutes since midnight as a clock: 855 -> "14:15"; the next day's hours go on from 00. */
export function clock(minute: number): string {
  const m = ((Math.round(minute) % 1440) + 1440) % 1440;
  return `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`;
}

/** "14:15" -> 855; null when it is no clock time. */
export function minute_of(text: string): number | null {
  const match = /^(\d{1,2}):(\d{2})$/.exec(text.trim());
  if (!match) return null;
  const [h, m] = [Number(match[1]), Number(match[2])];
  return h < 24 && m < 60 ? h * 60 + m : null;
}

/** The 94 of "94 of 100", rounded down as on the card: never 100 for what is not certain. */
export function of_hundred(share: number): string {
  return String(Math.floor(100 * share + 1e-9));
}

/** "2026-11-14" -> "Sat 14 Nov 2026", "Sa., 14. Nov. 2026"; what is no date stays as it is. */
export function day(date: string, speaks: 'en' | 'de' = 'en'): string {
  const match = /^(\d{4})-(\d{2})-(\d{2})/.exec(date);
  if (!match) return date;
  const d = new Date(Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3])));
  const words = d.toLocaleDateString(speaks === 'de' ? 'de-DE' : 'en-GB', { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' });
  return speaks === 'de' ? words : words.replace(',', '');
}

/** "1 234" and "12 MB": figures in groups, sizes in words. */
export const grouped = (n: number) => Math.round(n).toLocaleString('en-GB').replace(/,/g, '\u202f');
export const size = (bytes: number) =>
  bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${plain(bytes / 1e6, bytes < 1e7 ? 1 : 0)} MB`;

/** Feet as people say them: nobody paces, reads or counts the last of "1805 ft". */
function plain_feet(metres: number): string {
  const feet = metres / shown_unit('m', 'imperial').per;
  const step = Math.abs(feet) < 20 ? 1 : Math.abs(feet) < 100 ? 5 : 10;
  return `${step * Math.round(feet / step)} ft`;
}
/** Lengths as the card writes them: "782 m", "2570 ft"; "0.7 mi" from half a mile on. */
export function length(metres: number, lengths: Lengths): string {
  if (lengths === 'metric') return `${Math.round(metres)} m`;
  return metres < 500 * mile_km ? plain_feet(metres) : `${(metres / (1000 * mile_km)).toFixed(1)} mi`;
}

/** A sheet's file name as it is said: "sheet-2" -> "Sheet 2". */
export const sheet_words = (name: string) => name.replace(/^sheet-(\d+)$/, 'Sheet $1');

/** Heights and climbs: "114 m", "370 ft". */
export const height = (metres: number, lengths: Lengths) =>
  lengths === 'metric' ? `${Math.round(metres)} m` : plain_feet(metres);
/** "1 147 m", "9.1 km": how far, in a sentence. */
export const far = (metres: number, lengths: Lengths) =>
  lengths !== 'metric' ? length(metres, lengths) : metres >= 10000 ? `${plain(metres / 1000, 1)} km` : `${grouped(metres)} m`;
