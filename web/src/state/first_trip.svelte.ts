/// The first trip in six steps: which is done is read from the trip itself, never ticked by hand.
import { session } from './session.svelte';
import { trip } from './trip.svelte';
import { view } from './view.svelte';
import { work } from './work.svelte';

export interface FirstStep {
  words: string;
  how: string;
  done: boolean;
  go: () => void;
}
const key = 'lodeway:first-trip';
const stored = () => {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
};

class FirstTrip {
  put_away = $state(stored() === 'away');
  steps = $derived.by<FirstStep[]>(() => {
    const points = trip.document.point ?? [];
    return [
      { words: 'A ground to walk on', how: 'Open the invented ground, or your own area.', done: session.ground !== null, go: () => view.go('ground') },
      { words: 'Who walks', how: 'How many, how fast, how skilled, and what can be seen.', done: trip.known !== null && Object.keys(trip.document.party ?? {}).length > 0, go: () => view.go('party') },
      { words: 'Where from and where to', how: view.touch ? 'Tap the start and then the end on the map, or find them by name.' : 'Click the start and then the end on the map, or find them by name.', done: points.length > 1, go: () => view.go('way') },
      { words: 'The way', how: 'Look for ways, choose one, and read what it warns of, leg by leg.', done: work.way !== null && !work.ways_old, go: () => view.go('way') },
      { words: 'Watch them walk', how: 'Many simulated parties walk it; see where they fail.', done: work.rehearsal !== null && !work.rehearsal_old, go: () => view.go('rehearse') },
      { words: 'The paper', how: 'Draw the map sheet, the route card and the home note, and print them.', done: work.paper !== null && !work.paper_old, go: () => view.go('paper') },
    ];
  });
  /** What comes after the last that was done: a step that was passed over had its defaults. */
  next = $derived.by(() => {
    const last = this.steps.map((s) => s.done).lastIndexOf(true);
    return last + 1 < this.steps.length ? last + 1 : -1;
  });

  set(away: boolean): void {
    this.put_away = away;
    try {
      if (away) localStorage.setItem(key, 'away');
      else localStorage.removeItem(key);
    } catch {
      // Without storage it is shown again.
    }
  }
}
export const first_trip = new FirstTrip();
