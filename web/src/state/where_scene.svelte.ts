/// The answer to "Where are we?" as the map draws it.
import type { WhereScene } from '../map/draw_where';
import { last_parts } from './where';
import { is_place, places } from './places.svelte';
import { where } from './where.svelte';

class Drawn {
  now = $derived.by<WhereScene | null>(() => {
    const answer = where.answer;
    if (!answer || where.count === 0) return null;
    const last = last_parts(where.told.last ?? '').place, place = last ? places.of(last) : null;
    const bearing = answer.moves[0]?.bearing_grid_deg ?? null;
    return {
      areas: answer.areas,
      places: where.letters.map((p) => ({ at: [p.east_m, p.north_m], letter: p.letter, share: p.share })),
      last: is_place(place) ? place.at_grid_m : null,
      move_rad: bearing === null ? null : (bearing * Math.PI) / 180,
    };
  });
}
export const where_scene = new Drawn();
