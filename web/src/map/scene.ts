/// Everything of the plan that lies on the map, drawn in one go in the order of the paper.
import type { Escape, Leg, Line, Lost, MapName, SheetFrame, Way } from '../api/types';
import type { Inks } from './inks';
import { draw_bearings, draw_ends, draw_rails, draw_tags } from './draw_legs';
import { draw_aim, draw_avoid, draw_doubt, draw_frame, draw_points, draw_lost, draw_stop, draw_way_off } from './draw_ground_marks';
import { draw_escape, escape_letters } from './draw_escape';
import { draw_ghost, draw_mark, draw_moment, draw_off, draw_plan_line, draw_square, draw_string, draw_track, type Moment } from './draw_hand';
import { draw_walked, type WalkedLine } from './draw_walked';
import { draw_letters, draw_likely, type WhereScene } from './draw_where';
import { draw_names, place_names } from './names';
import { on_screen, type Px, type ToPx } from './pen';
import { dots, type Box } from './tags';

export interface Scene {
  way: Way | null;
  /** The way is of before a change: it is drawn pale. */
  old: boolean;
  chosen: number;
  shows: { error: boolean; off: boolean };
  /** The escape route of the chosen leg that is shown. */
  escape: Escape | null;
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
  /** Parties that went wrong on the watched leg. */
  lost: readonly Lost[];
  crosshair: boolean;
  names: readonly MapName[];
  /** Metres a pixel. */
  resolution: number;
  /** What stands over the map: names make room. */
  covered: readonly Box[];
  string: { from: readonly number[]; to: readonly number[] } | null;
  /** Pieces over ground to keep off: of a string, or of what is dragged. */
  off: readonly Line[];
  /** The last place that was allowed, while an end is held over ground to keep off. */
  ghost: readonly number[] | null;
  /** A moment of the day: where the party is, and its doubt. */
  moment: Moment | null;
  /** What the pointer would take, swelling. */
  mark: readonly number[] | null;
  /** A route or track that is only shown. */
  track: Line | null;
  /** Tracks of the party's own walks. */
  walked: readonly WalkedLine[];
  /** A found square. */
  square: { south_west: readonly number[]; side_m: number } | null;
  /** Where the party may be, while that is asked. */
  where: WhereScene | null;
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

  if (scene.where) draw_likely(c, scene.where, to_px, inks);
  if (scene.track) draw_track(c, scene.track, to_px, inks);
  draw_walked(c, scene.walked, to_px, inks);
  if (scene.square) draw_square(c, scene.square, to_px, inks);
  for (const { ring, name } of scene.avoid) draw_avoid(c, ring, name, false, to_px, inks);
  const escape = scene.shows.off && chosen ? scene.escape : null;
  if (escape?.legs.length) draw_escape(c, escape, to_px, inks);
  else if (scene.shows.off && chosen) draw_way_off(c, chosen, to_px, inks);
  if (scene.shows.error) {
    for (const leg of legs) if (leg !== chosen) draw_doubt(c, leg, false, to_px, inks);
    if (chosen) (draw_doubt(c, chosen, true, to_px, inks), draw_stop(c, chosen, to_px, inks));
  }
  c.globalAlpha = scene.old || scene.where ? 0.45 : 1;
  draw_rails(c, legs, to_px, inks, ratio);
  draw_bearings(c, legs, to_px, inks);
  c.globalAlpha = 1;
  if (chosen && scene.shows.error) draw_aim(c, chosen, to_px, inks);
  draw_ends(c, legs, to_px, inks);
  if (!legs.length) draw_plan_line(c, scene.points, to_px, inks);
  const taken: Box[] = [...scene.covered];
  if (scene.where) draw_letters(c, scene.where, to_px, inks, window, taken);
  draw_points(c, scene.points, !legs.length, to_px, inks, window, taken);
  scene.frames.forEach((f, i) => draw_frame(c, f, i === scene.frame, to_px, inks));
  if (escape) escape_letters(c, escape, to_px, inks, window, taken);
  draw_tags(c, legs, scene.chosen, to_px, inks, window, taken);
  const lines = legs.map((l) => on_screen(l.line, to_px));
  const ends = legs.map((l) => ({ at: l.line[l.line.length - 1]!, name: l.to }));
  const own = legs.length ? [] : scene.points;
  for (const p of [...scene.points, ...ends]) {
    const [x, y] = to_px(p.at);
    taken.push({ x: x - 11, y: y - 11, w: 22, h: 22 });
  }
  draw_names(c, place_names(scene.names, own, taken, dots(lines), to_px, scene.resolution, window, (words, font) => {
    c.font = font;
    return c.measureText(words).width;
  }), inks);
  draw_lost(c, scene.lost, to_px, inks);
  for (const piece of scene.off) draw_off(c, piece, to_px, inks);
  if (scene.string) draw_string(c, scene.string.from, scene.string.to, to_px, inks);
  if (scene.ghost) draw_ghost(c, scene.ghost, to_px, inks);
  if (scene.held) draw_points(c, [{ at: scene.held, name: '' }], false, to_px, inks, window, []);
  if (scene.mark) draw_mark(c, scene.mark, to_px, inks);
  if (scene.moment) draw_moment(c, scene.moment, to_px, inks);
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
