/// Placing things on the map: a point, or the corners of an area. By click, or by the crosshair and Enter.
import { at_text, part, put } from './points';
import { is_place, places } from './places.svelte';
import { messages } from './messages.svelte';
import { trip } from './trip.svelte';
import { view } from './view.svelte';

class Task {
  /** What the crosshair stands on. */
  centre = $state.raw<[number, number] | null>(null);

  begin_point(index: number, insert: boolean): void {
    const count = (trip.document.point?.length ?? 0) + (insert ? 1 : 0);
    view.task = { kind: 'point', index, insert, words: part(index, Math.max(count, index + 1)).toLowerCase() };
  }
  begin_area(): void {
    view.task = { kind: 'avoid', ring: [] };
  }
  cancel(): void {
    view.task = { kind: 'look' };
  }

  async place(at: [number, number]): Promise<void> {
    const now = view.task;
    if (now.kind === 'avoid') view.task = { kind: 'avoid', ring: [...now.ring, at] };
    if (now.kind !== 'point') return;
    const place = await places.at(...at);
    if (!place) return;
    if (!is_place(place)) return messages.fault('place', 'No point can stand there', place);
    if (!place.inside) {
      messages.fault('place', 'No point can stand there', { code: 'outside_ground', message: 'The place lies outside of the ground.',
        where: null, what_to_do: 'Choose a place on the drawn map.' });
      return;
    }
    messages.take_back('place');
    const points = trip.document.point ?? [];
    const own = now.insert ? undefined : points[now.index];
    trip.set('/document/point', put(points, now.index, { ...own, at: place.easting_northing, name: place.near ?? '' }, now.insert));
    // The first two clicks on a new trip are its start and its end.
    if (now.insert && points.length === 0) this.begin_point(1, true);
    else this.cancel();
  }
  take_back_corner(): void {
    if (view.task.kind === 'avoid') view.task = { kind: 'avoid', ring: view.task.ring.slice(0, -1) };
  }
  close_area(name: string): void {
    if (view.task.kind !== 'avoid' || view.task.ring.length < 3) return;
    const areas = trip.document.avoid ?? [];
    trip.set('/document/avoid', [...areas, { name, ring: view.task.ring.map(at_text) }]);
    this.cancel();
  }
}
export const task = new Task();
