/// Where a leg's number and bearing stand: clear of lines, of each other and of the window's edge.
import { along, drawn_length, type Px } from './pen';

export interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}
export const overlap = (a: Box, b: Box) =>
  Math.max(0, Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x)) *
  Math.max(0, Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y));
const inside = ([x, y]: Px, b: Box, edge: number) =>
  x > b.x - edge && x < b.x + b.w + edge && y > b.y - edge && y < b.y + b.h + edge;

/** Places of the drawn lines, close enough that no tag slips between two of them. */
export function dots(lines: readonly (readonly Px[])[]): Px[] {
  return lines.flatMap((line) => {
    const n = Math.max(1, Math.ceil(drawn_length(line) / 7));
    return n > 2000 ? [] : Array.from({ length: n + 1 }, (_, i) => along(line, i / n).at);
  });
}

/** The best of the places beside `line` for a box of w by h; `gap` is what stays free to the line.
 * Null when every place lies outside of `window`. */
export function place(line: readonly Px[], w: number, h: number, gap: number, taken: readonly Box[],
  lines: readonly Px[], window: Box): Box | null {
  let best: Box | null = null, least = Infinity;
  for (const [rank, share] of [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8].entries()) {
    const { at, turn } = along(line, share);
    for (const side of [1, -1]) {
      for (const more of [0, 10, 22]) {
        const nx = -Math.sin(turn) * side, ny = Math.cos(turn) * side;
        const out = gap + more + (Math.abs(nx) * w + Math.abs(ny) * h) / 2;
        const box = { x: at[0] + nx * out - w / 2, y: at[1] + ny * out - h / 2, w, h };
        if (box.x < window.x || box.y < window.y || box.x + w > window.x + window.w || box.y + h > window.y + window.h) continue;
        const cost =
          taken.reduce((sum, b) => sum + overlap(box, b), 0) * 2 +
          lines.filter((p) => inside(p, box, 3)).length * 60 + rank * 8 + more * 2;
        if (cost < least) [best, least] = [box, cost];
      }
    }
  }
  return best;
}

/** Where a name stands beside its place: right of it if that is free, then left, above, below. */
export function beside([x, y]: Px, w: number, h: number, gap: number, taken: readonly Box[], window: Box): Box {
  const ways: Px[] = [[x + gap, y - h / 2], [x - gap - w, y - h / 2], [x - w / 2, y - gap - h], [x - w / 2, y + gap]];
  const cost = (b: Box) =>
    taken.reduce((sum, t) => sum + overlap(b, t), 0) + (w * h - overlap(b, window));
  const boxes = ways.map(([bx, by]) => ({ x: bx, y: by, w, h }));
  return boxes.reduce((best, box) => (cost(box) < cost(best) - 1e-6 ? box : best));
}
