import { afterEach, beforeAll, expect, it, vi } from 'vitest';
import { language, t_doing } from './language.svelte';

const words = { 'reading the ground': 'das Gelände wird gelesen', 'reading {0}': '{0} wird gelesen', 'weighing {0}': '{0} wird abgewogen', '{0} of {1}': '{0} von {1}', 'Leg {0}': 'Abschnitt {0}' };

beforeAll(async () => {
  vi.stubGlobal('document', { documentElement: {} });
  vi.stubGlobal('localStorage', { setItem: () => undefined });
  vi.stubGlobal('fetch', async () => new Response(JSON.stringify({ words }), { headers: { 'Content-Type': 'application/json' } }));
  await language.set('de');
});
afterEach(() => { language.now = 'de'; });

it('a work in hand is said by its own row, or by the row that leaves room for a name', () => {
  expect(t_doing('reading the ground')).toBe('das Gelände wird gelesen');
  expect(t_doing('reading $& fells.osm')).toBe('$& fells.osm wird gelesen');
  expect(t_doing('weighing Kell Gap')).toBe('Kell Gap wird abgewogen');
});

it('what no row tells, and all in English, stays as it is', () => {
  expect(t_doing('sharpening pencils')).toBe('sharpening pencils');
  language.now = 'en';
  expect(t_doing('reading fells.osm')).toBe('reading fells.osm');
});
