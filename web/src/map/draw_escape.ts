/// The escape route of the chosen leg, as legs: chevrons the way it goes, a letter beside each step, a ring where it ends.
import type { Escape } from '../api/types';
import { step_letter } from '../state/escapes';
import type { Inks } from './inks';
import { along, drawn_length, mm, on_screen, stroke, trace, type Px, type ToPx } from './pen';
import { dots, place, type Box } from './tags';

type C = CanvasRenderingContext2D;

/** One line, drawn as escape routes are on the paper. */
export function draw_escape_line(c: C, line: readonly Px[], inks: Inks): void {
  trace(c, line);
  stroke(c, inks.halo, 6);
  stroke(c, inks.haven, 0.62 * mm, [2.2 * mm, 1.1 * mm]);
  const length = drawn_length(line), n = Math.floor(length / 44);
  for (let i = 1; i <= n; i++) {
    const { at: [x, y], turn } = along(line, (i * 44 - 8) / length);
    c.save();
    c.translate(x, y);
    c.rotate(turn);
    for (const shift of [0, 5]) (trace(c, [[shift - 4, -5], [shift + 1, 0], [shift - 4, 5]]), stroke(c, inks.haven, 2.4));
    c.restore();
  }
}

export function draw_escape(c: C, route: Escape, to_px: ToPx, inks: Inks): void {
  const lines = route.legs.map((l) => on_screen(l.line, to_px));
  for (const line of lines) draw_escape_line(c, line, inks);
  lines.forEach((line, i) => {
    const [x, y] = line[line.length - 1]!;
    c.beginPath();
    c.arc(x, y, i === lines.length - 1 ? 7 : 4, 0, 7);
    c.fillStyle = inks.halo;
    c.fill();
    stroke(c, inks.haven, i === lines.length - 1 ? 3.2 : 2);
  });
}

/** Round, so that no letter is taken for a leg's number. `taken` is what they keep clear of; they are added to it. */
export function escape_letters(c: C, route: Escape, to_px: ToPx, inks: Inks, window: Box, taken: Box[]): void {
  const lines = route.legs.map((l) => on_screen(l.line, to_px)), around = dots(lines);
  c.textAlign = 'center';
  c.textBaseline = 'middle';
  lines.forEach((line, i) => {
    const box = place(line, 20, 20, 8, taken, around, window);
    if (!box) return;
    taken.push(box);
    c.beginPath();
    c.arc(box.x + 10, box.y + 10, 10, 0, 7);
    c.fillStyle = inks.haven;
    c.fill();
    stroke(c, inks.halo, 1.5);
    c.fillStyle = inks.halo;
    c.font = '700 13px B612, sans-serif';
    c.fillText(step_letter(i), box.x + 10, box.y + 10.5);
  });
  c.textAlign = 'left';
}
