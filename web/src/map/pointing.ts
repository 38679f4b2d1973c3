/// Pointing at the plan: choosing a leg, dragging a leg's end or a sheet. Coordinates are the grid's.
import PointerInteraction from 'ol/interaction/Pointer';
import type MapBrowserEvent from 'ol/MapBrowserEvent';
import type { SheetFrame, Way } from '../api/types';
import { frame_corners } from './draw_ground_marks';
import { reach, type Px, type ToPx } from './pen';

export type Grip = { kind: 'end'; leg: number } | { kind: 'frame'; index: number };

export function leg_at(way: Way | null, px: Px, to_px: ToPx): number | null {
  let best: number | null = null, least = 14;
  for (const leg of way?.legs ?? []) {
    const d = reach(px, leg.line.map(to_px));
    if (d < least) [best, least] = [leg.leg, d];
  }
  return best;
}
/** The end that is nearest; the last leg's too. */
export function end_at(way: Way | null, px: Px, to_px: ToPx, within: number): number | null {
  let best: number | null = null, least = within;
  for (const leg of way?.legs ?? []) {
    const [x, y] = to_px(leg.line[leg.line.length - 1]!);
    const d = Math.hypot(px[0] - x, px[1] - y);
    if (d < least) [best, least] = [leg.leg, d];
  }
  return best;
}
/** A sheet is taken by its edge, so that the map below it can still be moved. */
export function frame_at(frames: readonly SheetFrame[], px: Px, to_px: ToPx, within: number): number | null {
  const found = frames.findIndex((f) => {
    const line = frame_corners(f).map(to_px);
    return reach(px, [...line, line[0]!]) < within;
  });
  return found < 0 ? null : found;
}

export interface Hands {
  grip_at(px: Px, touch: boolean): Grip | null;
  drag(grip: Grip, at: [number, number], from: [number, number]): void;
  drop(grip: Grip, at: [number, number], from: [number, number]): void;
}

export class Dragging extends PointerInteraction {
  private grip: Grip | null = null;
  private from: [number, number] = [0, 0];
  private moved = false;
  constructor(private readonly hands: Hands) {
    super();
  }
  override handleDownEvent(e: MapBrowserEvent): boolean {
    this.grip = this.hands.grip_at(e.pixel as Px, (e.originalEvent as PointerEvent).pointerType === 'touch');
    this.from = e.coordinate as [number, number];
    this.moved = false;
    return this.grip !== null;
  }
  override handleDragEvent(e: MapBrowserEvent): void {
    this.moved = true;
    if (this.grip) this.hands.drag(this.grip, e.coordinate as [number, number], this.from);
  }
  override handleUpEvent(e: MapBrowserEvent): boolean {
    if (this.grip && this.moved) this.hands.drop(this.grip, e.coordinate as [number, number], this.from);
    this.grip = null;
    return false;
  }
  override handleMoveEvent(e: MapBrowserEvent): void {
    const grip = this.hands.grip_at(e.pixel as Px, false);
    const target = e.map.getTargetElement();
    if (target) target.style.cursor = grip ? 'grab' : '';
  }
}
