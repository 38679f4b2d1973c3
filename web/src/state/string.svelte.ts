/// The measuring string: two places and what lies between them.
import type { StringLaid } from '../api/types';
import { here } from './here.svelte';
import type { StringEnd } from './view.svelte';

class LaidString {
  from = $state.raw<StringEnd | null>(null);
  to = $state.raw<StringEnd | null>(null);
  /** While the pointer leads it: not set yet. */
  loose = $state.raw<[number, number] | null>(null);
  told = $state.raw<StringLaid | null>(null);

  begin(from: StringEnd | null): void {
    this.from = from;
    this.to = this.loose = this.told = null;
  }
  async set(end: StringEnd): Promise<void> {
    if (!this.from || this.to) {
      this.begin(end);
      return;
    }
    this.to = end;
    this.loose = null;
    this.told = await here.string(this.from.at, end.at, [this.from.name, end.name]);
  }
}
export const laid = new LaidString();
