import { afterEach, expect, it } from 'vitest';
import { language } from './language.svelte';
import { in_words } from './messages.svelte';

const fault = {
  code: 'bad_input' as const, message: 'expected a whole number from 1 to 40', where: 'party.size', what_to_do: null,
  in_german: { message: 'erwartet wird eine ganze Zahl von 1 bis 40', what_to_do: null },
};

afterEach(() => { language.now = 'en'; });

it('a refusal is said in the language of the page, its figures with it', () => {
  expect(in_words(fault)).toBe('Expected a whole number from 1 to 40.');
  language.now = 'de';
  expect(in_words(fault)).toBe('Erwartet wird eine ganze Zahl von 1 bis 40.');
});

it('what has no German stays whole in English', () => {
  language.now = 'de';
  const { in_german, ...bare } = fault;
  expect(in_german.what_to_do).toBeNull();
  expect(in_words({ ...bare, what_to_do: 'Give another number.' })).toBe('Expected a whole number from 1 to 40. Give another number.');
});
