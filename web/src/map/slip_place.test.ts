import { describe, expect, it } from 'vitest';
import { slip_place } from './slip_place';

const pane = { x: 0, y: 0, w: 800, h: 600 };
describe('a slip', () => {
  it('never covers the place it speaks of, wherever that is', () => {
    for (const x of [0, 5, 400, 795]) for (const y of [0, 5, 300, 595]) {
      const b = slip_place([x, y], 240, 120, pane, [], []);
      expect(b.x >= 0 && b.y >= 0 && b.x + b.w <= 800 && b.y + b.h <= 600).toBe(true);
      expect(x > b.x && x < b.x + b.w && y > b.y && y < b.y + b.h).toBe(false);
    }
  });
  it('stands on the side with the least of the way under it', () => {
    const right_below = Array.from({ length: 30 }, (_, i) => [420 + i * 5, 330 + i * 3] as [number, number]);
    const b = slip_place([400, 300], 200, 100, pane, right_below, []);
    expect(right_below.filter(([x, y]) => x > b.x && x < b.x + b.w && y > b.y && y < b.y + b.h)).toEqual([]);
  });
  it('keeps off rings', () => {
    const ring = { x: 430, y: 330, w: 22, h: 22 };
    const b = slip_place([400, 300], 200, 100, pane, [], [ring]);
    expect(b.x + b.w <= ring.x || b.x >= ring.x + ring.w || b.y + b.h <= ring.y || b.y >= ring.y + ring.h).toBe(true);
  });
});
