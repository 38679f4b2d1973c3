import { describe, expect, it } from 'vitest';
import { next_of } from './roving';

describe('one stop, arrows within', () => {
  it('goes on, back, to the first and the last, and not past either', () => {
    expect(next_of(0, 3, 'ArrowRight', 'row')).toBe(1);
    expect(next_of(2, 3, 'ArrowRight', 'row')).toBe(2);
    expect(next_of(0, 3, 'ArrowLeft', 'row')).toBe(0);
    expect(next_of(1, 3, 'End', 'row')).toBe(2);
    expect(next_of(1, 3, 'Home', 'row')).toBe(0);
  });
  it('leaves to a column of fields what moves within a field', () => {
    expect(next_of(1, 3, 'ArrowDown', 'column')).toBe(2);
    for (const key of ['ArrowLeft', 'ArrowRight', 'Home', 'End']) expect(next_of(1, 3, key, 'column')).toBeNull();
  });
});
