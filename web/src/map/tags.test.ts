import { describe, expect, it } from 'vitest';
import { along, drawn_length, reach, type Px } from './pen';
import { beside, dots, place, type Box } from './tags';

const window_: Box = { x: 0, y: 0, w: 400, h: 300 };
const flat: Px[] = [[50, 150], [350, 150]];

describe('lines on the screen', () => {
  it('walks along a bent line by its drawn length', () => {
    const bent: Px[] = [[0, 0], [30, 0], [30, 40]];
    expect(drawn_length(bent)).toBe(70);
    expect(along(bent, 0.5).at).toEqual([30, 5]);
    expect(along(bent, 1).at).toEqual([30, 40]);
  });
  it('knows how far a click is from a line', () => {
    expect(reach([200, 163], flat)).toBe(13);
    expect(reach([20, 110], flat)).toBe(50);
  });
});

describe('tags', () => {
  it('stand beside the middle of a free line', () => {
    const box = place(flat, 20, 20, 10, [], dots([flat]), window_)!;
    expect(box.x + 10).toBeCloseTo(200, 6);
    expect(Math.abs(box.y + 10 - 150)).toBe(20);
  });
  it('do not cover one another', () => {
    const first = place(flat, 60, 20, 10, [], dots([flat]), window_)!;
    const second = place(flat, 60, 20, 10, [first], dots([flat]), window_)!;
    expect(second.x >= first.x + 60 || first.x >= second.x + 60 || second.y >= first.y + 20 || first.y >= second.y + 20).toBe(true);
  });
  it('keep off other lines', () => {
    const other: Px[] = [[50, 170], [350, 170]];
    const box = place(flat, 20, 20, 10, [], dots([flat, other]), window_)!;
    expect(box.y + 20).toBeLessThan(150);
  });
  it('give a name the first free side of its place', () => {
    expect(beside([100, 100], 60, 16, 10, [], window_)).toEqual({ x: 110, y: 92, w: 60, h: 16 });
    expect(beside([380, 100], 60, 16, 10, [], window_).x).toBe(310);
    expect(beside([100, 100], 60, 16, 10, [{ x: 120, y: 90, w: 30, h: 30 }], window_).x).toBe(30);
  });
  it('are left out when the leg is not in the window', () => {
    expect(place([[900, 900], [950, 900]], 20, 20, 10, [], [], window_)).toBeNull();
  });
});
