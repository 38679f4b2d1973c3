import { describe, expect, it } from 'vitest';
import { answer_words, answered, last_parts, last_text, lettered, with_thing, without_told } from './where';

const answer = (key: string, text: string) => ({ words: '', key, text, chance: 0.5, place: null, place_share: 0 });

describe('what is told of a place', () => {
  it('tells nothing that is empty', () => {
    expect(without_told({ height: '', on: [], leg: 0, falls: '90' })).toEqual({ falls: '90' });
  });
  it('takes back what was told of the same thing', () => {
    expect(with_thing({ on: ['path, 40', 'stream'] }, 'on', 'no path')).toEqual({ on: ['stream', 'no path'] });
    expect(with_thing({ not_seen: ['Harrik Pike'] }, 'sees', 'Harrik Pike, 312')).toEqual({ sees: ['Harrik Pike, 312'] });
  });
  it('makes an answer a telling', () => {
    expect(answered({}, answer('height', '640'))).toEqual({ height: '640' });
    expect(answered({ beside: ['stream'] }, answer('beside', 'wall, 270'))).toEqual({ beside: ['stream', 'wall, 270'] });
    expect(answered({ height: '1' }, answer('', ''))).toEqual({ height: '1' });
  });
  it('parts the words of an answer, with letters for places', () => {
    expect(answer_words('to the north-east (31 in 100): place 2 has 62 in 100'))
      .toEqual({ key: 'to the north-east', means: 'place B has 62 in 100' });
    expect(answer_words('gentle (5 to 12°) (20 in 100): no place stands out'))
      .toEqual({ key: 'gentle (5 to 12°)', means: 'no place stands out' });
    expect(lettered('place 1, then place 4')).toBe('place A, then place D');
    expect(answer_words('nach Nordosten (31 von 100): Ort 2 hat 62 von 100')).toEqual({ key: 'nach Nordosten', means: 'Ort B hat 62 von 100' });
  });
  it('writes and reads the last sure place', () => {
    expect(last_text('482595 6052025', '25', '20')).toBe('482595 6052025, 25 min, 20');
    expect(last_text('Quenna Hause', '25', '')).toBe('Quenna Hause, 25 min');
    expect(last_text('', '25', '')).toBe('');
    expect(last_parts('482595 6052025, 25 min, 20')).toEqual({ place: '482595 6052025', minutes: '25', heading: '20' });
    expect(last_parts('X, Y, 5 min')).toEqual({ place: 'X, Y', minutes: '5', heading: '' });
  });
});
