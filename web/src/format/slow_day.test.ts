import { expect, it } from 'vitest';
import { slow_to_dusk_min } from './slow_day';

it('counts from the slow day, not from the planned one', () => {
  expect(slow_to_dusk_min({ civil_dusk_clock_min: 1020, end_slow_clock_min: 1050 })).toBe(-30);
  expect(slow_to_dusk_min({ civil_dusk_clock_min: 1020, end_slow_clock_min: null })).toBeNull();
  expect(slow_to_dusk_min({ civil_dusk_clock_min: null, end_slow_clock_min: 1050 })).toBeNull();
});
