/// Changes of a trip as pure functions: what the server will do, done here first, so that the page
/// does not wait for it.
import type { Change, TripState } from '../api/types';

const unescape = (part: string) => part.replace(/~1/g, '/').replace(/~0/g, '~');

/** The value at a JSON pointer; undefined where there is none. */
export function at(state: unknown, path: string): unknown {
  let here: unknown = state;
  for (const part of path.split('/').slice(1).map(unescape)) {
    if (here === null || typeof here !== 'object') return undefined;
    here = (here as Record<string, unknown>)[part];
  }
  return here;
}

/** A copy of `state` with one change made; what lies beside the path is shared with the original. */
function with_change<T>(state: T, parts: string[], value: unknown): T {
  const [first, ...rest] = parts;
  if (first === undefined) return value as T;
  const copy = { ...((state ?? {}) as Record<string, unknown>) };
  if (rest.length) copy[first] = with_change(copy[first], rest, value);
  else if (value === null && first !== 'ground_id' && first !== 'chosen_way' && first !== 'sheets') delete copy[first];
  else copy[first] = value;
  return copy as T;
}

export function apply(state: TripState, changes: readonly Change[]): TripState {
  return changes.reduce((s, c) => with_change(s, c.path.split('/').slice(1).map(unescape), c.value), state);
}

/** Later changes of the same path replace earlier ones that were not sent yet. */
export function squeeze(changes: readonly Change[]): Change[] {
  const last = new Map<string, Change>();
  for (const change of changes) {
    last.delete(change.path);
    last.set(change.path, change);
  }
  return [...last.values()];
}

/** The pointer of a key as the trip file writes it: "party.size" -> "/document/party/size". */
export const pointer = (key: string) => `/document/${key.replace(/\./g, '/')}`;
