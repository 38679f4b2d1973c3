/// Files chosen for a ground: read onto this machine's disk by the program, or named by their path.
import { t, tf } from './language.svelte';
import { call, Lost, Refused, upload } from '../api/client';
import type { FileRef, Upload } from '../api/types';
import { in_words, messages } from './messages.svelte';
import { work } from './work.svelte';

export interface Item {
  name: string;
  share: number;
  upload: Upload | null;
  path: string | null;
  /** A part belongs to another file beside it (.dbf, .prj …). */
  role: 'elevation' | 'features' | 'part';
  wrong: string;
}

class Files {
  items = $state<Item[]>([]);
  ready = $derived(this.items.filter((i) => i.upload || i.path));
  going = $derived(this.items.some((i) => !i.wrong && !i.upload && !i.path));

  /** In any order; what belongs together is told by its name. */
  async take(files: Iterable<File> | null): Promise<void> {
    for (const file of files ?? []) {
      this.items.push({ name: file.name, share: 0, upload: null, path: null, role: 'elevation', wrong: '' });
      const item = this.items[this.items.length - 1]!;
      try {
        item.upload = await upload(file, (share) => (item.share = share));
        const role: string = item.upload.role;
        if (role === 'features' || role === 'elevation' || role === 'part') item.role = role;
      } catch (e) {
        if (e instanceof Refused) item.wrong = in_words(e.fault);
        else if (e instanceof Lost) item.wrong = t('The program did not answer while the file was read. Take it out and choose it again.');
        else throw e;
      }
    }
  }
  /** A shapefile comes in parts: which are missing, in plain words. */
  missing = $derived.by<string[]>(() => {
    const names = this.items.map((i) => i.name.toLowerCase());
    const stem = (n: string) => n.replace(/\.[^.]*$/, '');
    const out: string[] = [];
    for (const shp of names.filter((n) => n.endsWith('.shp'))) {
      const lacks = [['.shx', 'its index'], ['.dbf', 'what its things are'], ['.prj', 'where on the Earth it lies']]
        .filter(([e]) => !names.includes(stem(shp) + e)).map(([e, what]) => `${stem(shp)}${e} (${t(what!)})`);
      if (lacks.length) out.push(tf(lacks.length === 1 ? '{0} needs {1}: drop that file too.' : '{0} needs {1}: drop those files too.', shp, lacks.join(t(' and '))));
    }
    for (const part of names.filter((n) => /\.(shx|dbf|prj|cpg)$/.test(n))) {
      if (!names.includes(`${stem(part)}.shp`) && !out.some((o) => o.includes(stem(part)))) out.push(tf('{0} is a part of {1}, which is not here: drop it too.', part, `${stem(part)}.shp`));
    }
    return out;
  });
  no_heights = $derived(this.ready.length > 0 && !this.going && !this.ready.some((i) => i.role === 'elevation'));
  add_path(path: string): void {
    const role = /\.(pbf|osm|xml|geojson|shp)$/i.test(path) ? 'features' : 'elevation';
    this.items.push({ name: path, share: 1, upload: null, path, role, wrong: '' });
  }
  take_out(index: number): void {
    const [item] = this.items.splice(index, 1);
    if (item?.upload) void call('DELETE /api/uploads/{id}', { id: item.upload.id }).catch(() => undefined);
  }
  async build(name: string, licence: string, then: (id: string) => void): Promise<void> {
    const of = (role: Item['role']): FileRef[] =>
      this.ready.filter((i) => i.role === role).map((i) => (i.upload ? { upload: i.upload.id } : { path: i.path! }));
    messages.take_back('ground');
    const wish = { name: name || t('My ground'), elevation: of('elevation'), features: of('features'), ...(licence ? { licence } : {}) };
    await work.build_ground(() => call('POST /api/grounds/build', {}, wish), (id) => {
      this.items = [];
      then(id);
    });
  }
}
export const files = new Files();
