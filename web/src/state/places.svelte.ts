/// Places as the server reads them: a typed reference becomes a place on the grid, a click becomes a
/// reference. Asked once for each text and ground.
import { SvelteMap } from 'svelte/reactivity';
import { call, Lost, Refused } from '../api/client';
import type { Fault, Place } from '../api/types';
import { session } from './session.svelte';
import { trip } from './trip.svelte';

class Places {
  private known = new SvelteMap<string, Place | Fault>();
  private asked = new Set<string>();

  /** The place of a typed text; a fault when it is none; null while it is looked up. Asks by itself. */
  of(at: string): Place | Fault | null {
    const ground = trip.state?.ground_id;
    if (!ground || !at.trim()) return null;
    const key = `${ground} ${at}`;
    const found = this.known.get(key);
    if (found) return found;
    // Read here, so that a mended connection asks again.
    if (session.link === 'open' && !this.asked.has(key)) {
      this.asked.add(key);
      void this.ask(ground, { at }, key);
    }
    return null;
  }
  /** Null when nobody answers. */
  async at(east_m: number, north_m: number): Promise<Place | Fault | null> {
    const ground = trip.state?.ground_id;
    return ground ? this.ask(ground, { east_m: east_m.toFixed(1), north_m: north_m.toFixed(1) }, null) : null;
  }
  private async ask(id: string, query: Record<string, string>, key: string | null): Promise<Place | Fault | null> {
    try {
      const place = await call('GET /api/grounds/{id}/place', { id, ...query });
      if (key) this.known.set(key, place);
      return place;
    } catch (e) {
      if (key) this.asked.delete(key);
      if (e instanceof Refused) {
        if (key) this.known.set(key, e.fault);
        return e.fault;
      }
      if (e instanceof Lost) return null;
      throw e;
    }
  }
}
export const places = new Places();
export const is_place = (p: Place | Fault | null): p is Place => p !== null && 'at_grid_m' in p;
