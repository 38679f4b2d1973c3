/// A moment of the day on the way: where the party is then, how sure, how high, and what it passes.
import { tf } from './language.svelte';
import type { Leg, Way } from '../api/types';
import type { Moment } from '../map/draw_hand';
import { work } from './work.svelte';

export interface AtMoment extends Moment {
  minute: number;
  leg: number;
  resting: boolean;
  height_m: number | null;
  /** The tick-off feature that was passed last on this leg, or is next. */
  passing: string;
}

/** The place of the way at a minute, between the two that the server told. Null outside of the day's walk. */
export function moment_of(way: Way, minute: number): AtMoment | null {
  const p = way.profile;
  const first = p[0], last = p[p.length - 1];
  if (!first || !last || minute < first.clock_min || minute > last.clock_min) return null;
  let i = p.findIndex((q) => q.clock_min >= minute);
  if (i < 1) i = 1;
  const a = p[i - 1]!, b = p[i] ?? a;
  const t = b.clock_min > a.clock_min ? (minute - a.clock_min) / (b.clock_min - a.clock_min) : 0;
  const resting = b.resting;
  const mix = (x: number | null, y: number | null) => (x === null || y === null ? (t < 0.5 ? x : y) : x + (y - x) * t);
  // A new leg's first point stands where the last one ended: its doubt counts from there.
  const from = a.leg === b.leg ? a : { ...b, at_grid_m: a.at_grid_m, height_m: a.height_m };
  const leg = way.legs[b.leg - 1]!;
  const at = [mix(a.at_grid_m[0], b.at_grid_m[0])!, mix(a.at_grid_m[1], b.at_grid_m[1])!];
  return {
    at, minute, leg: b.leg, resting, height_m: mix(from.height_m, b.height_m),
    heading_rad: heading(leg, b.at_grid_m, a.at_grid_m),
    along_sigma_m: mix(from.along_sigma_m, b.along_sigma_m), cross_sigma_m: mix(from.cross_sigma_m, b.cross_sigma_m),
    passing: passing(leg, minute),
  };
}
function heading(leg: Leg, to: readonly number[], from: readonly number[]): number {
  const [e, n] = [to[0]! - from[0]!, to[1]! - from[1]!];
  if (leg.kind === 'along' && Math.hypot(e, n) > 0.5) return Math.atan2(e, n);
  return (leg.grid_bearing_deg * Math.PI) / 180;
}
function passing(leg: Leg, minute: number): string {
  const since = minute - (leg.leave_clock_min ?? minute);
  const near = leg.ticks.reduce<Leg['ticks'][number] | null>((best, t) => (!best || Math.abs(t.minutes - since) < Math.abs(best.minutes - since) ? t : best), null);
  if (!near) return '';
  const by = Math.round(near.minutes - since);
  return Math.abs(by) < 1 ? tf('at {0}', near.what) : by > 0 ? tf('{0} in {1} min', near.what, by) : tf('{0} {1} min ago', near.what, -by);
}

class Moments {
  /** Minutes since midnight; null: none is looked at. */
  minute = $state<number | null>(null);
  now = $derived<AtMoment | null>(this.minute === null || !work.way ? null : moment_of(work.way, this.minute));
}
export const moments = new Moments();
