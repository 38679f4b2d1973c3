/// What the page speaks. English is what stands in its source; other languages come from the program's table, which has
/// the paper's words too. The choice is this browser's and is kept.
import { call, Lost, Refused } from '../api/client';

export type Speaks = 'en' | 'de';
const key = 'lodeway:language';

class Language {
  now = $state<Speaks>('en');
  private table = $state.raw<Record<string, string>>({});

  async start(): Promise<void> {
    try {
      if (localStorage.getItem(key) === 'de') await this.set('de');
    } catch {
      // Without storage the page begins in English.
    }
  }
  async set(to: Speaks): Promise<void> {
    try {
      if (to === 'de' && !Object.keys(this.table).length) this.table = (await call('GET /api/words', { language: to })).words;
      this.now = to;
      document.documentElement.lang = to;
      localStorage.setItem(key, to);
    } catch (e) {
      // The page goes on in the language that it has.
      if (!(e instanceof Lost || e instanceof Refused || e instanceof DOMException)) throw e;
    }
  }
  of(text: string): string {
    return this.now === 'en' ? text : (this.table[text] ?? text);
  }
  /**
   * Words that may end in the name of a file or a place: by the row of the table that ends in {0}.
   */
  of_named(text: string): string {
    if (this.now === 'en' || text in this.table) return this.of(text);
    const hole = '{0}';
    for (const [english, words] of Object.entries(this.table)) {
      const before = english.slice(0, -hole.length);
      if (english.endsWith(hole) && before && !before.includes('{') && text.startsWith(before))
        return words.replace(hole, () => text.slice(before.length));
    }
    return text;
  }
}
export const language = new Language();
/** The words in the page's language; what the table lacks stays English. */
export const t = (text: string) => language.of(text);
/** The same with figures in it: {0}, {1} …. */
export const tf = (text: string, ...values: readonly (string | number)[]) =>
  language.of(text).replace(/\{(\d)\}/g, (_, i: string) => String(values[Number(i)] ?? ''));
/** What the program says of a work in hand; it may name a file or a place. */
export const t_doing = (doing: string) => language.of_named(doing);
/** What the program calls a file: a sheet's name has its number in it. */
export function t_file(title: string): string {
  const sheet = /^Map sheet (\d+)$/.exec(title);
  return sheet ? tf('Map sheet {0}', sheet[1]!) : t(title);
}
