/// What the page has to say, in a row of its own above the map; it covers nothing.
import { said } from '../format/fault';
import type { Fault } from '../api/types';
import { language, t } from './language.svelte';

/** A refusal in the page's language; English where the program has no German for a word of it. */
export function in_words(fault: Fault): string {
  if (language.now === 'de' && fault.in_german) return said({ ...fault, ...fault.in_german });
  return said({ ...fault, message: t(fault.message), what_to_do: fault.what_to_do ? t(fault.what_to_do) : null });
}

export interface Action {
  words: string;
  main?: boolean;
  run: () => void;
}
export interface Message {
  key: string;
  kind: 'news' | 'warning' | 'error';
  title: string;
  text: string;
  place?: string;
  actions: Action[];
}

class Messages {
  list = $state<Message[]>([]);

  /** A message with the same key takes the place of the one before. */
  say(message: Message): void {
    const at = this.list.findIndex((m) => m.key === message.key);
    if (at < 0) this.list.push(message);
    else this.list[at] = message;
  }
  take_back(key: string): void {
    this.list = this.list.filter((m) => m.key !== key);
  }
  /** A refusal, in the user's words, with what to do and what is unchanged. */
  fault(key: string, title: string, fault: Fault, actions: Action[] = []): void {
    this.say({
      key,
      kind: 'error',
      title,
      text: in_words(fault),
      ...(fault.where ? { place: fault.where } : {}),
      actions: [...actions, { words: 'Close', run: () => this.take_back(key) }],
    });
  }
}
export const messages = new Messages();
