/// Plain strokes of the plan on a canvas, in CSS pixels. `mm` is a millimetre of the paper's symbols.
import type { Line } from '../api/types';

export type Px = [number, number];
export type ToPx = (at: readonly number[]) => Px;
export const mm = 4.9;

export function trace(c: CanvasRenderingContext2D, line: readonly Px[], close = false): void {
  c.beginPath();
  line.forEach(([x, y], i) => (i ? c.lineTo(x, y) : c.moveTo(x, y)));
  if (close) c.closePath();
}
export const on_screen = (line: Line, to_px: ToPx): Px[] => line.map(to_px);

export function stroke(c: CanvasRenderingContext2D, color: string, width: number, dash: number[] = []): void {
  c.strokeStyle = color;
  c.lineWidth = width;
  c.setLineDash(dash);
  c.stroke();
  c.setLineDash([]);
}

export function text(c: CanvasRenderingContext2D, words: string, [x, y]: Px, font: string, ink: string, halo: string): void {
  c.font = font;
  c.textBaseline = 'middle';
  c.lineJoin = 'round';
  c.strokeStyle = halo;
  c.lineWidth = 4.5;
  c.strokeText(words, x, y);
  c.fillStyle = ink;
  c.fillText(words, x, y);
}

/** Where a share of the drawn line lies, and which way it runs there (radians of the screen). */
export function along(line: readonly Px[], share: number): { at: Px; turn: number } {
  const parts = line.slice(1).map((b, i) => Math.hypot(b[0] - line[i]![0], b[1] - line[i]![1]));
  let left = parts.reduce((a, b) => a + b, 0) * share;
  for (let i = 0; i < parts.length; i++) {
    const [a, b, size] = [line[i]!, line[i + 1]!, parts[i]!];
    if (left <= size || i === parts.length - 1) {
      const t = size ? Math.min(1, left / size) : 0;
      return { at: [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t], turn: Math.atan2(b[1] - a[1], b[0] - a[0]) };
    }
    left -= size;
  }
  return { at: line[0] ?? [0, 0], turn: 0 };
}
export function drawn_length(line: readonly Px[]): number {
  return line.slice(1).reduce((sum, b, i) => sum + Math.hypot(b[0] - line[i]![0], b[1] - line[i]![1]), 0);
}

/** How far a place on the screen is from a drawn line, in pixels: for pointing at it. */
export function reach([x, y]: Px, line: readonly Px[]): number {
  let best = Infinity;
  for (let i = 1; i < line.length; i++) {
    const [ax, ay] = line[i - 1]!, [bx, by] = line[i]!;
    const dx = bx - ax, dy = by - ay, size = dx * dx + dy * dy;
    const t = size ? Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / size)) : 0;
    best = Math.min(best, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  }
  return best;
}
