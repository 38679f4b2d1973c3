/// The leader's points as pure changes of a list. A list counts as one thing: each answers a whole new one.
import type { Point, Way } from '../api/types';

/** A place of the grid as a point's `at`. */
export const at_text = ([e, n]: readonly number[]) => `${Math.round(e ?? 0)} ${Math.round(n ?? 0)}`;

export function put(points: readonly Point[], index: number, point: Point, insert: boolean): Point[] {
  const copy = [...points];
  copy.splice(index, insert ? 0 : 1, point);
  return copy;
}
export function move(points: readonly Point[], index: number, by: number): Point[] {
  const to = index + by;
  if (to < 0 || to >= points.length) return [...points];
  const copy = [...points];
  const [taken] = copy.splice(index, 1);
  copy.splice(to, 0, taken!);
  return copy;
}
export const without = (points: readonly Point[], index: number) => points.filter((_, i) => i !== index);

/** What a point is called when it has no name: by its part in the way. */
export function part(index: number, count: number): string {
  if (index === 0) return 'Start';
  if (count > 1 && index === count - 1) return 'End';
  return `Via ${index}`;
}

/**
 * The points after the end of leg `leg` was dragged to `to`. What the leader saw while dragging is what is
 * asked for: a leg on a bearing stays straight, a leg along a line is found anew. Where the dragged leg
 * began, and where a straight one after it ends, becomes a point of the leader's.
 */
export function dragged(points: readonly Point[], way: Way, leg: number, to: Point): Point[] {
  const here = way.legs[leg - 1]!, next = way.legs[leg];
  const ends_before = way.legs.slice(0, leg - 1).map((l) => l.ends_point).filter((p) => p !== null);
  const last_before = Math.max(1, ...ends_before);
  const before = points.slice(0, last_before);
  const start_is_point = leg === 1 || way.legs[leg - 2]!.ends_point !== null;
  if (!start_is_point) before.push({ name: here.from, at: at_text(here.line[0]!) });

  const own = here.ends_point === null ? null : points[here.ends_point - 1]!;
  const moved: Point = { ...own, ...to, get_here: here.kind === 'bearing' ? 'bearing' : 'find' };
  if (own?.name) moved.name = own.name;

  const rest = points.slice(here.ends_point ?? last_before);
  if (!next) return [...before, moved];
  const how = next.kind === 'bearing' ? 'bearing' : 'find';
  if (next.ends_point !== null) {
    const [first, ...others] = rest;
    return [...before, moved, { ...first!, get_here: how }, ...others];
  }
  if (how === 'find') return [...before, moved, ...rest];
  return [...before, moved, { name: next.to, at: at_text(next.line.at(-1)!), get_here: how }, ...rest];
}
