import type { Leg } from '../api/types';

/** Which figure of a leg's certainty is said: the low end of its range, as on paper and in the verdict. */
export const kept_of = (leg: Pick<Leg, 'certainty' | 'certainty_low'>): number => Math.min(leg.certainty, leg.certainty_low ?? leg.certainty);
