/// Which of a leg's escape routes is shown, and what its steps are called.
import type { Escape, Leg, Line } from '../api/types';

/** The one that was asked for; else from half way, as the card has it; else what there is. */
export function chosen_escape(leg: Pick<Leg, 'escapes'>, wanted: Escape['from']): Escape | null {
  const from = (place: Escape['from']) => leg.escapes.find((e) => e.from === place);
  return from(wanted) ?? from('middle') ?? from('start') ?? leg.escapes[0] ?? null;
}
/** So near a line that one is on it: where a path ends at a road, the last steps may differ. Practice. */
const beside_m = 50;
/** Metres from a place to a line. */
function off(line: Line, [x, y]: readonly number[]): number {
  return Math.min(...line.slice(1).map(([bx, by], i) => {
    const [ax, ay] = line[i]!, dx = bx! - ax!, dy = by! - ay!;
    const t = Math.min(1, Math.max(0, ((x! - ax!) * dx + (y! - ay!) * dy) / (dx * dx + dy * dy || 1)));
    return Math.hypot(x! - ax! - t * dx, y! - ay! - t * dy);
  }));
}
/** It goes on along the leg's own line, in one step, to its end or to a place before it: no other way to be told. */
export function is_the_leg(leg: Pick<Leg, 'kind' | 'line'>, route: Pick<Escape, 'from' | 'legs' | 'the_way_they_came'>): boolean {
  const [step, ...more] = route.legs;
  if (!step || more.length || route.from === 'end' || route.the_way_they_came || step.kind !== leg.kind) return false;
  const end = leg.line.at(-1)!, [here, there] = [step.line[0]!, step.line.at(-1)!];
  const to_end = (p: readonly number[]) => Math.hypot(end[0]! - p[0]!, end[1]! - p[1]!);
  return step.line.every((p) => off(leg.line, p) < beside_m) && to_end(there) < to_end(here);
}
/** a, b, c … z, then a1: a route has a handful of steps. */
export const step_letter = (i: number) => String.fromCharCode(97 + (i % 26)) + (i < 26 ? '' : String(Math.floor(i / 26)));
