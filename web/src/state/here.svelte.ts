/// What lies under the pointer and where the map was clicked: asked of the server, newest place only.
import { call, Lost, Refused } from '../api/client';
import type { StringLaid, WhatIsHere } from '../api/types';
import { session } from './session.svelte';
import { trip } from './trip.svelte';
import { work } from './work.svelte';

export interface Told {
  at: [number, number];
  what: WhatIsHere;
  /** What a place here is called. */
  name: string;
  /** From `from` to here. */
  string: StringLaid | null;
  from: string;
}

/** What a click means: the thing that it snapped to, else the place itself. */
export function meant(what: WhatIsHere, exact: boolean): { at: [number, number]; name: string } {
  const on = what.stands_on;
  if (on && !exact) return { at: on.at_grid_m as [number, number], name: on.name };
  return { at: what.place.at_grid_m as [number, number], name: what.called ?? what.place.grid_reference };
}

class Here {
  /** Under the pointer while it rests. */
  hover = $state.raw<Told | null>(null);
  /** Where the map was clicked, and in which part: a slip stands there until it is taken away. */
  slip = $state.raw<Told | null>(null);
  /** The index of the place that was put by this click. */
  put = $state<number | null>(null);
  private asked = 0;

  async what(at: readonly number[], within_m: number): Promise<WhatIsHere | null> {
    const id = session.ground?.id;
    if (!id) return null;
    const language = trip.document.paper?.language === 'de' ? 'de' : 'en';
    return this.guarded(() => call('GET /api/grounds/{id}/what', {
      id, east_m: at[0]!.toFixed(1), north_m: at[1]!.toFixed(1), within_m: within_m.toFixed(1), language,
    }));
  }
  async string(from: readonly number[], to: readonly number[], names: string[]): Promise<StringLaid | null> {
    const id = trip.known?.id;
    if (!id || Math.hypot(from[0]! - to[0]!, from[1]! - to[1]!) < 1) return null;
    return this.guarded(() => call('POST /api/trips/{id}/measure', { id },
      { points_grid_m: [[from[0]!, from[1]!], [to[0]!, to[1]!]], names }));
  }
  /** Tells of a place; an older question's answer is dropped. */
  async tell(at: readonly number[], within_m: number, exact: boolean, from: { at: readonly number[]; name: string } | null): Promise<Told | null> {
    const mine = ++this.asked;
    const what = await this.what(at, exact ? 0 : within_m);
    if (!what || mine !== this.asked) return null;
    const { at: there, name } = meant(what, exact);
    // Of a thing that was meant, height and slope are told where it stands, not where the finger was.
    const beside = Math.hypot(there[0] - what.place.at_grid_m[0]!, there[1] - what.place.at_grid_m[1]!) > 1;
    const place = beside ? ((await this.what(there, 0))?.place ?? what.place) : what.place;
    if (mine !== this.asked) return null;
    const string = from && what.place.inside ? await this.string(from.at, there, [from.name, name]) : null;
    if (mine !== this.asked) return null;
    return { at: there, what: { ...what, place }, name, string, from: from?.name ?? '' };
  }
  away(): void {
    this.asked++;
    this.hover = this.slip = null;
    this.put = null;
  }
  private async guarded<T>(what: () => Promise<T>): Promise<T | null> {
    try {
      return await what();
    } catch (e) {
      if (e instanceof Lost) work.when_lost();
      else if (!(e instanceof Refused)) throw e;
      return null;
    }
  }
}
export const here = new Here();
