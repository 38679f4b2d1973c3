/// The trip that is open. Changes are shown at once and sent after; when nobody answers they wait, also
/// over a reload, and go out when the program is back.
import { t, tf } from './language.svelte';
import { call, Lost, Refused } from '../api/client';
import type { Change, Conflict, Fault, Trip, TripDocument, TripState } from '../api/types';
import { apply, at, squeeze } from './changes';
import { messages } from './messages.svelte';

const storage = (id: string) => `lodeway:waiting:${id}`;
interface Stored {
  base: number;
  changes: Change[];
}

class OpenTrip {
  /** As the server last told it; null: no trip is open. */
  known = $state.raw<Trip | null>(null);
  /** Not yet sent, and on the way. */
  waiting = $state.raw<Change[]>([]);
  sending = $state.raw<Change[]>([]);
  /** What the server would not take, by path, with what was typed. */
  refused = $state<Record<string, { fault: Fault; value: unknown }>>({});

  state = $derived<TripState | null>(
    this.known && apply(this.known.state, [...this.sending, ...this.waiting]),
  );
  document = $derived<TripDocument>(this.state?.document ?? {});
  unsent = $derived(this.waiting.length + this.sending.length);
  /** The revision that the waiting changes were made on: what the leader saw, whatever came since. */
  private base = 0;
  private busy = false;
  private idle: (() => void)[] = [];
  /** Told when the connection broke while sending. */
  when_lost: () => void = () => {};

  open(trip: Trip): void {
    if (this.known?.id !== trip.id) {
      this.refused = {};
      this.sending = [];
      try {
        const stored = JSON.parse(sessionStorage.getItem(storage(trip.id)) ?? 'null') as Stored | null;
        this.waiting = stored?.changes ?? [];
        this.base = stored?.base ?? trip.revision;
      } catch {
        this.waiting = [];
      }
    }
    this.known = trip;
    if (this.waiting.length) void this.send();
  }
  close(): void {
    this.known = null;
    this.waiting = [];
    this.sending = [];
  }

  value(path: string): unknown {
    return at(this.state, path);
  }
  set(path: string, value: unknown): void {
    this.change([{ path, value }]);
  }
  change(changes: Change[]): void {
    for (const { path } of changes) delete this.refused[path];
    if (!this.unsent) this.base = this.known?.revision ?? 0;
    this.waiting = squeeze([...this.waiting, ...changes]);
    this.store();
    void this.send();
  }

  /** Resolves when everything is with the server, or when it cannot be reached. */
  settled(): Promise<void> {
    if (!this.busy) return this.waiting.length ? this.send() : Promise.resolve();
    return new Promise((done) => this.idle.push(done));
  }

  async send(): Promise<void> {
    if (this.busy || !this.known) return;
    this.busy = true;
    try {
      while (this.waiting.length && this.known) {
        this.sending = this.waiting;
        this.waiting = [];
        await this.post(this.sending);
        this.base = this.known.revision;
        this.sending = [];
        this.store();
      }
    } catch (e) {
      this.waiting = squeeze([...this.sending, ...this.waiting]);
      this.sending = [];
      this.store();
      if (!(e instanceof Lost)) throw e;
      this.when_lost();
    } finally {
      this.busy = false;
      this.idle.splice(0).forEach((done) => done());
    }
  }

  private async post(changes: Change[]): Promise<void> {
    const { id } = this.known as Trip;
    try {
      this.known = await call('POST /api/trips/{id}/changes', { id }, { revision: this.base, changes });
    } catch (e) {
      if (!(e instanceof Refused)) throw e;
      if (e.conflict) return this.contest(changes, e.conflict);
      if (changes.length > 1) {
        for (const one of changes) {
          await this.post([one]);
          this.base = this.known?.revision ?? this.base;
        }
        return;
      }
      const [{ path, value }] = changes as [Change];
      this.refused[path] = { fault: e.fault, value };
    }
  }

  /** Another tab changed the same thing: the rest goes on, the leader says which of the two counts. */
  private async contest(changes: Change[], { newest, contested }: Conflict): Promise<void> {
    this.known = newest;
    this.base = newest.revision;
    const mine = changes.filter((c) => contested.some((p) => c.path.startsWith(p) || p.startsWith(c.path)));
    const rest = changes.filter((c) => !mine.includes(c));
    if (rest.length) await this.post(rest);
    const names = mine.map((c) => c.path.split('/').slice(2).join(' ') || c.path.slice(1)).join(', ');
    messages.say({
      key: 'contest',
      kind: 'warning',
      title: tf('Two windows changed the same: {0}', names),
      text: 'The other window was first. Its value is shown; yours is kept until you choose.',
      actions: [
        { words: 'Use mine', main: true, run: () => (messages.take_back('contest'), this.change(mine)) },
        { words: 'Keep the other', run: () => messages.take_back('contest') },
      ],
    });
  }

  async step_back(which: 'undo' | 'redo'): Promise<void> {
    await this.settled();
    if (!this.known) return;
    const { id, revision } = this.known;
    try {
      this.known =
        which === 'undo'
          ? await call('POST /api/trips/{id}/undo', { id }, { revision })
          : await call('POST /api/trips/{id}/redo', { id }, { revision });
      this.refused = {};
    } catch (e) {
      if (e instanceof Lost) this.when_lost();
      else if (e instanceof Refused && e.conflict) this.known = e.conflict.newest;
      else if (e instanceof Refused) messages.fault('undo', which === 'undo' ? t('Could not undo') : t('Could not redo'), e.fault);
    }
  }

  private store(): void {
    if (!this.known) return;
    const key = storage(this.known.id);
    const all = [...this.sending, ...this.waiting];
    try {
      if (all.length) sessionStorage.setItem(key, JSON.stringify({ base: this.base, changes: all } satisfies Stored));
      else sessionStorage.removeItem(key);
    } catch {
      // Without storage the changes live as long as the window.
    }
  }
}
export const trip = new OpenTrip();
