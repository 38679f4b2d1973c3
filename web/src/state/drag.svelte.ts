/// A leg's end while it is dragged: the server is asked for figures as fast as it answers, one question at
/// a time, always the newest place.
import { call, Lost, Refused } from '../api/client';
import type { Leg } from '../api/types';
import { said } from '../format/fault';
import { is_place, places } from './places.svelte';
import { at_text, dragged } from './points';
import { trip } from './trip.svelte';
import { work } from './work.svelte';

class Drag {
  legs = $state.raw<Leg[]>([]);
  /** Where the end is held; null: nothing is held. */
  at = $state.raw<[number, number] | null>(null);
  /** Why no leg can go straight to there; what happens when it is let go. */
  barred = $state('');
  told = $state('');
  private let_go = false;
  private asking = false;
  private next: { leg: number; to: [number, number] } | null = null;

  to(leg: number, to: [number, number]): void {
    this.next = { leg, to };
    this.let_go = false;
    if (!this.asking) void this.ask();
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
    const here = way?.legs[leg - 1], after = way?.legs[leg];
    if (!here || !id) return;
    const straight = async (number: number, points_grid_m: [number, number][], names: string[]) => {
      const { legs } = await call('POST /api/trips/{id}/quick', { id }, { points_grid_m, names });
      return { ...legs[0]!, leg: number };
    };
    const asked: Promise<Leg>[] = [];
    if (here.kind === 'bearing') asked.push(straight(leg, [here.line[0]!, to], [here.from, here.to]));
    if (after?.kind === 'bearing') asked.push(straight(leg + 1, [to, after.line.at(-1)!], [here.to, after.to]));
    const answers = await Promise.allSettled(asked);
    if (this.let_go) return;
    this.legs = answers.filter((a) => a.status === 'fulfilled').map((a) => a.value);
    this.barred = '';
    for (const answer of answers) {
      if (answer.status === 'fulfilled') continue;
      if (answer.reason instanceof Lost) work.when_lost();
      else if (answer.reason instanceof Refused) this.barred = said(answer.reason.fault);
      else throw answer.reason;
    }
    this.told = here.kind === 'along' ? 'Let it go, and Lodeway finds the way to here.' : '';
    this.at = to;
  }

  /** Let go: what was seen becomes the leader's wish, and the ways are found anew. */
  async drop(leg: number, to: [number, number]): Promise<void> {
    this.next = null;
    await this.figures(leg, to);
    this.let_go = true;
    this.told = '';
    this.at = null;
    if (this.barred) {
      this.legs = [];
      this.barred = `Not moved. ${this.barred}`;
      return;
    }
    const way = work.way, points = trip.document.point;
    if (!way || !points) return;
    const place = await places.at(...to);
    if (place && !is_place(place)) {
      this.legs = [];
      this.barred = `Not moved. ${said(place)}`;
      return;
    }
    const at = { at: at_text(to), ...(place?.near ? { name: place.near } : {}) };
    trip.set('/document/point', dragged(points, way, leg, at));
    await work.look_for_ways();
    this.legs = [];
  }
}
export const drag = new Drag();
