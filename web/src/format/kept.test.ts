import { expect, it } from 'vitest';
import { kept_of } from './kept';

it('says the low end of a certainty, where it is known', () => {
  expect(kept_of({ certainty: 0.9, certainty_low: 0.86 })).toBe(0.86);
  expect(kept_of({ certainty: 0.9, certainty_low: null })).toBe(0.9);
  expect(kept_of({ certainty: 0.9, certainty_low: 0.91 })).toBe(0.9);
});
