import { expect, it } from 'vitest';
import { said } from './fault';

it('a refusal is said in whole sentences', () => {
  const fault = { code: 'bad_input' as const, message: 'party.size: 1 to 50 expected', where: null, what_to_do: 'Give a whole number.' };
  expect(said(fault)).toBe('Party.size: 1 to 50 expected. Give a whole number.');
  expect(said({ ...fault, message: 'Nothing there!', what_to_do: null })).toBe('Nothing there!');
});
