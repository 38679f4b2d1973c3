import { describe, expect, it } from 'vitest';
import type { Escape } from '../api/types';
import { chosen_escape, step_letter } from './escapes';

const routes = (...from: Escape['from'][]) => ({ escapes: from.map((f) => ({ from: f }) as Escape) });

describe('escape routes', () => {
  it('shows the one asked for, else that from half way, else that from the start', () => {
    expect(chosen_escape(routes('start', 'middle', 'end'), 'end')?.from).toBe('end');
    expect(chosen_escape(routes('start', 'middle'), 'end')?.from).toBe('middle');
    expect(chosen_escape(routes('start', 'end'), 'middle')?.from).toBe('start');
    expect(chosen_escape(routes(), 'middle')).toBeNull();
  });
  it('letters its steps', () => {
    expect([0, 1, 25, 26].map(step_letter)).toEqual(['a', 'b', 'z', 'a1']);
  });
});
