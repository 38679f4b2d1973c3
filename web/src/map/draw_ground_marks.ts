/// What lies under the legs: doubt, what stops, what to keep off, the way off; and over them: places that
/// the leader set, sheets, walkers.
import type { Leg, Line, Lost, SheetFrame } from '../api/types';
import { sheet_words } from '../format/units';
import { draw_escape_line } from './draw_escape';
import type { Inks } from './inks';
import { beside, type Box } from './tags';
import { mm, on_screen, stroke, text, trace, type Px, type ToPx } from './pen';

type C = CanvasRenderingContext2D;

export function draw_doubt(c: C, leg: Leg, chosen: boolean, to_px: ToPx, inks: Inks): void {
  for (const [ring, width] of [[leg.ribbon_grid_m, 1], [leg.fix_at_end && !chosen ? null : leg.ellipse_grid_m, 1.5]] as const) {
    if (!ring) continue;
    trace(c, on_screen(ring, to_px), true);
    c.fillStyle = chosen ? inks.lamp : inks.lamp_pale;
    c.globalAlpha = chosen ? 0.5 : 1;
    c.fill();
    c.globalAlpha = 1;
    stroke(c, inks.night, width, ring === leg.ribbon_grid_m ? [2.7, 2.7] : []);
  }
}

export function draw_stop(c: C, leg: Leg, to_px: ToPx, inks: Inks): void {
  const line = leg.catching?.line_grid_m;
  if (!line || line.length < 2) return;
  trace(c, on_screen(line, to_px));
  stroke(c, inks.night, 1.45 * mm + 2);
  stroke(c, inks.lamp, 1.45 * mm);
}

/** The bar where the party aims, and the arrow from there to the end. */
export function draw_aim(c: C, leg: Leg, to_px: ToPx, inks: Inks): void {
  if (!leg.along_after || !leg.on_the_needle) return;
  const from = to_px(leg.on_the_needle.aim_grid_m), to = to_px(leg.line[leg.line.length - 1]!);
  if (Math.hypot(from[0] - to[0], from[1] - to[1]) < 6) return;
  trace(c, [from, to]);
  stroke(c, inks.halo, 5);
  stroke(c, inks.night, 2, [5, 3]);
  c.beginPath();
  c.arc(from[0], from[1], 4, 0, 7);
  c.fillStyle = inks.night;
  c.fill();
  stroke(c, inks.halo, 1.5);
}

export function draw_way_off(c: C, leg: Leg, to_px: ToPx, inks: Inks): void {
  if (!leg.way_off || leg.way_off.line_grid_m.length < 2) return;
  draw_escape_line(c, on_screen(leg.way_off.line_grid_m, to_px), inks);
}

let hatch: { key: string; pattern: CanvasPattern } | null = null;
function hatched(c: C, ink: string): CanvasPattern {
  if (hatch?.key === ink) return hatch.pattern;
  const tile = document.createElement('canvas');
  tile.width = tile.height = 8;
  const t = tile.getContext('2d')!;
  t.strokeStyle = ink;
  t.lineWidth = 1.4;
  t.beginPath();
  t.moveTo(-2, 10); t.lineTo(10, -2); t.moveTo(-2, 2); t.lineTo(2, -2); t.moveTo(6, 10); t.lineTo(10, 6);
  t.stroke();
  hatch = { key: ink, pattern: c.createPattern(tile, 'repeat')! };
  return hatch.pattern;
}

/** Ground that the leader forbids: hatch and a strong edge, told from all else without its hue. */
export function draw_avoid(c: C, ring: Line, name: string, open: boolean, to_px: ToPx, inks: Inks): void {
  const line = on_screen(ring, to_px);
  trace(c, line, !open);
  if (line.length > 2) {
    c.fillStyle = inks.rowan_pale;
    c.fill();
    c.fillStyle = hatched(c, inks.rowan);
    c.fill();
  }
  stroke(c, inks.halo, 4);
  stroke(c, inks.night, 1.8, open ? [5, 4] : []);
  if (open) for (const [x, y] of line) {
    c.fillStyle = inks.night;
    c.fillRect(x - 4, y - 4, 8, 8);
  } else if (name && line[0]) {
    const x = line.reduce((s, p) => s + p[0], 0) / line.length, y = line.reduce((s, p) => s + p[1], 0) / line.length;
    c.textAlign = 'center';
    text(c, name, [x, y], '700 13px "Noto Sans", sans-serif', inks.night, inks.halo);
    c.textAlign = 'left';
  }
}

export interface PlanPoint {
  at: readonly number[];
  name: string;
  /** "S", "1", "E": beside the ring while no way is there yet. */
  letter?: string;
}
/** `taken` is what names and squares keep clear of; they are added to it. */
export function draw_points(c: C, points: readonly PlanPoint[], named: boolean, to_px: ToPx, inks: Inks, window: Box, taken: Box[]): void {
  points.forEach(({ at }) => {
    const [x, y] = to_px(at);
    c.beginPath();
    c.arc(x, y, 1.55 * mm, 0, 7);
    stroke(c, inks.halo, 6);
    stroke(c, inks.night, 3);
    c.beginPath();
    c.arc(x, y, 2, 0, 7);
    c.fillStyle = inks.night;
    c.fill();
  });
  points.forEach(({ at }) => {
    const [x, y] = to_px(at);
    taken.push({ x: x - 9, y: y - 9, w: 18, h: 18 });
  });
  // Names first: they are long, and a letter finds room on another side of its ring.
  points.forEach(({ at, name }) => {
    if (!named || !name) return;
    c.font = '700 14px "Noto Sans", sans-serif';
    const box = beside(to_px(at), c.measureText(name).width, 17, 13, taken, window);
    taken.push(box);
    text(c, name, [box.x, box.y + 9], c.font, inks.night, inks.halo);
  });
  points.forEach(({ at, letter }) => {
    if (!letter) return;
    c.font = '700 14px B612, sans-serif';
    const w = Math.max(21, Math.ceil(c.measureText(letter).width) + 8);
    const box = beside(to_px(at), w, 21, 12, taken, window);
    taken.push(box);
    // Beside numbered legs a place is told apart by its open square.
    c.fillStyle = named ? inks.night : inks.halo;
    c.fillRect(box.x, box.y, w, 21);
    c.strokeStyle = inks.night;
    c.lineWidth = 2;
    if (!named) c.strokeRect(box.x + 1, box.y + 1, w - 2, 19);
    c.fillStyle = named ? inks.on_night : inks.night;
    c.textAlign = 'center';
    c.textBaseline = 'middle';
    c.fillText(letter, box.x + w / 2, box.y + 11);
    c.textAlign = 'left';
  });
}

export function frame_corners(f: SheetFrame): Line {
  const [e, n] = f.south_west_grid_m;
  return [[e, n], [e, n + f.height_m], [e + f.width_m, n + f.height_m], [e + f.width_m, n]];
}
export function draw_frame(c: C, frame: SheetFrame, chosen: boolean, to_px: ToPx, inks: Inks): void {
  const line = on_screen(frame_corners(frame), to_px);
  trace(c, line, true);
  stroke(c, inks.halo, chosen ? 8 : 5);
  stroke(c, inks.night, chosen ? 4 : 2);
  const [x, y] = line[1] as Px;
  text(c, sheet_words(frame.name), [x + 9, y + 15], '700 14px "Noto Sans", sans-serif', inks.night, inks.halo);
}

/** How those who went wrong truly went, thin, and a cross where it went wrong; crosses lie over all lines. */
export function draw_lost(c: C, lost: readonly Lost[], to_px: ToPx, inks: Inks): void {
  for (const { line_grid_m } of lost) {
    trace(c, on_screen(line_grid_m, to_px));
    stroke(c, inks.halo, 3);
    stroke(c, inks.rowan, 1.1);
  }
  for (const [ink, width] of [[inks.halo, 5], [inks.rowan, 2.4]] as const)
    for (const { at_grid_m } of lost) {
      const [x, y] = to_px(at_grid_m);
      trace(c, [[x - 4.5, y - 4.5], [x + 4.5, y + 4.5]]);
      c.moveTo(x + 4.5, y - 4.5);
      c.lineTo(x - 4.5, y + 4.5);
      stroke(c, ink, width);
    }
}
