/// What tracks and marks show of the party: held here until the leader takes it into the trip.
import { language, t, tf } from './language.svelte';
import { call, Lost, Refused } from '../api/client';
import type { Learnt } from '../api/types';
import { in_words } from './messages.svelte';
import { trip } from './trip.svelte';
import { work } from './work.svelte';

interface Sent {
  name: string;
  text: string;
}
const most_bytes = 40_000_000;
const refused_of = (result: Learnt | null): string[] =>
  result ? [...result.figures.filter((f) => f.refused).map((f) => f.name), ...result.pace.refused] : [];

class Learn {
  files = $state.raw<readonly Sent[]>([]);
  /** Names of files that count no more: refused by the leader. */
  left_out = $state.raw<readonly string[]>([]);
  /** Names of figures that stay at the table; null: those that the trip's party file refuses. */
  refused = $state.raw<readonly string[] | null>(null);
  result = $state.raw<Learnt | null>(null);
  wrong = $state('');
  busy = $state(false);
  private asked = 0;

  async take(list: readonly File[]): Promise<void> {
    const known = list.filter((f) => /\.(gpx|toml)$/i.test(f.name));
    const other = list.find((f) => !known.includes(f));
    this.wrong = other ? tf('{0}: a track (GPX) or marks (TOML) are expected here.', other.name) : '';
    const sum = known.reduce((n, f) => n + f.size, 0);
    if (sum > most_bytes) {
      this.wrong = t('These files are over 40 MB together: drop fewer at a time.');
      return;
    }
    const sent = await Promise.all(known.map(async (f) => ({ name: f.name, text: await f.text() })));
    if (!sent.length) return;
    const names = new Set(sent.map((f) => f.name));
    this.files = [...this.files.filter((f) => !names.has(f.name)), ...sent];
    this.left_out = this.left_out.filter((n) => !names.has(n));
    await this.ask();
  }
  async use(name: string, yes: boolean): Promise<void> {
    this.left_out = yes ? this.left_out.filter((n) => n !== name) : [...this.left_out, name];
    await this.ask();
  }
  /** One figure counts, or stays at the table. */
  async use_figure(name: string, yes: boolean): Promise<void> {
    const now = this.refused ?? refused_of(this.result);
    this.refused = yes ? now.filter((n) => n !== name) : [...now, name];
    await this.ask();
  }
  is_refused(name: string): boolean {
    return (this.refused ?? refused_of(this.result)).includes(name);
  }
  /** What the trip's own party file says, where nothing was dropped. */
  async look(): Promise<void> {
    if (!this.files.length) {
      this.refused = null;
      await this.ask();
    }
  }
  forget(): void {
    this.asked++;
    this.files = this.left_out = [];
    this.refused = null;
    this.result = null;
    this.wrong = '';
    this.busy = false;
  }
  /** The trip goes by what was shown; undo takes it back. */
  take_over(): void {
    if (!this.result) return;
    const { party_file } = this.result;
    this.forget();
    trip.set('/party_file', party_file);
  }

  private async ask(): Promise<void> {
    const mine = ++this.asked;
    const files = this.files.filter((f) => !this.left_out.includes(f.name));
    if (!files.length && !trip.state?.party_file) {
      this.result = null;
      this.busy = false;
      return;
    }
    this.busy = true;
    const is_track = (f: Sent) => /\.gpx$/i.test(f.name);
    const { skill, instrument, visibility, time_model } = trip.document.party ?? {};
    try {
      const result = await call('POST /api/party/learn', {}, {
        ...(trip.state?.party_file ? { party_file: trip.state.party_file } : {}),
        tracks: files.filter(is_track).map((f) => ({ name: f.name, gpx: f.text })),
        marks: files.filter((f) => !is_track(f)).map((f) => ({ name: f.name, toml: f.text })),
        ...(this.refused ? { refused: [...this.refused] } : {}),
        ...(trip.state?.ground_id ? { ground_id: trip.state.ground_id } : {}),
        language: language.now,
        as_set: { ...(skill ? { skill } : {}), ...(instrument ? { instrument } : {}), ...(visibility ? { visibility } : {}), ...(time_model ? { time_model } : {}) },
      });
      if (mine === this.asked) this.result = result;
    } catch (e) {
      if (mine !== this.asked) return;
      this.result = null;
      if (e instanceof Lost) work.when_lost();
      else if (e instanceof Refused) this.wrong = in_words(e.fault);
      else throw e;
    } finally {
      if (mine === this.asked) this.busy = false;
    }
  }
}
export const learn = new Learn();
