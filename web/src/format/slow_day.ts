import type { Schedule } from '../api/types';

/** Minutes from a slow day's end to last light; negative: it ends after it. Null: there is no last light, or no hour can be named. */
export const slow_to_dusk_min = (s: Pick<Schedule, 'civil_dusk_clock_min' | 'end_slow_clock_min'>): number | null =>
  s.civil_dusk_clock_min === null || s.end_slow_clock_min === null ? null : s.civil_dusk_clock_min - s.end_slow_clock_min;
