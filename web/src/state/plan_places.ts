/// Putting a place in the order of the trip: pure, one answer a whole new list.
import type { Point } from '../api/types';

export type Role = 'start' | 'end' | 'via' | 'next';

/** Where a new place goes: `next` is the start, then the end, then before nothing: the way grows at its end. */
export function index_for(role: Role, count: number): number {
  if (role === 'start') return 0;
  if (role === 'via') return Math.max(1, count - 1);
  return count;
}
/** `start` and `end` take the place of the one there was; `via` comes before the end; `next` after it. */
export function with_place(points: readonly Point[], point: Point, role: Role): { points: Point[]; index: number } {
  const copy = [...points];
  if (role === 'start' && copy.length) {
    copy[0] = { ...point };
    return { points: copy, index: 0 };
  }
  if (role === 'end' && copy.length > 1) {
    const last = copy[copy.length - 1]!;
    copy[copy.length - 1] = { ...(last.get_here ? { get_here: last.get_here } : {}), ...point };
    return { points: copy, index: copy.length - 1 };
  }
  const index = Math.min(index_for(role, copy.length), copy.length);
  copy.splice(index, 0, { ...point });
  return { points: copy, index };
}
/** "S", "1", "2", "E": beside the rings. */
export const letter = (index: number, count: number) => (index === 0 ? 'S' : index === count - 1 && count > 1 ? 'E' : String(index));

/** Home by the same places. */
export const turned_round = (points: readonly Point[]): Point[] =>
  [...points].reverse().map(({ name, at, stay_min }, i) => ({ ...(name ? { name } : {}), at, ...(i > 0 && stay_min ? { stay_min } : {}) }));
