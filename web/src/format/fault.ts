/// A refusal as sentences: what is wrong, then what to do.
import type { Fault } from '../api/types';

export const sentence = (text: string) => {
  const whole = text.trim();
  if (!whole) return '';
  const begun = whole[0]!.toUpperCase() + whole.slice(1);
  return /[.!?…]$/.test(begun) ? begun : `${begun}.`;
};
export const said = (fault: Fault) => [sentence(fault.message), sentence(fault.what_to_do ?? '')].filter(Boolean).join(' ');
