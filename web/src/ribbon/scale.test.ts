import { describe, expect, it } from 'vitest';
import type { Daylight, Schedule } from '../api/types';
import { hours, pack, scale, x_of } from './scale';

const day: Daylight = {
  civil_dawn: '07:25', civil_dawn_clock_min: 445, rise: '08:05', rise_clock_min: 485,
  set: '16:37', set_clock_min: 997, civil_dusk: '17:17', civil_dusk_clock_min: 1037, state: null,
};

describe('the axis', () => {
  it('holds the day in whole hours', () => {
    expect(hours(day, null, 675)).toEqual({ first: 420, last: 1080 });
  });
  it('grows for a way that leaves before dawn or ends after dark', () => {
    const schedule = { start_clock_min: 380, end_slow_clock_min: 1090, turn_round_clock_min: null } as unknown as Schedule;
    expect(hours(day, schedule, 380)).toEqual({ first: 360, last: 1140 });
  });
  it('has hours where the sun does not set', () => {
    const none = {
      civil_dawn: null, civil_dawn_clock_min: null, rise: null, rise_clock_min: null,
      set: null, set_clock_min: null, civil_dusk: null, civil_dusk_clock_min: null, state: 'the sun does not set',
    };
    expect(hours(none, null, null)).toEqual({ first: 420, last: 1080 });
  });
  it('scrolls rather than shrinks', () => {
    expect(scale({ first: 420, last: 1080 }, 390, 120).width).toBe(1320);
    const wide = scale({ first: 420, last: 1080 }, 1100, 96);
    expect(wide.width).toBe(1100);
    expect(x_of(wide, 480)).toBe(100);
  });
});

describe('keys', () => {
  const clear = (keys: { x: number; w: number }[]) =>
    keys.every((k, i) => i === 0 || keys[i - 1]!.x + keys[i - 1]!.w <= k.x + 1e-9);
  it('stay where they are when there is room', () => {
    const keys = [{ x: 10, w: 50 }, { x: 70, w: 30 }];
    expect(pack(keys, 24, 2, 500)).toEqual(keys);
  });
  it('widen to what a finger needs, around their own time', () => {
    expect(pack([{ x: 100, w: 4 }], 24, 2, 500)).toEqual([{ x: 90, w: 24 }]);
  });
  it('never cover one another nor leave the ribbon', () => {
    const crowd = Array.from({ length: 9 }, (_, i) => ({ x: 440 + i * 5, w: 5 }));
    const placed = pack(crowd, 24, 2, 500);
    expect(clear(placed)).toBe(true);
    expect(placed[0]!.x).toBeGreaterThanOrEqual(0);
    expect(placed[8]!.x + 24).toBeLessThanOrEqual(500);
  });
});
