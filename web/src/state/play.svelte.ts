/// Playing the rehearsal: where some of the walkers are, minute by minute.
import type { WalkerPath } from '../api/types';
import { work } from './work.svelte';

/** Where a walker is at a minute: between the two times that the server gave. */
export function walker_at({ path, lost_on_leg }: WalkerPath, minute: number): { at: [number, number]; lost: boolean } | null {
  const first = path[0], last = path[path.length - 1];
  if (!first || !last) return null;
  if (minute >= last[0]) return { at: [last[1], last[2]], lost: lost_on_leg !== null };
  let low = 0, high = path.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (path[middle]![0] <= minute) low = middle;
    else high = middle;
  }
  const a = path[low]!, b = path[high]!;
  const t = b[0] > a[0] ? Math.max(0, (minute - a[0]) / (b[0] - a[0])) : 0;
  return { at: [a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t], lost: false };
}

class Play {
  /** Minutes since the start; null: the whole picture. */
  minute = $state<number | null>(null);
  running = $state(false);
  last = $derived(Math.ceil(Math.max(0, ...(work.rehearsal?.play ?? []).map((w) => w.path[w.path.length - 1]?.[0] ?? 0))));
  walkers = $derived(
    this.minute === null ? [] : (work.rehearsal?.play ?? []).map((w) => walker_at(w, this.minute!)).filter((w) => w !== null),
  );
  private before = 0;

  start(): void {
    if (this.minute === null || this.minute >= this.last) this.minute = 0;
    this.running = true;
    this.before = 0;
    requestAnimationFrame((now) => this.tick(now));
  }
  pause(): void {
    this.running = false;
  }
  show(minute: number): void {
    this.minute = minute;
  }
  whole(): void {
    this.running = false;
    this.minute = null;
  }
  /** The whole way in about forty seconds. */
  private tick(now: number): void {
    if (!this.running || this.minute === null) return;
    if (this.before) this.minute = Math.min(this.last, this.minute + ((now - this.before) / 40_000) * this.last);
    this.before = now;
    if (this.minute >= this.last) this.running = false;
    else requestAnimationFrame((t) => this.tick(t));
  }
}
export const play = new Play();
