/// The legs: two rails beside what is followed, a bar with an arrow on a bearing.
import type { Leg } from '../api/types';
import type { Inks } from './inks';
import { along, drawn_length, mm, on_screen, stroke, trace, type Px, type ToPx } from './pen';
import { dots, place, type Box } from './tags';

const c2d = (canvas: HTMLCanvasElement) => canvas.getContext('2d')!;

/** Rails are drawn apart and hollowed, so that what is followed stays in view between them. */
export function draw_rails(c: CanvasRenderingContext2D, legs: readonly Leg[], to_px: ToPx, inks: Inks, ratio: number): void {
  const lines = legs.filter((l) => l.kind === 'along').map((l) => on_screen(l.line, to_px));
  if (!lines.length) return;
  const sheet = document.createElement('canvas');
  sheet.width = c.canvas.width;
  sheet.height = c.canvas.height;
  const s = c2d(sheet);
  s.scale(ratio, ratio);
  s.lineJoin = 'round';
  const all = (color: string, width: number) => lines.forEach((line) => (trace(s, line), stroke(s, color, width)));
  all(inks.halo, 2.79 * mm);
  all(inks.night, 2.26 * mm);
  all(inks.halo, 1.42 * mm);
  s.globalCompositeOperation = 'destination-out';
  all('#000', 0.95 * mm);
  c.save();
  c.setTransform(1, 0, 0, 1, 0, 0);
  c.drawImage(sheet, 0, 0);
  c.restore();
}

function arrow(c: CanvasRenderingContext2D, { at: [x, y], turn }: { at: Px; turn: number }, inks: Inks): void {
  c.save();
  c.translate(x, y);
  c.rotate(turn);
  trace(c, [[8, 0], [-6, -7], [-3, 0], [-6, 7]], true);
  c.lineJoin = 'round';
  stroke(c, inks.halo, 4);
  c.fillStyle = inks.night;
  c.fill();
  c.restore();
}

export function draw_bearings(c: CanvasRenderingContext2D, legs: readonly Leg[], to_px: ToPx, inks: Inks): void {
  const lines = legs.filter((l) => l.kind === 'bearing').map((l) => on_screen(l.line, to_px));
  c.lineCap = 'round';
  for (const line of lines) (trace(c, line), stroke(c, inks.halo, 1.65 * mm));
  for (const line of lines) {
    trace(c, line);
    stroke(c, inks.night, 0.75 * mm);
    if (drawn_length(line) > 46) arrow(c, along(line, 0.5), inks);
  }
  c.lineCap = 'butt';
}

export function draw_ends(c: CanvasRenderingContext2D, legs: readonly Leg[], to_px: ToPx, inks: Inks): void {
  const ring = ([x, y]: Px) => {
    c.beginPath();
    c.arc(x, y, 1.55 * mm, 0, 7);
    c.fillStyle = inks.halo;
    c.globalAlpha = 0.55;
    c.fill();
    c.globalAlpha = 1;
    stroke(c, inks.halo, 1.1 * mm);
    stroke(c, inks.night, 0.62 * mm);
    c.beginPath();
    c.arc(x, y, 0.32 * mm, 0, 7);
    c.fillStyle = inks.night;
    c.fill();
  };
  const turn = ([x, y]: Px) => {
    const r = 2.1 * mm;
    trace(c, [[x, y - r], [x + r, y], [x, y + r], [x - r, y]], true);
    c.fillStyle = inks.halo;
    c.fill();
    stroke(c, inks.halo, 1.2 * mm);
    stroke(c, inks.night, 0.62 * mm);
  };
  legs.forEach((leg, i) => {
    if (i === 0) ring(to_px(leg.line[0]!));
    const end = to_px(leg.line[leg.line.length - 1]!);
    if (leg.fix_at_end) ring(end);
    else turn(end);
  });
}

const figures = (size: number) => `700 ${size}px B612, sans-serif`;

/** Numbers in squares, bearings beside; a leg too short for its number is told by the ribbon. */
export function draw_tags(c: CanvasRenderingContext2D, legs: readonly Leg[], chosen: number, to_px: ToPx, inks: Inks, window: Box, taken: Box[]): void {
  const lines = legs.map((l) => on_screen(l.line, to_px));
  const around = dots(lines);
  for (const l of legs) {
    const [x, y] = to_px(l.line[l.line.length - 1]!);
    taken.push({ x: x - 9, y: y - 9, w: 18, h: 18 });
  }
  const order = legs.map((_, i) => i).sort((a, b) => Number(legs[b]!.leg === chosen) - Number(legs[a]!.leg === chosen));
  c.textAlign = 'center';
  c.textBaseline = 'middle';
  for (const i of order) {
    const leg = legs[i]!, line = lines[i]!, mine = leg.leg === chosen;
    if (!mine && drawn_length(line) < 20) continue;
    const gap = leg.kind === 'along' ? 10 : 8;
    const box = place(line, 21, 21, gap, taken, around, window);
    if (!box) continue;
    taken.push(box);
    c.fillStyle = inks.night;
    c.fillRect(box.x - 1.5, box.y - 1.5, 24, 24);
    c.strokeStyle = inks.halo;
    c.lineWidth = 1.5;
    c.strokeRect(box.x - 2, box.y - 2, 25, 25);
    c.fillStyle = inks.on_night;
    c.font = figures(15);
    c.fillText(String(leg.leg), box.x + 10.5, box.y + 11.5);
    if (leg.kind !== 'bearing' || (!mine && drawn_length(line) < 40)) continue;
    c.font = figures(16);
    const words = leg.words.bearing, w = c.measureText(words).width + 4;
    const at = place(line, w, 20, gap, taken, around, window);
    if (!at) continue;
    taken.push(at);
    c.lineJoin = 'round';
    c.strokeStyle = inks.halo;
    c.lineWidth = 5;
    c.strokeText(words, at.x + w / 2, at.y + 10);
    c.fillStyle = inks.night;
    c.fillText(words, at.x + w / 2, at.y + 10);
  }
  c.textAlign = 'left';
}
