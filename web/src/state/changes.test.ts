import { describe, expect, it } from 'vitest';
import type { TripState } from '../api/types';
import { apply, at, pointer, squeeze } from './changes';

const state: TripState = {
  document: { name: 'Round', party: { size: 4 } },
  ground_id: 'g', chosen_way: null, sheets: null,
};

describe('changes of a trip', () => {
  it('sets a key, makes tables on the way, and leaves the original alone', () => {
    const changed = apply(state, [
      { path: '/document/party/size', value: 5 },
      { path: '/document/home/contact', value: 'A. Holder' },
    ]);
    expect(changed.document.party?.size).toBe(5);
    expect(changed.document.home?.contact).toBe('A. Holder');
    expect(state.document.party?.size).toBe(4);
    expect(state.document.home).toBeUndefined();
  });
  it('takes a key out with null, but keeps the four that may be null', () => {
    const changed = apply(state, [{ path: '/document/name', value: null }, { path: '/ground_id', value: null }]);
    expect('name' in changed.document).toBe(false);
    expect(changed.ground_id).toBeNull();
  });
  it('reads a pointer, with its two escapes', () => {
    expect(at({ 'a/b': { 'c~d': 7 } }, '/a~1b/c~0d')).toBe(7);
    expect(at(state, '/document/home/contact')).toBeUndefined();
  });
  it('sends only the last value of a key, in the order of the last touch', () => {
    const a = { path: '/a', value: 1 }, b = { path: '/b', value: 2 }, a2 = { path: '/a', value: 3 };
    expect(squeeze([a, b, a2])).toEqual([b, a2]);
  });
  it('knows the pointer of a key', () => {
    expect(pointer('party.errors.distance_sigma')).toBe('/document/party/errors/distance_sigma');
  });
});
