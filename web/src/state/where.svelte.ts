/// Where are we? What the party tells, kept over a reload, and the answer to the newest telling.
import { call, Lost, Refused } from '../api/client';
import { language, t, tf } from './language.svelte';
import type { Question, Relocation, Told } from '../api/types';
import { in_words } from './messages.svelte';
import { place_letter, question_key, without_told } from './where';
import { session } from './session.svelte';
import { trip } from './trip.svelte';
import { view } from './view.svelte';
import { work } from './work.svelte';

const key = 'lodeway:told';

class Where {
  told = $state.raw<Told>(this.restored());
  /** The last sure place as people call it; `told.last` has figures. */
  last_name = $state('');
  answer = $state.raw<Relocation | null>(null);
  /** Why the newest telling cannot be read; what was told before is still answered. */
  wrong = $state('');
  asking = $state(false);
  /** The answer is to what was told before the newest change. */
  old = $state(false);
  /** Questions that the party cannot answer. */
  passed = $state.raw<readonly string[]>([]);
  /** Milliseconds from a telling to its answer. */
  took_ms = $state(0);
  private next = false;

  count = $derived(Object.entries(this.told).filter(([k, v]) => !['height_from', 'leg_minutes', 'north'].includes(k) && (Array.isArray(v) ? v.length : v)).length);
  question = $derived<Question | null>(this.answer?.questions.find((q) => q.act === 'tell' && q.answers.length > 0 && !this.passed.includes(question_key(q))) ?? null);
  letters = $derived((this.answer?.places ?? []).slice(0, 4).map((p, i) => ({ ...p, letter: place_letter(i + 1) })));

  set(change: Partial<Told>): void {
    this.told = without_told({ ...this.told, ...change });
    this.store();
    void this.ask();
  }
  clear(): void {
    this.told = {};
    this.passed = [];
    this.last_name = '';
    this.store();
    void this.ask();
  }
  pass(q: Question): void {
    this.passed = [...this.passed, question_key(q)];
  }
  /** One question at a time; the newest telling is asked again when an answer has come. */
  async ask(): Promise<void> {
    this.next = true;
    this.old = true;
    if (this.asking) return;
    this.asking = true;
    try {
      while (this.next) {
        this.next = false;
        await this.once();
      }
    } finally {
      this.asking = false;
    }
  }
  private async once(): Promise<void> {
    const begun = performance.now();
    try {
      const answer = await this.relocate();
      if (this.next || !answer) return;
      this.answer = answer;
      this.wrong = '';
      this.old = false;
      this.took_ms = performance.now() - begun;
    } catch (e) {
      this.old = false;
      if (e instanceof Lost) work.when_lost();
      else if (e instanceof Refused) this.wrong = in_words(e.fault);
      else throw e;
    }
  }
  private async relocate(): Promise<Relocation | null> {
    const ground = session.ground?.id;
    if (!ground) return null;
    const points = trip.document.point ?? [];
    if (trip.known && points.length > 1) {
      await trip.settled();
      const way = this.told.leg && work.way ? { way: work.way.name } : {};
      return call('POST /api/trips/{id}/relocate', { id: trip.known.id }, { revision: trip.known.revision, told: { language: language.now, ...this.told }, ...way });
    }
    const { leg: _leg, leg_minutes: _minutes, ...told } = this.told;
    const { date, party } = trip.document;
    return call('POST /api/grounds/{id}/relocate', { id: ground }, {
      language: language.now,
      ...(date ? { date } : {}), ...(party?.visibility ? { visibility: party.visibility } : {}), ...(party?.skill ? { skill: party.skill } : {}), ...told,
    });
  }

  /** The plan from here on: a new trip that begins at one of the places. */
  async go_on(at: readonly [number, number], name: string, from_point: number, start: string): Promise<void> {
    const document = trip.document, rest = (document.point ?? []).slice(from_point);
    const here = { name, at: `${Math.round(at[0])} ${Math.round(at[1])}`, safe: false };
    const visibility = this.told.visibility ?? document.party?.visibility;
    await session.try_to('trip', 'The rest of the trip could not be begun', async () => {
      const made = await call('POST /api/trips', {}, {
        ground_id: trip.state?.ground_id ?? null, party_file: trip.state?.party_file ?? null,
        document: { ...document, name: tf('{0}, from {1}', document.name || t('Trip'), name), start, point: [here, ...rest],
          party: { ...document.party, ...(visibility ? { visibility } : {}) } },
      });
      session.trips = (await call('GET /api/trips')).trips;
      await session.open_trip(made.id);
      view.go('way', made.id);
      await work.look_for_ways();
    });
  }

  private store(): void {
    try {
      sessionStorage.setItem(key, JSON.stringify(this.told));
    } catch {
      // Without storage it lasts as long as the window.
    }
  }
  private restored(): Told {
    try {
      return JSON.parse(sessionStorage.getItem(key) ?? '{}') as Told;
    } catch {
      return {};
    }
  }
}
export const where = new Where();
