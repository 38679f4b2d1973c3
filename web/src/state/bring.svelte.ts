/// Files that were dropped anywhere: sent to the program, told what they are, and asked about before anything changes.
import { t, tf } from './language.svelte';
import { call, Lost, Refused, upload } from '../api/client';
import type { Brought, NewTrip, TripDocument } from '../api/types';
import { length } from '../format/units';
import { files } from './files.svelte';
import { messages, type Action } from './messages.svelte';
import { session } from './session.svelte';
import { trip } from './trip.svelte';
import { view } from './view.svelte';

const for_trips = /\.(toml|gpx|zip)$/i;

class Bring {
  /** A route or track that is only shown. */
  shown = $state.raw<Brought | null>(null);

  async take(list: File[]): Promise<void> {
    const trips = list.filter((f) => for_trips.test(f.name)), rest = list.filter((f) => !for_trips.test(f.name));
    if (rest.length) {
      view.go('ground');
      void files.take(rest);
    }
    for (const file of trips) await this.one(file);
  }
  private async one(file: File): Promise<void> {
    const key = `bring ${file.name}`;
    try {
      const sent = await upload(file, () => undefined);
      const brought = await call('POST /api/bring', {}, { upload: sent.id, ground_id: session.ground?.id ?? null });
      if (brought.kind === 'trip' || brought.kind === 'whole') await this.ask_trip(key, file.name, brought);
      else this.ask_marks(key, file.name, brought);
    } catch (e) {
      if (e instanceof Refused) messages.fault(key, tf('{0} was not taken', file.name), e.fault);
      else if (e instanceof Lost) messages.say({ key, kind: 'error', title: tf('{0} was not taken', file.name), text: 'The program did not answer. Drop it again.', actions: [this.close(key)] });
      else throw e;
    }
  }
  private close = (key: string): Action => ({ words: 'Leave it', run: () => messages.take_back(key) });

  private async ask_trip(key: string, file: string, brought: Brought): Promise<void> {
    if (brought.kind === 'whole') session.grounds = (await call('GET /api/grounds')).grounds;
    const ground = brought.ground_id ?? session.ground?.id ?? null;
    const on = session.grounds.find((g) => g.id === ground)?.name;
    const open: Action = { words: 'Open it as a trip', main: true, run: () => void this.open(key, brought.document!, ground, brought.chosen_way) };
    messages.say({ key, kind: 'news', title: tf('{0}: a trip, {1}', file, brought.name),
      text: `${brought.kind === 'whole' ? t('Its ground came with it.') : on ? tf('It will stand on {0}.', on) : t('Its ground is not named in it: choose one after.')} ${t('Nothing is changed until you choose.')}`,
      actions: [open, this.close(key)] });
  }
  private async open(key: string, document: TripDocument, ground_id: string | null, chosen_way: Brought['chosen_way']): Promise<void> {
    messages.take_back(key);
    await session.try_to(key, 'The trip could not be opened', async () => {
      const wish: NewTrip = { ground_id, document };
      const made = await call('POST /api/trips', {}, wish);
      session.trips = (await call('GET /api/trips')).trips;
      await session.open_trip(made.id);
      if (chosen_way) trip.set('/chosen_way', chosen_way);
      view.go(ground_id ? 'way' : 'ground', made.id);
    });
  }
  private ask_marks(key: string, file: string, brought: Brought): void {
    const lengths = trip.document.paper?.units ?? 'metric';
    const outside = brought.outside ? ` ${tf('{0} of its places lie outside this ground.', brought.outside)}` : '';
    if (brought.points.length < 2) {
      messages.say({ key, kind: 'warning', title: tf('{0} does not lie on this ground', file), text: 'Choose the ground that it crosses, then drop it again.', actions: [this.close(key)] });
      return;
    }
    const words = { route: 'a route', track: 'a track', waypoints: 'places', trip: '', whole: '' }[brought.kind];
    messages.say({ key, kind: 'news', title: `${file}: ${t(words)}, ${brought.length_m === null ? '' : length(brought.length_m, lengths)}`,
      text: `${t('What is it?')}${outside} ${t('Nothing is changed until you choose.')}`,
      actions: [
        { words: tf('The way to walk: {0} places', brought.points.length), main: true, run: () => {
          messages.take_back(key);
          this.shown = null;
          if (!trip.known) return void session.new_trip(session.ground?.id ?? null, false).then(() => this.use(brought));
          this.use(brought);
        } },
        { words: 'Only show it', run: () => {
          this.shown = brought;
          messages.say({ key, kind: 'news', title: tf('{0} is shown', file), text: '', actions: [{ words: 'Take it off the map', run: () => {
            this.shown = null;
            messages.take_back(key);
          } }] });
        } },
        this.close(key),
      ] });
  }
  private use(brought: Brought): void {
    trip.set('/document/point', brought.points);
    view.go('way');
  }
}
export const bring = new Bring();
