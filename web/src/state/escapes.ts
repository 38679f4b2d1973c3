/// Which of a leg's escape routes is shown, and what its steps are called.
import type { Escape, Leg } from '../api/types';

/** The one that was asked for; else from half way, as the card has it; else what there is. */
export function chosen_escape(leg: Pick<Leg, 'escapes'>, wanted: Escape['from']): Escape | null {
  const from = (place: Escape['from']) => leg.escapes.find((e) => e.from === place);
  return from(wanted) ?? from('middle') ?? from('start') ?? leg.escapes[0] ?? null;
}
/** It leads to the leg's own end as the leg does, in one step: no other way to be told. */
export function is_the_leg(leg: Pick<Leg, 'kind' | 'line'>, route: Pick<Escape, 'from' | 'legs' | 'the_way_they_came'>): boolean {
  const [step, ...more] = route.legs;
  if (!step || more.length || route.from === 'end' || route.the_way_they_came || step.kind !== leg.kind) return false;
  const end = leg.line.at(-1)!, there = step.line.at(-1)!;
  return Math.hypot(end[0] - there[0], end[1] - there[1]) < 30;
}
/** a, b, c … z, then a1: a route has a handful of steps. */
export const step_letter = (i: number) => String.fromCharCode(97 + (i % 26)) + (i < 26 ? '' : String(Math.floor(i / 26)));
