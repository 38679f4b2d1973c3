/// A leg's end while it is dragged: the server is asked for figures as fast as it answers, one question at
/// a time, always the newest place.
import { call, Lost, Refused } from '../api/client';
import type { Leg } from '../api/types';
import { messages } from './messages.svelte';
import { is_place, places } from './places.svelte';
import { at_text, dragged } from './points';
import { trip } from './trip.svelte';
import { work } from './work.svelte';

class Drag {
  legs = $state.raw<Leg[]>([]);
  private asking = false;
  private next: { leg: number; to: [number, number] } | null = null;

  to(leg: number, to: [number, number]): void {
    this.next = { leg, to };
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
  private async figures(leg: number, to: [number, number]): Promise<void> {
    const way = work.way, id = trip.known?.id;
    const here = way?.legs[leg - 1], after = way?.legs[leg];
    if (!here || !id) return;
    const points = [here.line_grid_m[0]!, to];
    if (after) points.push(after.line_grid_m[after.line_grid_m.length - 1]!);
    try {
      const { legs } = await call('POST /api/trips/{id}/quick', { id },
        { points_grid_m: points, names: [here.from, here.to, ...(after ? [after.to] : [])] });
      this.legs = legs.map((l, i) => ({ ...l, leg: leg + i }));
      messages.take_back('drag');
    } catch (e) {
      if (e instanceof Lost) work.when_lost();
      else if (e instanceof Refused) messages.fault('drag', 'No leg can end there', e.fault);
      else throw e;
    }
  }

  /** Let go: what was seen becomes the leader's wish, and the ways are found anew. */
  async drop(leg: number, to: [number, number]): Promise<void> {
    this.next = null;
    const way = work.way, points = trip.document.point;
    if (!way || !points) return;
    const place = await places.at(...to);
    if (place && !is_place(place)) {
      this.legs = [];
      messages.fault('drag', 'No leg can end there', place);
      return;
    }
    const at = { at: at_text(to), ...(place?.near ? { name: place.near } : {}) };
    trip.set('/document/point', dragged(points, way, leg, at));
    await work.look_for_ways();
  }
  clear(): void {
    this.legs = [];
    this.next = null;
  }
}
export const drag = new Drag();
