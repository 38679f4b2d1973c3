/// A leg's end while it is dragged: the server is asked for figures as fast as it answers, one question at
/// a time, always the newest place.
import { t, tf } from './language.svelte';
import { call, Lost, Refused } from '../api/client';
import type { Leg, Line, Way } from '../api/types';
import { kept_of } from '../format/kept';
import { here } from './here.svelte';
import { in_words } from './messages.svelte';
import { is_place, places } from './places.svelte';
import { at_text, dragged } from './points';
import { trip } from './trip.svelte';
import { work } from './work.svelte';

/** The same figure of the legs that change, before and while dragging. */
export interface Change {
  what: 'kept' | 'keep_off' | 'minutes';
  old: number | null;
  now: number | null;
}

const product = (legs: readonly Leg[], of: (l: Leg) => number | null): number | null =>
  legs.reduce<number | null>((p, l) => (p === null || of(l) === null ? null : p * of(l)!), 1);
const kept = (legs: readonly Leg[]) => product(legs.filter((l) => l.fix_at_end), kept_of);
const strays = (legs: readonly Leg[]) => {
  const none = product(legs, (l) => (l.hazard_probability === null ? null : 1 - l.hazard_probability));
  return none === null ? null : 1 - none;
};
const minutes = (legs: readonly Leg[]) => legs.reduce((sum, l) => sum + l.minutes, 0);
export const changes_of = (old: readonly Leg[], now: readonly Leg[]): Change[] => [
  { what: 'keep_off', old: strays(old), now: strays(now) },
  { what: 'kept', old: kept(old), now: kept(now) },
  { what: 'minutes', old: minutes(old), now: minutes(now) },
];

class Drag {
  legs = $state.raw<Leg[]>([]);
  leg = $state(0);
  /** Where the end is held; null: nothing is held. */
  at = $state.raw<[number, number] | null>(null);
  moved_m = $state(0);
  changes = $state.raw<Change[]>([]);
  /** Why no leg can go straight to there; what happens when it is let go. */
  barred = $state('');
  told = $state('');
  /** Pieces over ground to keep off, and the last place that was allowed. */
  off = $state.raw<Line[]>([]);
  ghost = $state.raw<[number, number] | null>(null);
  private let_go = false;
  private asking = false;
  private next: { leg: number; to: [number, number] } | null = null;

  to(leg: number, to: [number, number]): void {
    if (leg !== this.leg) this.clear();
    this.leg = leg;
    this.at = to;
    this.next = { leg, to };
    this.let_go = false;
    if (!this.asking) void this.ask();
  }
  /** Puts it back: nothing was changed. */
  leave(): void {
    this.next = null;
    this.let_go = true;
    this.clear();
  }
  private clear(): void {
    this.legs = [];
    this.off = [];
    this.changes = [];
    this.at = this.ghost = null;
    this.barred = this.told = '';
    this.leg = 0;
  }
  private async ask(): Promise<void> {
    this.asking = true;
    try {
      while (this.next) {
        const { leg, to } = this.next;
        this.next = null;
        await this.figures(leg, to);
      }
    } finally {
      this.asking = false;
    }
  }
  /** Legs on a bearing have their figures at once; a leg along a line is found when the end is let go. */
  private async figures(leg: number, to: [number, number]): Promise<void> {
    const way = work.way, id = trip.known?.id;
    const mine = way?.legs[leg - 1], after = way?.legs[leg];
    if (!mine || !id) return;
    const end = mine.line[mine.line.length - 1]!;
    const wanted: { number: number; ends: [number, number][]; names: string[]; old: Leg }[] = [];
    if (mine.kind === 'bearing') wanted.push({ number: leg, ends: [mine.line[0]!, to] as [number, number][], names: [mine.from, mine.to], old: mine });
    if (after?.kind === 'bearing') wanted.push({ number: leg + 1, ends: [to, after.line.at(-1)!] as [number, number][], names: [mine.to, after.to], old: after });
    const answers = await Promise.allSettled(wanted.map(async ({ number, ends, names }) => {
      const { legs } = await call('POST /api/trips/{id}/quick', { id }, { points_grid_m: ends, names });
      return { ...legs[0]!, leg: number };
    }));
    if (this.let_go) return;
    const legs = answers.filter((a) => a.status === 'fulfilled').map((a) => a.value);
    const off: Line[] = [];
    let barred = '';
    for (const [i, answer] of answers.entries()) {
      if (answer.status === 'fulfilled') continue;
      if (answer.reason instanceof Lost) work.when_lost();
      else if (answer.reason instanceof Refused) {
        barred = in_words(answer.reason.fault);
        const laid = await here.string(wanted[i]!.ends[0]!, wanted[i]!.ends[1]!, wanted[i]!.names);
        off.push(...(laid?.keep_off ?? []).map((k) => k.line_grid_m));
      } else throw answer.reason;
    }
    if (this.let_go) return;
    this.barred = barred;
    this.off = off;
    if (!barred) {
      this.legs = legs;
      this.ghost = null;
      this.last_allowed = to;
      this.changes = legs.length ? changes_of(wanted.map((w) => w.old), legs) : [];
    } else this.ghost = this.last_allowed ?? ([...end] as [number, number]);
    this.moved_m = Math.hypot(to[0] - end[0]!, to[1] - end[1]!);
    this.told = mine.kind === 'along' ? t('Let it go, and Lodeway finds the way to here.') : '';
  }
  private last_allowed: [number, number] | null = null;

  /** Let go: what was seen becomes the leader's wish, and the ways are found anew. */
  async drop(leg: number, to: [number, number]): Promise<void> {
    this.next = null;
    this.leg = leg;
    this.let_go = false;
    await this.figures(leg, to);
    this.let_go = true;
    this.told = '';
    this.at = null;
    this.last_allowed = null;
    if (this.barred) return this.refuse(this.barred);
    const way: Way | null = work.way, points = trip.document.point;
    if (!way || !points) return;
    const place = await places.at(...to);
    if (place && !is_place(place)) return this.refuse(in_words(place));
    const at = { at: at_text(to), ...(place?.near ? { name: place.near } : {}) };
    trip.set('/document/point', dragged(points, way, leg, at));
    await work.look_for_ways();
    this.clear();
  }
  private refuse(why: string): void {
    this.legs = [];
    this.changes = [];
    this.barred = tf('Not moved. {0}', why);
  }
}
export const drag = new Drag();
