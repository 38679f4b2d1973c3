/// The page's link with its program: what it knows at the start, what it hears, and how it mends.
import { call, Lost, Refused } from '../api/client';
import { listen } from '../api/events';
import type { Event, Ground, Hello, NewTrip, Options, TripEntry } from '../api/types';
import { language } from './language.svelte';
import { messages } from './messages.svelte';
import { trip } from './trip.svelte';
import { view } from './view.svelte';
import { work } from './work.svelte';

class Session {
  link = $state<'opening' | 'open' | 'lost'>('opening');
  hello = $state.raw<Hello | null>(null);
  options = $state.raw<Options | null>(null);
  grounds = $state.raw<Ground[]>([]);
  trips = $state.raw<TripEntry[]>([]);
  ground = $derived<Ground | null>(this.grounds.find((g) => g.id === trip.state?.ground_id) ?? null);
  /** Trip lists and results are read, so that the first picture is the right one. */
  ready = $state(false);

  /** What every page asks first: asked while the link is still being made. */
  private early: ReturnType<Session['lists']> | null = null;

  start(): void {
    trip.when_lost = work.when_lost = () => this.lose();
    this.early = this.lists();
    this.early.catch(() => undefined);  // asked again once there is a link
    void language.start();
    listen((event) => void this.heard(event), () => this.lose());
  }

  private lose(): void {
    if (this.link !== 'lost') this.link = 'lost';
  }

  private async heard(event: Event): Promise<void> {
    try {
      if (event.type === 'hello') await this.greet(event.hello);
      else if (event.type === 'job') work.heard(event.job);
      else if (event.type === 'grounds') this.grounds = (await call('GET /api/grounds')).grounds;
      else await this.trip_changed(event.trip_id, event.revision);
    } catch (e) {
      if (e instanceof Lost) this.lose();
      else if (e instanceof Refused) messages.fault('link', 'The program refused', e.fault);
      else throw e;
    }
  }

  private async greet(hello: Hello): Promise<void> {
    const restarted = this.hello !== null && this.hello.run !== hello.run;
    this.hello = hello;
    const early = this.early;
    this.early = null;
    await this.take_lists(early?.catch(() => this.lists()) ?? this.lists());
    this.link = 'open';
    const id = trip.known?.id ?? view.trip_id ?? (view.afresh ? null : this.trips[0]?.id) ?? null;
    if (id) await this.open_trip(id);
    this.ready = true;
    if (early) await this.take_lists(this.lists());  // what changed before the link told of it
    await trip.settled();
    await (restarted ? work.ask_again() : work.read_again());
    await work.ground_in_hand((ground) => void (this.ground ?? this.take_ground(ground, false)));
  }

  private lists() {
    return Promise.all([this.options ?? call('GET /api/options'), call('GET /api/grounds'), call('GET /api/trips')]);
  }
  private async take_lists(asked: ReturnType<Session['lists']>): Promise<void> {
    const [options, grounds, trips] = await asked;
    this.options = options;
    this.grounds = grounds.grounds;
    this.trips = trips.trips;
  }

  private async trip_changed(id: string, revision: number | null): Promise<void> {
    this.trips = (await call('GET /api/trips')).trips;
    if (trip.known?.id !== id) return;
    if (revision === null) {
      this.leave_trip();
      messages.say({ key: 'gone', kind: 'news', title: 'The trip was deleted in another window', text: '',
        actions: [{ words: 'Close', run: () => messages.take_back('gone') }] });
    } else if (revision > trip.known.revision) {
      const newest = await call('GET /api/trips/{id}', { id });
      if (trip.known?.id === id && newest.revision > trip.known.revision) trip.open(newest);
    }
  }

  async open_trip(id: string): Promise<void> {
    try {
      const opened = await call('GET /api/trips/{id}', { id });
      const other = trip.known?.id !== id;
      trip.open(opened);
      if (other) {
        work.forget();
        view.leg = 1;
        await work.remember(id);
      }
      // The step that is shown now: the leader may have gone on while this was read.
      view.go(view.step, id);
    } catch (e) {
      if (!(e instanceof Refused)) throw e;
      this.leave_trip();
      if (e.fault.code !== 'not_found') return messages.fault('trip', 'The trip could not be opened', e.fault);
      // An old link, or a trip that was deleted since.
      messages.say({ key: 'gone', kind: 'news', title: 'That trip is not here any more', text: '',
        actions: [{ words: 'Close', run: () => messages.take_back('gone') }] });
    }
  }
  leave_trip(): void {
    trip.close();
    work.forget();
    view.go('ground', null);
  }

  async new_trip(ground_id: string | null, example: boolean): Promise<void> {
    await this.try_to('trip', 'The trip could not be begun', async () => {
      const zone = Intl.DateTimeFormat().resolvedOptions().timeZone || 'UTC';
      const wish: NewTrip = { ground_id, zone };
      if (example) wish.example = true;
      const made = await call('POST /api/trips', {}, wish);
      this.trips = (await call('GET /api/trips')).trips;
      await this.open_trip(made.id);
      if (language.now !== 'en') trip.set('/document/paper/language', language.now);
    });
  }
  async delete_trip(id: string): Promise<void> {
    await this.try_to('trip', 'The trip could not be deleted', async () => {
      this.trips = (await call('DELETE /api/trips/{id}', { id })).trips;
      if (trip.known?.id === id) this.leave_trip();
    });
  }
  /** A ground that just came: the open trip takes it, or a new trip begins on it. */
  async take_ground(id: string, example = false): Promise<void> {
    this.grounds = (await call('GET /api/grounds')).grounds;
    const empty = trip.known && !trip.document.point?.length;
    if (empty && !example) trip.set('/ground_id', id);
    else await this.new_trip(id, example);
  }
  async try_to(key: string, title: string, what: () => Promise<unknown>): Promise<boolean> {
    try {
      await what();
      messages.take_back(key);
      return true;
    } catch (e) {
      if (e instanceof Lost) this.lose();
      else if (e instanceof Refused) messages.fault(key, title, e.fault);
      else throw e;
      return false;
    }
  }
}
export const session = new Session();
