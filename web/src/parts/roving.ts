/// One stop for the tab key in a group of keys or fields; arrows go from one to the next, as in a toolbar
/// (ARIA Authoring Practices Guide, "Managing Focus Within Components Using a Roving tabindex").

/** What takes the focus in there, in order. */
const stops = 'button, input, select, a[href]';
export type Along = 'row' | 'column';

/** The place after `at` of `count` when `key` is pressed; null: the key is not ours. */
export function next_of(at: number, count: number, key: string, along: Along): number | null {
  const [back, on] = along === 'row' ? ['ArrowLeft', 'ArrowRight'] : ['ArrowUp', 'ArrowDown'];
  if (key === back) return Math.max(0, at - 1);
  if (key === on) return Math.min(count - 1, at + 1);
  if (along === 'row' && key === 'Home') return 0;
  if (along === 'row' && key === 'End') return count - 1;
  return null;
}

/** For a group: `rows` names what counts as one place of it (all stops in one are reached by tab), else each stop is one. */
export function roving(group: HTMLElement, { along = 'row', rows }: { along?: Along; rows?: string } = {}): { destroy: () => void } {
  let chosen: Element | null = null;
  const places = () => [...group.querySelectorAll<HTMLElement>(rows ?? stops)].filter((e) => rows || !e.matches(':disabled'));
  const stops_of = (place: HTMLElement) => (rows ? [...place.querySelectorAll<HTMLElement>(stops)] : [place]);
  function settle(): void {
    const all = places();
    const now = all.find((p) => p === chosen) ?? all[0];
    chosen = now ?? null;
    for (const place of all)
      for (const stop of stops_of(place)) {
        // What was unfolded is there to be worked on: it is reached whatever row is the chosen one.
        const tab = place === now || stop.closest('[data-unfolded]') ? 0 : -1;
        if (stop.tabIndex !== tab) stop.tabIndex = tab;
      }
  }
  function focused(e: FocusEvent): void {
    const place = places().find((p) => p.contains(e.target as Node));
    if (place && place !== chosen) (chosen = place), settle();
  }
  function key(e: KeyboardEvent): void {
    const target = e.target as HTMLElement;
    // Where the arrows belong to the field they stay with it.
    if (e.altKey || e.ctrlKey || e.metaKey || target.closest('[data-unfolded]') || target instanceof HTMLSelectElement) return;
    const all = places(), at = all.findIndex((p) => p.contains(target));
    const to = at < 0 ? null : next_of(at, all.length, e.key, along);
    if (to === null) return;
    e.preventDefault();
    e.stopPropagation();
    const which = stops_of(all[at]!).indexOf(target), into = stops_of(all[to]!);
    (into[which] ?? into[0])?.focus();
  }
  settle();
  const seen = new MutationObserver(settle);
  seen.observe(group, { childList: true, subtree: true, attributes: true, attributeFilter: ['disabled', 'data-unfolded'] });
  group.addEventListener('focusin', focused);
  group.addEventListener('keydown', key);
  return {
    destroy() {
      seen.disconnect();
      group.removeEventListener('focusin', focused);
      group.removeEventListener('keydown', key);
    },
  };
}
