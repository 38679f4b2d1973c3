/// What becomes of the chosen way when the day changes: asked of the server once a way, and kept while the ways are.
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

class Conditions {
  rows = $state.raw<readonly ConditionRow[] | null>(null);
  wrong = $state('');
  private kept = new Map<string, readonly ConditionRow[]>();
  private wanted = '';

  /** Shows those of this way; nothing is asked twice. */
  async want(job: string, way: WayName): Promise<void> {
    const key = `${job} ${way}`;
    if (key === this.wanted && (this.rows || !this.wrong)) return;
    this.wanted = key;
    this.wrong = '';
    this.rows = this.kept.get(key) ?? null;
    if (this.rows) return;
    try {
      const { rows } = await call('GET /api/ways/{job}/{way}/conditions', { job, way });
      if (this.kept.size > 8) this.kept.clear();
      this.kept.set(key, rows);
      if (key === this.wanted) this.rows = rows;
    } catch (e) {
      if (!(e instanceof Lost || e instanceof Refused)) throw e;
      if (key === this.wanted) this.wrong = e instanceof Refused ? in_words(e.fault) : t('The program does not answer');
    }
  }
  forget(): void {
    this.wanted = this.wrong = '';
    this.rows = null;
  }
}
export const conditions = new Conditions();
