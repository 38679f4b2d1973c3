/// Watch them walk: on which leg parties go wrong for the first time, and why. Leg by leg; the chosen leg is the page's.
import type { Lost, WatchedLeg } from '../api/types';
import { view } from './view.svelte';
import { work } from './work.svelte';

/** Of 100, never rounded down: "7", "under 1" is left to the words. */
export const lost_in_hundred = (n: number, of: number): number => (of ? Math.ceil((100 * n) / of - 1e-9) : 0);
/** Of 100, never rounded up. */
export const left_in_hundred = (n: number, of: number): number => (of ? Math.floor((100 * n) / of + 1e-9) : 0);

class Watch {
  /** One reason only; null: all. */
  why = $state<string | null>(null);
  /** Where all strayed, in place of one leg's. */
  whole = $state(false);
  /** What was walked is of the way as it stands. */
  known = $derived(view.step === 'rehearse' && work.rehearsal && !work.rehearsal_old && !work.ways_old ? work.rehearsal.watch : null);
  leg = $derived<WatchedLeg | null>(this.known?.legs[view.leg - 1] ?? null);
  /** The reason that was asked for, where this leg has it. */
  only_why = $derived(this.leg?.why.some((w) => w.why === this.why) ? this.why : null);
  shown = $derived<Lost[]>(this.whole || !this.known ? [] : this.known.lost.filter((l) => l.leg === view.leg && (!this.only_why || l.why === this.only_why)));
  worst = $derived(this.known?.legs.reduce<WatchedLeg | null>((most, l) => (l.lost > (most?.lost ?? 0) ? l : most), null) ?? null);

  /** Another leg: its reasons are others. */
  go(leg: number): void {
    view.leg = leg;
    this.why = null;
    this.whole = false;
  }
  only(why: string): void {
    this.why = this.why === why ? null : why;
    this.whole = false;
  }
}
export const watch = new Watch();
