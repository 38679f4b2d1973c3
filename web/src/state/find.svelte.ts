/// Looking for a place by name or figures; the newest text's answer only.
import { call, Lost, Refused } from '../api/client';
import type { Found, GridPoint } from '../api/types';
import { session } from './session.svelte';
import { trip } from './trip.svelte';
import { work } from './work.svelte';

export interface Hit {
  key: string;
  words: string;
  /** What, where, how far. */
  about: string;
  name: string;
  at: [number, number];
  square: { south_west: GridPoint; side_m: number } | null;
}

class Find {
  text = $state('');
  found = $state.raw<Found | null>(null);
  /** Which of the hits is shown on the map. */
  shown = $state.raw<Hit | null>(null);
  open = $state(false);
  asking = $state(false);
  private asked = 0;

  async look(text: string, near: readonly number[] | null): Promise<void> {
    this.text = text;
    const mine = ++this.asked;
    const id = session.ground?.id;
    if (!id || text.trim().length < 2) {
      this.found = null;
      this.shown = null;
      return;
    }
    this.asking = true;
    try {
      const language = trip.document.paper?.language === 'de' ? 'de' : 'en';
      const found = await call('GET /api/grounds/{id}/find', { id, text: text.trim(), language,
        ...(near ? { east_m: near[0]!.toFixed(0), north_m: near[1]!.toFixed(0) } : {}) });
      if (mine === this.asked) this.found = found;
    } catch (e) {
      if (e instanceof Lost) work.when_lost();
      else if (!(e instanceof Refused)) throw e;
    } finally {
      if (mine === this.asked) this.asking = false;
    }
  }
  clear(): void {
    this.asked++;
    this.text = '';
    this.found = this.shown = null;
    this.open = this.asking = false;
  }
}
export const find = new Find();
