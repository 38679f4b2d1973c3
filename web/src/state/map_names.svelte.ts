/// The names of the part of the ground that is on the screen, with an edge around it so that a small move asks nothing.
import { call, Lost, Refused } from '../api/client';
import type { Extent, MapName } from '../api/types';
import { work } from './work.svelte';

class MapNames {
  list = $state.raw<readonly MapName[]>([]);
  private has: { ground: string; box: Extent; level: number } | null = null;
  private asked = 0;

  async show(ground: string, box: Extent, resolution: number): Promise<void> {
    const level = Math.round(Math.log2(resolution));
    const [west, south, east, north] = box, has = this.has;
    if (has && has.ground === ground && has.level === level && west >= has.box[0] && south >= has.box[1] && east <= has.box[2] && north <= has.box[3]) return;
    const w = (east - west) * 0.4, h = (north - south) * 0.4;
    const wide: Extent = [west - w, south - h, east + w, north + h];
    const mine = ++this.asked;
    if (has?.ground !== ground) this.list = [];
    this.has = { ground, box: wide, level };
    try {
      const { names } = await call('GET /api/grounds/{id}/names', { id: ground,
        west_m: wide[0].toFixed(0), south_m: wide[1].toFixed(0), east_m: wide[2].toFixed(0), north_m: wide[3].toFixed(0) });
      if (mine === this.asked) this.list = names;
    } catch (e) {
      this.has = null;
      if (e instanceof Lost) work.when_lost();
      else if (!(e instanceof Refused)) throw e;
    }
  }
}
export const map_names = new MapNames();
