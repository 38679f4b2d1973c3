/// What the learnt figures would do to the way that is open: asked of the program, once a party file and way.
import { t } from './language.svelte';
import { call, Lost, Refused } from '../api/client';
import type { WayChanged, WayName } from '../api/types';
import type { Speaks } from './language.svelte';
import { in_words } from './messages.svelte';
import { work } from './work.svelte';

class LearnChange {
  told = $state.raw<WayChanged | null>(null);
  wrong = $state('');
  busy = $state(false);
  private asked = 0;

  async want(job: string, way: WayName, party_file: string, language: Speaks): Promise<void> {
    const mine = ++this.asked;
    this.told = null;
    this.wrong = '';
    this.busy = true;
    try {
      const told = await call('POST /api/ways/{job}/{way}/change', { job, way }, { party_file, language });
      if (mine === this.asked) this.told = told;
    } catch (e) {
      if (!(e instanceof Lost || e instanceof Refused)) throw e;
      if (mine !== this.asked) return;
      if (e instanceof Lost) work.when_lost();
      this.wrong = e instanceof Refused ? in_words(e.fault) : t('The program does not answer');
    } finally {
      if (mine === this.asked) this.busy = false;
    }
  }
  forget(): void {
    this.asked++;
    this.told = null;
    this.wrong = '';
    this.busy = false;
  }
}
export const learn_change = new LearnChange();
