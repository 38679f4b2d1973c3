import { describe, expect, it } from 'vitest';
import { letter, turned_round, with_place } from './plan_places';

const p = (at: string) => ({ at });
const at = (list: { at: string }[]) => list.map((x) => x.at).join(' ');
describe('places in their order', () => {
  it('each next one is after the last', () => {
    expect(at(with_place([], p('a'), 'next').points)).toBe('a');
    expect(at(with_place([p('a'), p('b')], p('c'), 'next').points)).toBe('a b c');
  });
  it('a start and an end take the place of the old one', () => {
    expect(at(with_place([p('a'), p('b')], p('c'), 'start').points)).toBe('c b');
    expect(at(with_place([p('a'), p('b')], p('c'), 'end').points)).toBe('a c');
    expect(at(with_place([p('a')], p('c'), 'end').points)).toBe('a c');
    expect(at(with_place([], p('c'), 'start').points)).toBe('c');
  });
  it('a via comes before the end', () => {
    expect(with_place([p('a'), p('b')], p('c'), 'via')).toEqual({ points: [p('a'), p('c'), p('b')], index: 1 });
  });
  it('the other way round keeps names and stays, but none at the new start', () => {
    expect(turned_round([{ at: 'a', name: 'A' }, { at: 'b', stay_min: 5 }, { at: 'c', stay_min: 9, get_here: 'bearing' }]))
      .toEqual([{ at: 'c' }, { at: 'b', stay_min: 5 }, { at: 'a', name: 'A' }]);
  });
  it('letters', () => expect([0, 1, 2].map((i) => letter(i, 3))).toEqual(['S', '1', 'E']));
});
