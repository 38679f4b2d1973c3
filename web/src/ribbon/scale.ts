/// The clock as an axis: which hours are drawn, how wide, and where keys stand that would be too narrow.
import type { Daylight, Schedule } from '../api/types';

export interface Scale {
  first: number;
  last: number;
  per_minute: number;
  width: number;
}

/** Whole hours that hold the day from before dawn to after dusk, and the way with its slow day. */
export function hours(day: Daylight | null, schedule: Schedule | null, start: number | null): { first: number; last: number } {
  const dawn = day?.civil_dawn_clock_min ?? undefined, dusk = day?.civil_dusk_clock_min ?? undefined;
  const from = [dawn === undefined ? 420 : dawn - 20, ...(start === null ? [] : [start - 10])];
  const to = [dusk === undefined ? 1080 : dusk + 25];
  if (schedule) {
    from.push(schedule.start_clock_min - 10);
    to.push((schedule.end_slow_clock_min ?? schedule.end_clock_min) + 30);
    if (schedule.turn_round_clock_min !== null) to.push(schedule.turn_round_clock_min + 30);
  } else if (start !== null) to.push(start + 60);
  return { first: Math.floor(Math.min(...from) / 60) * 60, last: Math.ceil(Math.max(...to) / 60) * 60 };
}

/** Never narrower than `least` px an hour: then the ribbon scrolls. */
export function scale(range: { first: number; last: number }, window_px: number, least: number): Scale {
  const n = (range.last - range.first) / 60;
  const width = Math.max(window_px, n * least);
  return { ...range, per_minute: width / (range.last - range.first), width };
}
export const x_of = (s: Scale, minute: number) => (minute - s.first) * s.per_minute;

export const minute_at = (s: Scale, x: number) => s.first + x / s.per_minute;

export interface Key {
  x: number;
  w: number;
}
/**
 * Keys at least `least` wide that do not cover one another, each as near to its time as it can be: keys
 * that touch stand as one block, whose middle is the middle of where they would be.
 */
export function pack(keys: readonly Key[], least: number, gap: number, width: number): Key[] {
  interface Block { from: number; to: number; size: number; wish: number; n: number }
  const wide = keys.map((k) => Math.max(k.w, least));
  const blocks: Block[] = [];
  keys.forEach((key, i) => {
    const centre = key.x + key.w / 2;
    blocks.push({ from: i, to: i, size: wide[i]!, wish: centre, n: 1 });
    for (;;) {
      const b = blocks[blocks.length - 1]!, a = blocks[blocks.length - 2];
      if (!a || a.wish + a.size / 2 + gap <= b.wish - b.size / 2) break;
      blocks.splice(-2, 2, {
        from: a.from, to: b.to, size: a.size + gap + b.size, n: a.n + b.n,
        wish: (a.wish * a.n + b.wish * b.n) / (a.n + b.n),
      });
    }
  });
  const placed: Key[] = [];
  let free = 0;
  for (const b of blocks) {
    let x = Math.min(Math.max(b.wish - b.size / 2, free), Math.max(free, width - b.size));
    for (let i = b.from; i <= b.to; i++) {
      placed.push({ x, w: wide[i]! });
      x += wide[i]! + gap;
    }
    free = x;
  }
  return placed;
}
