import { describe, expect, it } from 'vitest';
import type { VerdictReason, Way } from '../api/types';
import { next_tries } from './next_try';

const reason = (what: VerdictReason['what'], leg: number | null, band: VerdictReason['band'] = 'outside') => ({ band, what, leg, value: 0, limit: 0, text: '' });
const way = (name: string, band: Way['verdict']['band'], harm: number, ...reasons: VerdictReason[]) =>
  ({ name, title: name, hazard_probability: harm, legs: Array.from({ length: 6 }), verdict: { band, headline: '', sentences: [], reasons } }) as unknown as Way;
const does = (...of: Parameters<typeof next_tries>) => next_tries(...of).map((t) => t.does);

describe('what to try next', () => {
  it('is nothing for a way that is not outside its limits, unless another is better', () => {
    expect(does(way('quick', 'close_to', 0.03), [way('sure', 'within', 0)], 'clear', 'Europe/Oslo')).toEqual(['take']);
    expect(does(way('quick', 'close_to', 0.01, reason('unsure_leg', 2, 'close_to')), [], 'clear', 'Europe/Oslo')).toEqual([]);
  });
  it('names the end, the start or a place between, by the leg that fails', () => {
    expect(does(way('quick', 'outside', 0.7, reason('keep_off', null), reason('keep_off', 6)), [], 'clear', 'Europe/Oslo')).toEqual(['move_end']);
    expect(does(way('quick', 'outside', 0.7, reason('lost_leg', 1)), [], 'clear', 'Europe/Oslo')).toEqual(['move_start']);
    expect(next_tries(way('quick', 'outside', 0.7, reason('keep_off', 3)), [], 'clear', 'Europe/Oslo')).toEqual([{ does: 'between', leg: 3 }]);
  });
  it('offers a way with a better verdict first, never one that is as bad', () => {
    const bad = way('quick', 'outside', 0.2, reason('keep_off', 6));
    expect(next_tries(bad, [bad, way('middle', 'outside', 0.2), way('sure', 'close_to', 0.01)], 'clear', 'Europe/Oslo')[0]).toMatchObject({ does: 'take', way: { name: 'sure' } });
    expect(does(bad, [bad, way('middle', 'outside', 0.2)], 'clear', 'Europe/Oslo')).toEqual(['move_end']);
  });
  it('asks for another hour for the dark, and for clear air where the party is in cloud', () => {
    expect(does(way('quick', 'outside', 0, reason('dark', null), reason('back_too_late', null)), [], 'clear', 'Europe/Oslo')).toEqual(['earlier']);
    expect(does(way('quick', 'outside', 0, reason('dark_start', null)), [], 'clear', 'Europe/Oslo')).toEqual(['later']);
    // Never both; and where the times are UTC, the clock first.
    expect(does(way('quick', 'outside', 0, reason('dark', null), reason('dark_start', null)), [], 'clear', 'Europe/Oslo')).toEqual(['later']);
    expect(does(way('quick', 'outside', 0, reason('dark_start', null)), [], 'clear', 'UTC')).toEqual(['clock']);
    expect(does({ ...way('quick', 'outside', 0, reason('never_home', null)), weakest_leg: 2 }, [], 'clear', 'UTC')).toEqual(['between']);
    expect(does(way('quick', 'outside', 0.3, reason('keep_off', 2)), [], 'cloud', 'Europe/Oslo')).toEqual(['between', 'clear']);
  });
});
