/// Where a slip stands: 20 px from its place, on the side with the least of the way under it, inside the pane.
import { overlap, type Box } from './tags';
import type { Px } from './pen';

const away = 20;
export function slip_place([x, y]: Px, w: number, h: number, pane: Box, way: readonly Px[], rings: readonly Box[]): Box {
  const tries: Px[] = [
    [x + away, y + away], [x - away - w, y + away], [x + away, y - away - h], [x - away - w, y - away - h],
    [x + away, y - h / 2], [x - away - w, y - h / 2],
  ];
  const cost = (b: Box) => {
    const out = w * h - overlap(b, pane);
    const under = way.filter((p) => p[0] > b.x && p[0] < b.x + w && p[1] > b.y && p[1] < b.y + h).length;
    const on_rings = rings.reduce((sum, r) => sum + overlap(b, r), 0);
    const mine = x > b.x - 4 && x < b.x + w + 4 && y > b.y - 4 && y < b.y + h + 4 ? 1e7 : 0;
    return out * 50 + under * 300 + on_rings * 100 + mine;
  };
  const boxes = tries.map(([bx, by]) => ({ x: bx, y: by, w, h }));
  const best = boxes.reduce((a, b) => (cost(b) < cost(a) - 1e-6 ? b : a));
  return {
    ...best,
    x: Math.max(pane.x, Math.min(best.x, pane.x + pane.w - w)),
    y: Math.max(pane.y, Math.min(best.y, pane.y + pane.h - h)),
  };
}
