/// A bearing as the trip writes it. 6400 mils to the full circle, as on the compass that has them.
export function said_bearing(deg: number, angle: 'degrees' | 'mils'): string {
  if (angle === 'mils') return `${String(Math.round(deg * (6400 / 360)) % 6400).padStart(4, '0')} mil`;
  return `${String(Math.round(deg) % 360).padStart(3, '0')}°`;
}
