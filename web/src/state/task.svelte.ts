/// Placing things on the map: a point, or the corners of an area. By click, or by the crosshair and Enter.
import { at_text, part, put } from './points';
import { is_place, places } from './places.svelte';
import { here, type Told } from './here.svelte';
import { with_place, type Role } from './plan_places';
import { messages } from './messages.svelte';
import { laid } from './string.svelte';
import { trip } from './trip.svelte';
import { view, type StringEnd } from './view.svelte';
import { work } from './work.svelte';

class Task {
  /** A click means a named thing that is so near. */
  snap_m = 0;
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
    laid.begin(null);
  }
  /** While no way stands on the map, a click is the next place. */
  get planning(): boolean {
    return view.step === 'way' && !work.ways && !work.running('ways') && trip.known !== null;
  }
  /** Where the next line begins: the last place that was put. */
  last_place(): { at: readonly number[]; name: string } | null {
    const last = (trip.document.point ?? []).at(-1);
    const place = last ? places.of(last.at) : null;
    return last && is_place(place) ? { at: place.at_grid_m, name: last.name ?? '' } : null;
  }
  /** Puts what was told as a place of the trip. */
  async put_here(told: Told, role: Role): Promise<void> {
    if (!trip.known || !told.what.place.inside) return;
    const { points, index } = with_place(trip.document.point ?? [], { at: at_text(told.at), name: told.name }, role);
    trip.set('/document/point', points);
    if (view.step !== 'way') view.go('way');
    here.slip = { ...told };
    here.put = index;
  }

  begin_string(from: StringEnd | null): void {
    here.away();
    laid.begin(from);
    view.task = { kind: 'string', from };
  }
  string_on(): void {
    if (laid.to) laid.begin(laid.to);
  }
  /** The string becomes the next leg, on a bearing. */
  string_to_leg(): void {
    const { from, to } = laid;
    if (!from || !to || !trip.known) return;
    const points = trip.document.point ?? [];
    const last = points[points.length - 1];
    const near = last && last.at === at_text(from.at);
    trip.set('/document/point', [...points, ...(near ? [] : [{ at: at_text(from.at), name: from.name }]),
      { at: at_text(to.at), name: to.name, get_here: 'bearing' as const }]);
    this.cancel();
    view.go('way');
  }

  async place(at: [number, number]): Promise<void> {
    const now = view.task;
    if (now.kind === 'string') {
      const told = await here.tell(at, this.snap_m, false, null);
      if (told) await laid.set({ at: told.at, name: told.name });
      return;
    }
    if (now.kind === 'avoid') view.task = { kind: 'avoid', ring: [...now.ring, at] };
    if (now.kind !== 'point') return;
    const told = await here.tell(at, this.snap_m, false, null);
    if (!told) return;
    if (!told.what.place.inside) {
      messages.fault('place', 'No place can be there', { code: 'outside_ground', message: 'It lies outside this ground.',
        where: null, what_to_do: 'Choose a place on the drawn map.' });
      return;
    }
    messages.take_back('place');
    const points = trip.document.point ?? [];
    const own = now.insert ? undefined : points[now.index];
    trip.set('/document/point', put(points, now.index, { ...own, at: at_text(told.at), name: told.name }, now.insert));
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
