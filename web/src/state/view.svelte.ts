/// What this window shows: nothing here is part of the trip. Step and trip stand in the address, so that
/// reloading and going back work; the rest in the window's storage.
import type { Escape } from '../api/types';

export type Step = 'ground' | 'party' | 'way' | 'rehearse' | 'paper';
export const steps: readonly Step[] = ['ground', 'party', 'way', 'rehearse', 'paper'];
export type Theme = 'auto' | 'light' | 'dark';

/** What the next click on the map does. */
export type MapTask =
  | { kind: 'look' }
  | { kind: 'point'; index: number; insert: boolean; words: string }
  | { kind: 'avoid'; ring: [number, number][] }
  /** A string is laid: from its first place, once that is set. */
  | { kind: 'string'; from: StringEnd | null };
export interface StringEnd {
  at: [number, number];
  name: string;
}
/** What the drawer shows in place of the step's own panel. */
export type Aside = 'words' | 'where' | 'conditions' | null;

const kept = (key: string, otherwise: string) => {
  try {
    return localStorage.getItem(`lodeway:${key}`) ?? otherwise;
  } catch {
    return otherwise;
  }
};
const keep = (key: string, value: string) => {
  try {
    localStorage.setItem(`lodeway:${key}`, value);
  } catch {
    // A browser without storage forgets how its page was set; nothing else is lost.
  }
};

class View {
  step = $state<Step>('ground');
  leg = $state(1);
  /** From where on the chosen leg its escape route is shown. */
  escape_from = $state<Escape['from']>('middle');
  task = $state<MapTask>({ kind: 'look' });
  theme = $state<Theme>(kept('theme', 'auto') as Theme);
  system_dark = $state(matchMedia('(prefers-color-scheme: dark)').matches);
  shows = $state({
    error: kept('show-error', '1') === '1',
    off: kept('show-off', '1') === '1',
    slope: kept('show-slope', '0') === '1',
    keep: kept('show-keep', '1') === '1',
  });
  aside = $state<Aside>(null);
  /** The drawer is shut: a spine is left of it. */
  shut = $state(false);
  /** Single letters do something while map, ribbon or drawer have the focus. */
  letters = $state(kept('letters', '1') === '1');
  touch = matchMedia('(pointer: coarse)').matches;
  trip_open = $state(false);
  /** The trip that the address names; null: none, or "-" for a new beginning. */
  trip_id = $state<string | null>(null);
  afresh = $state(false);
  dark = $derived(this.theme === 'dark' || (this.theme === 'auto' && this.system_dark));

  constructor() {
    this.read_address();
    addEventListener('hashchange', () => this.read_address());
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', (e) => (this.system_dark = e.matches));
    this.set_theme(this.theme);
  }

  private read_address(): void {
    const [, trip, step] = /^#\/([^/]*)\/(\w+)$/.exec(location.hash) ?? [];
    this.afresh = trip === '-';
    this.trip_id = trip && trip !== '-' ? decodeURIComponent(trip) : null;
    if (steps.includes(step as Step)) this.step = step as Step;
  }
  go(step: Step, trip_id: string | null = this.trip_id): void {
    if (step !== this.step || trip_id !== this.trip_id) this.task = { kind: 'look' };
    this.trip_id = trip_id;
    this.step = step;
    this.aside = null;
    this.shut = false;
    const hash = `#/${trip_id ? encodeURIComponent(trip_id) : '-'}/${step}`;
    if (location.hash !== hash) location.hash = hash;
  }
  set_theme(theme: Theme): void {
    this.theme = theme;
    if (theme === 'auto') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = theme;
    keep('theme', theme);
  }
  set_letters(on: boolean): void {
    this.letters = on;
    keep('letters', on ? '1' : '0');
  }
  open_aside(what: Exclude<Aside, null>): void {
    this.aside = this.aside === what ? null : what;
    this.shut = false;
  }
  show(what: 'error' | 'off' | 'slope' | 'keep', on: boolean): void {
    this.shows[what] = on;
    keep(`show-${what}`, on ? '1' : '0');
  }
}
export const view = new View();
