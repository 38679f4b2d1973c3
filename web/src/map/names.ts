/// Names on the map: they give way to rings, numbers and slips, and a place of the trip is written once.
import type { MapName } from '../api/types';
import type { Inks } from './inks';
import { overlap, type Box } from './tags';
import type { Px, ToPx } from './pen';

interface Style {
  font: string;
  size: number;
  ink: 'ink' | 'tarn' | 'stone';
  /** Metres a pixel up to which it is written. */
  until: number;
}
const sans = '"Noto Sans", sans-serif', serif = '"Noto Serif", Georgia, serif';
const bold = (size: number): Style => ({ font: `700 ${size}px ${sans}`, size, ink: 'ink', until: 60 });
const plain = (size: number, until = 9): Style => ({ font: `${size}px ${sans}`, size, ink: 'ink', until });
const slanted = (size: number, until = 12): Style => ({ font: `italic ${size}px ${sans}`, size, ink: 'ink', until });
const water = (size: number, until = 20): Style => ({ font: `italic ${size}px ${serif}`, size, ink: 'tarn', until });
const stone = (size: number, until = 7): Style => ({ font: `${size}px ${sans}`, size, ink: 'stone', until });
const styles: Record<string, Style> = {
  summit: bold(15), lake: water(15, 30), sea: water(17, 60), settlement: bold(14), saddle: slanted(13), hut: plain(13, 14),
  shelter: plain(12), bridge: plain(12.5, 8), river: water(14), stream: water(13, 9), cliff: slanted(12, 7), building: plain(12, 7),
  ruin: plain(12, 7), waterfall: water(12, 7), mast: plain(12, 7), marsh: slanted(12.5, 8), wood: stone(13, 10),
  forbidden: bold(13), road: stone(12), wall: stone(12, 5), path: slanted(12, 5),
  spot_height: { font: '12px B612, sans-serif', size: 12, ink: 'ink', until: 7 },
};
const over = new Set(['lake', 'sea', 'wood', 'marsh', 'forbidden']);
const with_height = new Set(['summit', 'spot_height']);

export interface Written {
  words: string;
  /** The middle of its box. */
  at: Px;
  turn: number;
  style: Style;
}

const boxes_along = (x: number, y: number, w: number, h: number, turn: number): Box[] => {
  if (Math.abs(turn) < 0.05) return [{ x: x - w / 2, y: y - h / 2, w, h }];
  const n = Math.max(1, Math.ceil(w / h));
  return Array.from({ length: n }, (_, i) => {
    const d = ((i + 0.5) / n - 0.5) * w;
    return { x: x + d * Math.cos(turn) - h / 2, y: y + d * Math.sin(turn) - h / 2, w: h, h };
  });
};

/** `own`: places of the trip, which are written with their rings; a name of the map that is one of them is left out. */
export function place_names(names: readonly MapName[], own: readonly { at: readonly number[]; name: string }[], taken: Box[],
  dots: readonly Px[], to_px: ToPx, resolution: number, window: Box, measure: (words: string, font: string) => number): Written[] {
  const out: Written[] = [];
  const free = (boxes: readonly Box[], lines: boolean) => boxes.every((b) =>
    b.x >= window.x && b.y >= window.y && b.x + b.w <= window.x + window.w && b.y + b.h <= window.y + window.h &&
    taken.every((t) => overlap(b, t) === 0) &&
    (!lines || dots.every(([x, y]) => x < b.x - 3 || x > b.x + b.w + 3 || y < b.y - 3 || y > b.y + b.h + 3)));
  const write = (words: string, at: Px, turn: number, style: Style, boxes: Box[]) => {
    taken.push(...boxes);
    out.push({ words, at, turn, style });
  };
  const near = 40;
  for (const n of names) {
    const style = styles[n.kind];
    if (!style || resolution > style.until) continue;
    const mine = own.some((p) => {
      if (p.name && n.name && p.name === n.name && !n.spots.length) return true;
      const [x, y] = to_px(p.at), [a, b] = to_px(n.at_grid_m);
      return !n.spots.length && !over.has(n.kind) && Math.hypot(x - a, y - b) < 14;
    });
    if (mine) continue;
    const height = with_height.has(n.kind) && n.height_m ? String(Math.round(n.height_m)) : '';
    const level = n.kind === 'lake' && n.height_m ? String(Math.round(n.height_m)) : '';
    const words = [n.name, height].filter(Boolean).join(' ') || level;
    if (!words) continue;
    const w = measure(words, style.font) + 4, h = style.size + 3;
    if (n.spots.length) {
      let last: Px[] = [];
      for (const [e, k, bearing] of n.spots) {
        const at = to_px([e!, k!]);
        if (last.some(([x, y]) => Math.hypot(x - at[0], y - at[1]) < 420)) continue;
        let turn = ((bearing! - 90) * Math.PI) / 180;
        if (turn > Math.PI / 2) turn -= Math.PI;
        if (turn < -Math.PI / 2) turn += Math.PI;
        const off = style.size * 0.75;
        for (const side of [-1, 1]) {
          const middle: Px = [at[0] - Math.sin(turn) * off * -side, at[1] + Math.cos(turn) * off * side];
          const boxes = boxes_along(middle[0], middle[1], w, h, turn);
          if (!free(boxes, true)) continue;
          write(words, middle, turn, style, boxes);
          last = [...last, at];
          break;
        }
      }
      continue;
    }
    const [x, y] = to_px(n.at_grid_m);
    if (x < window.x - near || y < window.y - near || x > window.x + window.w + near || y > window.y + window.h + near) continue;
    const tries: Px[] = over.has(n.kind)
      ? [[x, y], [x, y - h], [x, y + h]]
      : [[x + 9 + w / 2, y], [x - 9 - w / 2, y], [x, y - 8 - h / 2], [x, y + 8 + h / 2]];
    for (const middle of tries) {
      const boxes = boxes_along(middle[0], middle[1], w, h, 0);
      if (!free(boxes, true)) continue;
      write(words, middle, 0, style, boxes);
      break;
    }
  }
  return out;
}

export function draw_names(c: CanvasRenderingContext2D, written: readonly Written[], inks: Inks): void {
  c.textAlign = 'center';
  c.textBaseline = 'middle';
  c.lineJoin = 'round';
  for (const { words, at: [x, y], turn, style } of written) {
    c.save();
    c.translate(x, y);
    c.rotate(turn);
    c.font = style.font;
    c.strokeStyle = inks.halo;
    c.lineWidth = 3.5;
    c.strokeText(words, 0, 0);
    c.fillStyle = inks[style.ink];
    c.fillText(words, 0, 0);
    c.restore();
  }
  c.textAlign = 'left';
}
