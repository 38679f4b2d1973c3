/// Tracks of the party's own walks where they lie on the ground: what was used is a line, a ride is dots, what was left
/// out is broken and thin. Form says it first, ink second.
import type { LearntTrack } from '../api/types';
import type { Inks } from './inks';
import { on_screen, stroke, trace, type ToPx } from './pen';

export type WalkedLine = LearntTrack['lines'][number];

export function draw_walked(c: CanvasRenderingContext2D, lines: readonly WalkedLine[], to_px: ToPx, inks: Inks): void {
  for (const was of ['left_out', 'ride', 'used'] as const) {
    for (const { line_grid_m } of lines.filter((l) => l.was === was)) {
      trace(c, on_screen(line_grid_m, to_px));
      c.lineCap = was === 'left_out' ? 'butt' : 'round';
      stroke(c, inks.halo, was === 'left_out' ? 4.5 : 6.5);
      if (was === 'used') stroke(c, inks.tarn, 3);
      else if (was === 'ride') stroke(c, inks.rowan, 4, [0.5, 7]);
      else stroke(c, inks.stone, 2, [7, 5]);
    }
  }
  c.lineCap = 'butt';
}
