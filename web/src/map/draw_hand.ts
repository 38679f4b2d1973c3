/// What the hand does on the map: a string, what a drag would cross, a moment of the day, a mark.
import type { Line } from '../api/types';
import type { Inks } from './inks';
import { mm, on_screen, stroke, trace, type ToPx } from './pen';

type C = CanvasRenderingContext2D;

/** Where the party is at a moment; the doubt lies along and across the leg, one sigma, metres. */
export interface Moment {
  at: readonly number[];
  /** Of the leg there, from grid north. */
  heading_rad: number;
  along_sigma_m: number | null;
  cross_sigma_m: number | null;
}
/** 19 of 20 in two dimensions: the square root of -2 ln 0.05. */
export const ellipse_k = Math.sqrt(-2 * Math.log(0.05));

export function draw_moment(c: C, m: Moment, to_px: ToPx, inks: Inks): void {
  const [x, y] = to_px(m.at), [x1] = to_px([m.at[0]! + 100, m.at[1]!]);
  const per_m = (x1 - x) / 100;
  if (m.along_sigma_m !== null && m.cross_sigma_m !== null) {
    c.save();
    c.translate(x, y);
    c.rotate(m.heading_rad);
    c.beginPath();
    c.ellipse(0, 0, Math.max(3, ellipse_k * m.cross_sigma_m * per_m), Math.max(3, ellipse_k * m.along_sigma_m * per_m), 0, 0, 7);
    c.restore();
    c.fillStyle = inks.lamp_pale;
    c.fill();
    stroke(c, inks.night, 1.5);
  }
  c.beginPath();
  c.arc(x, y, 5, 0, 7);
  c.fillStyle = inks.night;
  c.fill();
  stroke(c, inks.halo, 2);
}

/** Knots of equal length, as on a measuring string. */
export function draw_string(c: C, from: readonly number[], to: readonly number[], to_px: ToPx, inks: Inks): void {
  const a = to_px(from), b = to_px(to);
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  trace(c, [a, b]);
  stroke(c, inks.halo, 6);
  stroke(c, inks.night, 2);
  const n = Math.floor(length / 40);
  const [dx, dy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  for (let i = 1; i <= n; i++) {
    const [x, y] = [a[0] + dx * 40 * i, a[1] + dy * 40 * i];
    trace(c, [[x - dy * 5, y + dx * 5], [x + dy * 5, y - dx * 5]]);
    stroke(c, inks.night, 2);
  }
  for (const [x, y] of [a, b]) {
    c.beginPath();
    c.arc(x, y, 5, 0, 7);
    c.fillStyle = inks.halo;
    c.fill();
    stroke(c, inks.night, 2.5);
  }
}

/** Over ground to keep off: a broad broken bar, told from a leg without its hue. */
export function draw_off(c: C, line: Line, to_px: ToPx, inks: Inks): void {
  trace(c, on_screen(line, to_px));
  c.lineCap = 'butt';
  stroke(c, inks.halo, 13);
  stroke(c, inks.rowan, 9, [7, 3]);
}

export function draw_ghost(c: C, at: readonly number[], to_px: ToPx, inks: Inks): void {
  const [x, y] = to_px(at);
  c.beginPath();
  c.arc(x, y, 1.55 * mm, 0, 7);
  stroke(c, inks.halo, 5);
  stroke(c, inks.night, 2, [3, 3]);
}

export function draw_mark(c: C, at: readonly number[], to_px: ToPx, inks: Inks): void {
  const [x, y] = to_px(at);
  c.beginPath();
  c.arc(x, y, 2.4 * mm, 0, 7);
  c.fillStyle = inks.lamp_pale;
  c.fill();
  stroke(c, inks.halo, 5);
  stroke(c, inks.night, 2.5);
}

export function draw_square(c: C, s: { south_west: readonly number[]; side_m: number }, to_px: ToPx, inks: Inks): void {
  const [e, n] = s.south_west as [number, number];
  trace(c, on_screen([[e, n], [e + s.side_m, n], [e + s.side_m, n + s.side_m], [e, n + s.side_m]], to_px), true);
  c.fillStyle = inks.lamp_pale;
  c.fill();
  stroke(c, inks.halo, 5);
  stroke(c, inks.night, 2.5);
}

/** The places in order, until a way joins them. */
export function draw_plan_line(c: C, points: readonly { at: readonly number[] }[], to_px: ToPx, inks: Inks): void {
  if (points.length < 2) return;
  trace(c, points.map((p) => to_px(p.at)));
  stroke(c, inks.halo, 5);
  stroke(c, inks.night, 2, [3, 5]);
}

/** Somebody's route or track, beside the plan: dots, so that it is no leg. */
export function draw_track(c: C, line: Line, to_px: ToPx, inks: Inks): void {
  trace(c, on_screen(line, to_px));
  c.lineCap = 'round';
  stroke(c, inks.halo, 6);
  stroke(c, inks.tarn, 3.5, [0.5, 7]);
  c.lineCap = 'butt';
}
