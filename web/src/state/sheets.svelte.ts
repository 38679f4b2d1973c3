/// The frames of the printed maps: where the server laid them, or where the leader moved them.
import type { GridPoint, SheetFrame } from '../api/types';
import { trip } from './trip.svelte';
import { work } from './work.svelte';

class Frames {
  chosen = $state(-1);
  /** While one is moved: how far, in metres of the grid. */
  private moving = $state<{ index: number; east: number; north: number } | null>(null);

  frames = $derived.by<SheetFrame[]>(() => {
    const moved = trip.state?.sheets;
    return (work.sheets?.frames ?? []).map((f, i) => {
      const [e, n] = moved?.[i] ?? f.south_west_grid_m;
      const by = this.moving?.index === i ? this.moving : { east: 0, north: 0 };
      return { ...f, south_west_grid_m: [e + by.east, n + by.north] as GridPoint };
    });
  });
  moved = $derived((trip.state?.sheets?.length ?? 0) > 0);

  choose(index: number | null): void {
    this.chosen = index ?? -1;
  }
  shift(index: number, east: number, north: number): void {
    this.chosen = index;
    this.moving = { index, east, north };
  }
  drop(): void {
    const corners = this.frames.map((f) => f.south_west_grid_m.map(Math.round) as GridPoint);
    this.moving = null;
    trip.set('/sheets', corners);
    void this.lay();
  }
  async lay(): Promise<void> {
    await trip.settled();
    await work.lay_sheets();
  }
  async reset(): Promise<void> {
    trip.set('/sheets', null);
    await this.lay();
  }
}
export const sheets = new Frames();
