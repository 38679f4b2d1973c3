/// Which of a leg's escape routes is shown, and what its steps are called.
import type { Escape, Leg } from '../api/types';

/** The one that was asked for; else from half way, as the card has it; else what there is. */
export function chosen_escape(leg: Pick<Leg, 'escapes'>, wanted: Escape['from']): Escape | null {
  const from = (place: Escape['from']) => leg.escapes.find((e) => e.from === place);
  return from(wanted) ?? from('middle') ?? from('start') ?? leg.escapes[0] ?? null;
}
/** a, b, c … z, then a1: a route has a handful of steps. */
export const step_letter = (i: number) => String.fromCharCode(97 + (i % 26)) + (i < 26 ? '' : String(Math.floor(i / 26)));
