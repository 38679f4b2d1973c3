/// Everything of the plan that lies on the map, drawn in one go in the order of the paper.
import type { Leg, Line, SheetFrame, Way } from '../api/types';
import type { Inks } from './inks';
import { draw_bearings, draw_ends, draw_rails, draw_tags } from './draw_legs';
import { draw_aim, draw_avoid, draw_doubt, draw_frame, draw_points, draw_stop, draw_walkers, draw_way_off } from './draw_ground_marks';
import type { Px, ToPx } from './pen';
import type { Box } from './tags';

export interface Scene {
  way: Way | null;
  /** The way is of before a change: it is drawn pale. */
  old: boolean;
  chosen: number;
  shows: { error: boolean; off: boolean };
  points: { at: readonly number[]; name: string }[];
  avoid: { ring: Line; name: string }[];
  /** An area while it is drawn. */
  drawing: Line | null;
  /** Legs while an end is dragged, in place of those with the same numbers. */
  dragged: Leg[];
  /** Where an end is held. */
  held: readonly number[] | null;
  frames: SheetFrame[];
  frame: number;
  walkers: { at: readonly number[]; lost: boolean }[];
  crosshair: boolean;
}

/** `size` in CSS pixels; the canvas has `ratio` dots to each. */
export function draw(c: CanvasRenderingContext2D, scene: Scene, to_px: ToPx, size: Px, ratio: number, inks: Inks): void {
  c.setTransform(1, 0, 0, 1, 0, 0);
  c.clearRect(0, 0, c.canvas.width, c.canvas.height);
  c.scale(ratio, ratio);
  c.lineJoin = 'round';
  const window: Box = { x: 4, y: 4, w: size[0] - 8, h: size[1] - 8 };
  const dragged = new Map(scene.dragged.map((l) => [l.leg, l]));
  const legs = (scene.way?.legs ?? []).map((l) => dragged.get(l.leg) ?? l);
  const chosen = legs.find((l) => l.leg === scene.chosen) ?? null;

  for (const { ring, name } of scene.avoid) draw_avoid(c, ring, name, false, to_px, inks);
  if (scene.shows.off && chosen) draw_way_off(c, chosen, to_px, inks);
  if (scene.shows.error) {
    for (const leg of legs) if (leg !== chosen) draw_doubt(c, leg, false, to_px, inks);
    if (chosen) (draw_doubt(c, chosen, true, to_px, inks), draw_stop(c, chosen, to_px, inks));
  }
  c.globalAlpha = scene.old ? 0.45 : 1;
  draw_rails(c, legs, to_px, inks, ratio);
  draw_bearings(c, legs, to_px, inks);
  c.globalAlpha = 1;
  if (chosen && scene.shows.error) draw_aim(c, chosen, to_px, inks);
  draw_ends(c, legs, to_px, inks);
  draw_points(c, scene.points, !legs.length, to_px, inks, window);
  scene.frames.forEach((f, i) => draw_frame(c, f, i === scene.frame, to_px, inks));
  draw_tags(c, legs, scene.chosen, to_px, inks, window);
  draw_walkers(c, scene.walkers.map((w) => ({ at: to_px(w.at), lost: w.lost })), inks);
  if (scene.held) draw_points(c, [{ at: scene.held, name: '' }], false, to_px, inks, window);
  if (scene.drawing) draw_avoid(c, scene.drawing, '', true, to_px, inks);
  if (scene.crosshair) draw_crosshair(c, [size[0] / 2, size[1] / 2], inks);
}

function draw_crosshair(c: CanvasRenderingContext2D, [x, y]: Px, inks: Inks): void {
  for (const [ink, width] of [[inks.halo, 6], [inks.night, 2]] as const) {
    c.beginPath();
    for (const [dx, dy] of [[1, 0], [-1, 0], [0, 1], [0, -1]] as const) {
      c.moveTo(x + 5 * dx, y + 5 * dy);
      c.lineTo(x + 20 * dx, y + 20 * dy);
    }
    c.strokeStyle = ink;
    c.lineWidth = width;
    c.stroke();
  }
}
