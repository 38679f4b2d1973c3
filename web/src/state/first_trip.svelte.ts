/// The first trip in six steps: which is done is read from the trip itself, as the tabs read it, never ticked by hand.
import { step_state } from './steps.svelte';
import { trip } from './trip.svelte';
import { view, type Step } from './view.svelte';

export interface FirstStep {
  /** The tab that it is done on; the way's has two of the six. */
  on: Step;
  words: string;
  how: string;
  done: boolean;
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
    const done = (on: Step) => step_state(on).done;
    return [
      { on: 'ground', words: 'A ground to walk on', how: 'Open the invented ground, or your own area.', done: done('ground') },
      { on: 'party', words: 'Who walks', how: 'How many, how fast, how skilled, and what can be seen.', done: done('party') },
      { on: 'way', words: 'Where from and where to', how: view.touch ? 'Tap the start and then the end on the map, or find them by name.' : 'Click the start and then the end on the map, or find them by name.', done: points.length > 1 },
      { on: 'way', words: 'The way', how: 'Look for ways, choose one, and read what it warns of, leg by leg.', done: done('way') },
      { on: 'rehearse', words: 'Watch them walk', how: 'Many simulated parties walk it; see where they fail.', done: done('rehearse') },
      { on: 'paper', words: 'The paper', how: 'Draw the map sheet, the route card and the home note, and print them.', done: done('paper') },
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
