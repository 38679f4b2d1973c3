/// What is told of a place, as pure changes.
import type { Question, QuestionAnswer, Told } from '../api/types';

/** 1 is A: numbers are legs'. */
export const place_letter = (place: number) => String.fromCharCode(64 + place);
/** "place 1 has 63 in 100" as the map letters it. */
export const lettered = (words: string) => words.replace(/\b(place|Ort) (\d)\b/g, (_, place: string, n: string) => `${place} ${place_letter(Number(n))}`);

export const question_key = (q: Question) => [q.act, q.cue, q.kind, q.thing ?? ''].join(' ');

/** Nothing empty is told. */
export function without_told(told: Told): Told {
  return Object.fromEntries(Object.entries(told).filter(([, v]) => (Array.isArray(v) ? v.length > 0 : v !== '' && v !== undefined && v !== 0))) as Told;
}

type Lists = 'on' | 'beside' | 'sees' | 'not_seen';
const lists: readonly string[] = ['on', 'beside', 'sees', 'not_seen'];
/** The first part of a telling is what it is about: "wall, left" is about a wall. */
const about = (text: string) => text.replace(/^no /, '').split(',')[0]!.trim().toLowerCase();

/** Told of a thing: an older telling of the same thing in the same list goes. */
export function with_thing(told: Told, key: Lists, text: string): Told {
  const others = (told[key] ?? []).filter((t) => about(t) !== about(text));
  const other_side = key === 'sees' ? 'not_seen' : key === 'not_seen' ? 'sees' : null;
  const against = other_side ? { [other_side]: (told[other_side] ?? []).filter((t) => about(t) !== about(text)) } : {};
  return without_told({ ...told, ...against, [key]: [...others, text] });
}
export const without_thing = (told: Told, key: Lists, text: string): Told =>
  without_told({ ...told, [key]: (told[key] ?? []).filter((t) => t !== text) });

/** An answer to a question becomes what is told. */
export function answered(told: Told, answer: QuestionAnswer): Told {
  if (!answer.key) return told;
  return lists.includes(answer.key) ? with_thing(told, answer.key as Lists, answer.text) : { ...told, [answer.key]: answer.text };
}
/** What stands on the key of an answer, and what it would mean. */
export function answer_words(words: string): { key: string; means: string } {
  const match = /^(.*?) \((\d+ (?:in|von) 100)\): (.*)$/.exec(words);
  return match ? { key: match[1]!, means: lettered(match[3]!) } : { key: words, means: '' };
}

/** "482595 6052025, 25 min, 20". */
export function last_text(place: string, minutes: string, heading: string): string {
  if (!place || !minutes) return '';
  return [place, `${minutes} min`, ...(heading ? [heading] : [])].join(', ');
}
export function last_parts(last: string): { place: string; minutes: string; heading: string } {
  const match = /^(.*), (\d+) min(?:, (\d+))?$/.exec(last);
  return match ? { place: match[1]!, minutes: match[2]!, heading: match[3] ?? '' } : { place: '', minutes: '', heading: '' };
}
