import { describe, expect, it } from 'vitest';
import type { ConditionRow } from '../api/types';
import { failing } from './conditions.svelte';

const row = (condition: ConditionRow['condition'], verdict: ConditionRow['verdict']) => ({ condition, verdict }) as ConditionRow;

describe('when the day changes', () => {
  it('names first what is outside the limits, then what is not judged, and nothing that holds', () => {
    const rows = [row('as_planned', 'within'), row('cloud', 'not_judged'), row('hour_late', 'close_to'), row('snow', 'outside')];
    expect(failing(rows).map((r) => r.condition)).toEqual(['snow', 'cloud']);
  });
});
