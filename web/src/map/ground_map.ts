/// The map in the ground's own grid: tiles of the server below, the plan's canvas above. No projection is
/// computed here; metres of the grid are the view's own unit.
import 'ol/ol.css';
import Map from 'ol/Map';
import View from 'ol/View';
import ImageLayer from 'ol/layer/Image';
import Layer from 'ol/layer/Layer';
import TileLayer from 'ol/layer/Tile';
import { defaults as interactions } from 'ol/interaction/defaults';
import Projection from 'ol/proj/Projection';
import Static from 'ol/source/ImageStatic';
import TileImage from 'ol/source/TileImage';
import TileGrid from 'ol/tilegrid/TileGrid';
import type { Extent, GroundSummary, Rehearsal } from '../api/types';
import { dark_inks, light_inks } from './inks';
import type { Px, ToPx } from './pen';
import { draw, type Scene } from './scene';

export interface Look {
  dark: boolean;
  slope: boolean;
  /** Degrees from which this party keeps off; 90: not shown. */
  keep_off_deg: number;
}

export class GroundMap {
  readonly map: Map;
  private readonly tiles = new TileLayer<TileImage>({ preload: 1 });
  private readonly density = new ImageLayer<Static>({ opacity: 0.9 });
  private readonly plan: Layer;
  private readonly canvas = document.createElement('canvas');
  private projection: Projection | null = null;
  private scene: Scene | null = null;
  private dark = false;
  private extent: Extent | null = null;
  private looks = '';
  private steps: readonly number[] = [];

  constructor(target: HTMLElement) {
    // Placed like the tiles' own canvas, or the browser paints it below them.
    Object.assign(this.canvas.style, { position: 'absolute', left: '0', top: '0', pointerEvents: 'none' });
    this.plan = new Layer({ render: (frame) => this.paint(frame.size as Px, frame.pixelRatio) });
    this.map = new Map({ target, controls: [], layers: [this.tiles, this.density, this.plan],
      interactions: interactions({ altShiftDragRotate: false, pinchRotate: false }) });
  }
  dispose(): void {
    this.map.setTarget(undefined);
    this.map.dispose();
  }

  /** Another ground: another grid, another view. */
  set_ground(summary: GroundSummary): void {
    const { resolutions_m_per_px: steps, extent_grid_m } = summary.tiles;
    this.projection = new Projection({ code: `ground:${summary.epsg}`, units: 'm', extent: extent_grid_m });
    const closest = steps[steps.length - 1] ?? 1;
    this.extent = extent_grid_m;
    this.steps = steps;
    this.map.setView(new View({
      projection: this.projection, extent: extent_grid_m, smoothExtentConstraint: false, smoothResolutionConstraint: false,
      enableRotation: false, minResolution: closest / 2,
      center: [(extent_grid_m[0] + extent_grid_m[2]) / 2, (extent_grid_m[1] + extent_grid_m[3]) / 2],
      resolution: this.covering(),
    }));
    this.tiles.setExtent(extent_grid_m);
    this.cover();
  }
  /** The resolution at which the ground just covers the pane: farther than this shows nothing more. */
  private covering(): number {
    const [w = 0, h = 0] = this.map.getSize() ?? [];
    const [west, south, east, north] = this.extent ?? [0, 0, 1, 1];
    return w > 10 && h > 10 ? Math.min((east - west) / w, (north - south) / h) : Math.max(east - west, north - south) / 1000;
  }
  /** All of the ground that the pane can hold without an empty edge. */
  cover(): void {
    if (!this.extent) return;
    const [west, south, east, north] = this.extent;
    const view = this.map.getView();
    view.setResolution(this.covering());
    view.setCenter([(west + east) / 2, (south + north) / 2]);
  }
  set_look(summary: GroundSummary, { dark, slope, keep_off_deg }: Look): void {
    this.dark = dark;
    const { url, origin_grid_m, resolutions_m_per_px, size_px, extent_grid_m } = summary.tiles;
    const dots = devicePixelRatio > 1.2 ? 2 : 1;
    const more = `dots=${dots}&slope=${slope ? 1 : 0}&theme=${dark ? 'dark' : 'light'}&names=0&keep_off=${keep_off_deg}`;
    const key = `${url} ${more}`;
    if (key === this.looks) return;
    this.looks = key;
    this.tiles.setSource(new TileImage({
      projection: this.projection!, tilePixelRatio: dots, transition: 0,
      tileGrid: new TileGrid({ origin: origin_grid_m, resolutions: resolutions_m_per_px, tileSize: size_px, extent: extent_grid_m }),
      tileUrlFunction: ([z, x, y]) =>
        `${url.replace('{z}', String(z)).replace('{x}', String(x)).replace('{y}', String(y))}${url.includes('?') ? '&' : '?'}${more}`,
    }));
  }
  set_density(density: Rehearsal['density'] | null): void {
    this.density.setSource(density && this.projection
      ? new Static({ url: density.url, imageExtent: density.extent_grid_m, projection: this.projection }) : null);
  }
  set_scene(scene: Scene): void {
    this.scene = scene;
    this.plan.changed();
  }

  /** `edges`: what stands over the map on each side, in pixels: top, right, bottom, left. */
  fit(extent: Extent, edges: [number, number, number, number]): void {
    const size = this.map.getSize();
    if (!size || size[0]! < 10) return;
    this.map.getView().fit(extent, { padding: edges, size });
  }
  resolution(): number {
    return this.map.getView().getResolution() ?? 1;
  }
  box(): Extent {
    return this.map.getView().calculateExtent(this.map.getSize()) as Extent;
  }
  /** To the next step at which the ground's picture is drawn, where it is sharpest. */
  zoom(by: number): void {
    const view = this.map.getView(), now = view.getResolution() ?? 1;
    const next = by > 0 ? this.steps.find((r) => r < now * 0.95) ?? now / 2 : [...this.steps].reverse().find((r) => r > now * 1.05) ?? now * 2;
    view.animate({ resolution: next, duration: matchMedia('(prefers-reduced-motion: reduce)').matches ? 0 : 150 });
  }
  to_px: ToPx = (at) => (this.map.getPixelFromCoordinate(at as number[]) ?? [-999, -999]) as Px;
  centre(): [number, number] | null {
    return (this.map.getView().getCenter() as [number, number] | undefined) ?? null;
  }
  /** Brings a place into the window, and moves as little as it can. */
  show(at: readonly number[]): void {
    const size = this.map.getSize(), [x, y] = this.to_px(at);
    if (!size || (x > 40 && y > 40 && x < size[0]! - 40 && y < size[1]! - 40)) return;
    this.map.getView().setCenter(at as number[]);
  }

  /** The pane has another size: the ground still covers it. */
  resized(): void {
    const view = this.map.getView();
    if ((view.getResolution() ?? 0) > this.covering()) view.setResolution(this.covering());
  }

  private paint(size: Px, ratio: number): HTMLCanvasElement {
    const [w, h] = [Math.round(size[0] * ratio), Math.round(size[1] * ratio)];
    if (this.canvas.width !== w || this.canvas.height !== h) {
      this.canvas.width = w;
      this.canvas.height = h;
      this.canvas.style.width = `${size[0]}px`;
      this.canvas.style.height = `${size[1]}px`;
    }
    const view = this.map.getView(), centre = view.getCenter(), resolution = view.getResolution();
    if (this.scene && centre && resolution) {
      const to_px: ToPx = ([e = 0, n = 0]) => [(e - centre[0]!) / resolution + size[0] / 2, (centre[1]! - n) / resolution + size[1] / 2];
      draw(this.canvas.getContext('2d')!, this.scene, to_px, size, ratio, this.dark ? dark_inks : light_inks);
    }
    return this.canvas;
  }
}
