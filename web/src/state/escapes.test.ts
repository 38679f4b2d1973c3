import { describe, expect, it } from 'vitest';
import type { Escape, Leg } from '../api/types';
import { chosen_escape, is_the_leg, step_letter } from './escapes';

const routes = (...from: Escape['from'][]) => ({ escapes: from.map((f) => ({ from: f }) as Escape) });

describe('escape routes', () => {
  it('shows the one asked for, else that from half way, else that from the start', () => {
    expect(chosen_escape(routes('start', 'middle', 'end'), 'end')?.from).toBe('end');
    expect(chosen_escape(routes('start', 'middle'), 'end')?.from).toBe('middle');
    expect(chosen_escape(routes('start', 'end'), 'middle')?.from).toBe('start');
    expect(chosen_escape(routes(), 'middle')).toBeNull();
  });
  it('knows a route that is the leg itself', () => {
    const leg = (kind: Leg['kind'], ...line: [number, number][]) => ({ kind, line }) as Leg;
    const route = (from: Escape['from'], legs: Leg[], back = false) => ({ from, legs, the_way_they_came: back });
    const last = leg('along', [0, 0], [400, 0]), rest = leg('along', [200, 0], [401, 3]);
    expect(is_the_leg(last, route('middle', [rest]))).toBe(true);
    expect(is_the_leg(last, route('middle', [leg('bearing', [200, 0], [400, 0])]))).toBe(false);
    expect(is_the_leg(last, route('middle', [leg('along', [200, 0], [200, 300])]))).toBe(false);
    // To a road that the leg comes to before its end; and back along it, which is not on.
    expect(is_the_leg(last, route('middle', [leg('along', [200, 0], [360, 2])]))).toBe(true);
    expect(is_the_leg(last, route('middle', [leg('along', [200, 0], [0, 0])]))).toBe(false);
    expect(is_the_leg(last, route('middle', [rest, rest]))).toBe(false);
    expect(is_the_leg(last, route('middle', [rest], true))).toBe(false);
    expect(is_the_leg(last, route('end', []))).toBe(false);
  });
  it('letters its steps', () => {
    expect([0, 1, 25, 26].map(step_letter)).toEqual(['a', 'b', 'z', 'a1']);
  });
});
