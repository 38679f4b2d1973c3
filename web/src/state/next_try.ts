/// What a leader would try next: a better way of those found and, outside the limits, what the trip itself can change.
/// Pure, at most three, the likeliest first.
import type { Way } from '../api/types';

export type Try =
  | { does: 'take'; way: Way }
  | { does: 'move_start' | 'move_end' | 'earlier' | 'later' | 'clock' | 'clear' }
  /** A place between, before the place of this index of the trip. */
  | { does: 'between'; leg: number };

const bands: readonly Way['verdict']['band'][] = ['within', 'close_to', 'not_judged', 'outside'];
/** Better verdict first, then fewer on ground to keep off. */
const rank = (w: Way) => bands.indexOf(w.verdict.band) + Math.min(w.hazard_probability ?? 1, 1) / 2;

export function next_tries(way: Way, ways: readonly Way[], visibility: string, zone: string): Try[] {
  const reasons = way.verdict.reasons.filter((r) => r.band === 'outside');
  const out: Try[] = [];
  const best = ways.filter((w) => w.name !== way.name && rank(w) < rank(way) - 0.0025).sort((a, b) => rank(a) - rank(b))[0];
  if (best) out.push({ does: 'take', way: best });
  if (!reasons.length) return out;
  const of_leg = (leg: number): Try => (leg === way.legs.length ? { does: 'move_end' } : leg === 1 ? { does: 'move_start' } : { does: 'between', leg });
  const dark_start = reasons.some((r) => r.what === 'dark_start');
  for (const { what, leg } of reasons) {
    if (what === 'dark_start') out.push(zone === 'UTC' ? { does: 'clock' } : { does: 'later' });
    else if (what === 'dark' || what === 'back_too_late') !dark_start && out.push({ does: 'earlier' });
    else if (what === 'never_home') way.weakest_leg && out.push(of_leg(way.weakest_leg));
    else if (leg !== null) out.push(of_leg(leg));
  }
  if ((visibility === 'cloud' || visibility === 'night') && reasons.some((r) => r.what === 'keep_off' || r.what === 'lost_leg')) out.push({ does: 'clear' });
  return out.filter((one, i) => out.findIndex((o) => o.does === one.does) === i).slice(0, 3);
}
