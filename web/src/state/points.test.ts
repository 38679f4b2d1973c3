import { describe, expect, it } from 'vitest';
import type { Leg, Point, Way } from '../api/types';
import { at_text, dragged, move, part, put, without } from './points';

const p = (name: string): Point => ({ name, at: name });
const leg = (n: number, ends_point: number | null, along: number[] = []): Leg =>
  ({ leg: n, from: `f${n}`, to: `t${n}`, ends_point, kind: along.includes(n) ? 'along' : 'bearing', line: [[n * 10, 0], [n * 10 + 10, 0]] }) as unknown as Leg;
const way = (...ends: (number | null)[]) => ({ legs: ends.map((e, i) => leg(i + 1, e)) }) as unknown as Way;
const names = (points: Point[]) => points.map((x) => `${x.name}${x.get_here === 'bearing' ? '!' : ''}`);
const to: Point = { at: '5 5' };

describe('points', () => {
  it('are put, moved and taken out without touching the old list', () => {
    const list = [p('a'), p('b'), p('c')];
    expect(put(list, 2, p('x'), true).map((q) => q.name)).toEqual(['a', 'b', 'x', 'c']);
    expect(put(list, 1, p('x'), false).map((q) => q.name)).toEqual(['a', 'x', 'c']);
    expect(move(list, 2, -1).map((q) => q.name)).toEqual(['a', 'c', 'b']);
    expect(move(list, 0, -1)).toEqual(list);
    expect(without(list, 1).map((q) => q.name)).toEqual(['a', 'c']);
  });
  it('are called by their part', () => {
    expect([0, 1, 2].map((i) => part(i, 3))).toEqual(['Start', 'Via 1', 'End']);
    expect(part(0, 1)).toBe('Start');
  });
  it('are written in whole metres of the grid', () => expect(at_text([481949.4, 6050539.9999])).toBe('481949 6050540'));
});

describe("a leg's end, dragged", () => {
  it("moves the leader's own point and keeps its name", () => {
    const made = dragged([p('S'), p('V'), p('E')], way(2, 3), 1, to);
    expect(names(made)).toEqual(['S', 'V!', 'E!']);
    expect(made[1]!.at).toBe('5 5');
  });
  it('pins the ends that the search had found', () => {
    const made = dragged([p('S'), p('E')], way(null, null, null, 2), 2, to);
    expect(names(made)).toEqual(['S', 'f2', 'undefined!', 't3!', 'E']);
    expect(made[3]!.at).toBe('40 0');
  });
  it('keeps what comes after, and what came before', () => {
    const made = dragged([p('S'), p('V'), p('W'), p('E')], way(null, 2, null, 3, 4), 3, to);
    expect(names(made)).toEqual(['S', 'V', 'undefined!', 'W!', 'E']);
  });
  it('leaves to the search what goes along a line', () => {
    const lines = { legs: [leg(1, null, [1]), leg(2, null, [2]), leg(3, 2)] } as unknown as Way;
    expect(names(dragged([p('S'), p('E')], lines, 1, to))).toEqual(['S', 'undefined', 'E']);
    expect(names(dragged([p('S'), p('E')], lines, 2, to))).toEqual(['S', 'f2', 'undefined', 'E!']);
  });
  it("moves the way's end", () => {
    expect(names(dragged([p('S'), p('E')], way(null, 2), 2, to))).toEqual(['S', 'f2', 'E!']);
  });
});
