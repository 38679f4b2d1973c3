/// Where the party may be: two areas under the names, lettered squares over them.
import type { LikelyAreas, Line } from '../api/types';
import type { Inks } from './inks';
import { on_screen, stroke, type Px, type ToPx } from './pen';
import { beside, type Box } from './tags';

type C = CanvasRenderingContext2D;

export interface WhereScene {
  areas: LikelyAreas;
  places: { at: readonly number[]; letter: string; share: number }[];
  /** The last sure place. */
  last: readonly number[] | null;
  /** Of the move, from grid north; null: none, or none on a bearing. */
  move_rad: number | null;
}

/** Rings and their holes as one path. */
function rings(c: C, lines: readonly Line[], to_px: ToPx): void {
  c.beginPath();
  for (const line of lines) {
    on_screen(line, to_px).forEach(([x, y], i) => (i ? c.lineTo(x, y) : c.moveTo(x, y)));
    c.closePath();
  }
}

/** Half: full ink and a whole edge. Nine in ten: pale, a broken edge. Told apart without hue. */
export function draw_likely(c: C, scene: WhereScene, to_px: ToPx, inks: Inks): void {
  rings(c, scene.areas.nine_in_ten, to_px);
  c.fillStyle = inks.lamp_pale;
  c.fill('evenodd');
  stroke(c, inks.night, 1.6, [5, 3]);
  rings(c, scene.areas.half, to_px);
  c.globalAlpha = 0.75;
  c.fillStyle = inks.lamp;
  c.fill('evenodd');
  c.globalAlpha = 1;
  stroke(c, inks.night, 1.8);
}

export function draw_letters(c: C, scene: WhereScene, to_px: ToPx, inks: Inks, window: Box, taken: Box[]): void {
  if (scene.last) {
    const [x, y] = to_px(scene.last);
    c.beginPath();
    c.arc(x, y, 8, 0, 7);
    stroke(c, inks.halo, 7);
    stroke(c, inks.night, 3.5);
    taken.push({ x: x - 11, y: y - 11, w: 22, h: 22 });
  }
  for (const { at, letter, share } of scene.places) {
    const [x, y] = to_px(at);
    if (scene.move_rad !== null) arrow(c, [x, y], scene.move_rad, inks);
    c.fillStyle = inks.paper;
    c.fillRect(x - 12, y - 12, 24, 24);
    c.beginPath();
    c.rect(x - 12, y - 12, 24, 24);
    stroke(c, inks.night, 2.5);
    taken.push({ x: x - 15, y: y - 15, w: 30, h: 30 });
    c.fillStyle = inks.night;
    c.font = '700 16px B612, sans-serif';
    c.textAlign = 'center';
    c.textBaseline = 'middle';
    c.fillText(letter, x, y + 1);
    const words = String(Math.round(100 * share)), box = beside([x, y], 11 * words.length, 17, 17, taken, window);
    taken.push(box);
    c.lineJoin = 'round';
    c.strokeStyle = inks.halo;
    c.lineWidth = 5;
    c.strokeText(words, box.x + box.w / 2, box.y + 9);
    c.fillText(words, box.x + box.w / 2, box.y + 9);
    c.textAlign = 'left';
  }
}

/** Two chevrons the way that the move goes. */
function arrow(c: C, [x, y]: Px, turn: number, inks: Inks): void {
  c.save();
  c.translate(x, y);
  c.rotate(turn);
  for (const at of [-22, -30]) {
    c.beginPath();
    c.moveTo(-7, at + 6);
    c.lineTo(0, at);
    c.lineTo(7, at + 6);
    stroke(c, inks.halo, 6);
    stroke(c, inks.haven, 3);
  }
  c.restore();
}
