/// What becomes of the chosen way when the day changes: asked of the server row by row, so that they stand there as they
/// come and can be stopped; asked once a way, and kept while the ways are.
import { t } from './language.svelte';
import { call, Lost, Refused } from '../api/client';
import type { ConditionRow, WayName } from '../api/types';
import { in_words } from './messages.svelte';

/** Worst first, as everything on the page. */
export const harm: readonly ConditionRow['verdict'][] = ['outside', 'not_judged', 'close_to', 'within'];

/** Those in which the way does not hold, worst first; the others stand in no list of dangers. */
export function failing(rows: readonly ConditionRow[]): ConditionRow[] {
  return rows.filter((r) => r.verdict === 'outside' || r.verdict === 'not_judged')
    .sort((a, b) => harm.indexOf(a.verdict) - harm.indexOf(b.verdict));
}

/** As planned, cloud, an hour late, streams up, slower, snow. */
export const condition_count = 6;

class Conditions {
  /** All of them; null while they are not all there. */
  rows = $state.raw<readonly ConditionRow[] | null>(null);
  /** Those that are there already, in their order. */
  coming = $state.raw<readonly ConditionRow[]>([]);
  wrong = $state('');
  stopped = $state(false);
  private kept = new Map<string, readonly ConditionRow[]>();
  private wanted = '';
  /** Who asks now; another may ask only once this one is told to leave off. */
  private turn = 0;

  /** Shows those of this way; nothing is asked twice. */
  async want(job: string, way: WayName): Promise<void> {
    const key = `${job} ${way}`;
    if (key === this.wanted && (this.rows || !this.wrong)) return;
    this.wanted = key;
    await this.go_on(job, way);
  }
  /** From the row on that is not there yet. */
  async go_on(job: string, way: WayName): Promise<void> {
    const mine = ++this.turn, key = this.wanted;
    this.wrong = '';
    this.stopped = false;
    let rows = this.kept.get(key) ?? [];
    this.show(rows);
    try {
      while (rows.length < condition_count) {
        const answer = await call('GET /api/ways/{job}/{way}/conditions', { job, way, row: rows.length });
        rows = [...rows, ...answer.rows];
        if (this.kept.size > 8 && !this.kept.has(key)) this.kept.clear();
        this.kept.set(key, rows);
        if (mine !== this.turn) return;
        this.show(rows);
      }
    } catch (e) {
      if (!(e instanceof Lost || e instanceof Refused)) throw e;
      if (mine === this.turn) this.wrong = e instanceof Refused ? in_words(e.fault) : t('The program does not answer');
    }
  }
  stop(): void {
    this.turn++;
    this.stopped = true;
  }
  forget(): void {
    this.turn++;
    this.wanted = this.wrong = '';
    this.stopped = false;
    this.show([]);
  }
  private show(rows: readonly ConditionRow[]): void {
    this.coming = rows;
    this.rows = rows.length === condition_count ? rows : null;
  }
}
export const conditions = new Conditions();
