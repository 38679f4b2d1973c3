import { describe, expect, it } from 'vitest';
import { clock, day, duration, far, height, height_steps, length, minute_of, of_hundred, plain, shown_unit, size } from './units';

describe('figures', () => {
  it('writes durations as the card does', () => {
    expect(duration(231)).toBe('3 h 51');
    expect(duration(182.4)).toBe('3 h 02');
    expect(duration(59.6)).toBe('1 h 00');
    expect(duration(-78)).toBe('−1 h 18');
    expect(duration(-0.2)).toBe('0 min');
  });
  it('writes and reads clocks', () => {
    expect(clock(855)).toBe('14:15');
    expect(clock(1445)).toBe('00:05');
    expect(minute_of('09:15')).toBe(555);
    expect(minute_of('24:00')).toBeNull();
    expect(minute_of('9.15')).toBeNull();
  });
  it('never says 100 of 100 of what is not certain', () => {
    expect(of_hundred(0.9971)).toBe('99');
    expect(of_hundred(1)).toBe('100');
    expect(of_hundred(0.675)).toBe('67');
    expect(of_hundred(0.29)).toBe('29');
    expect(of_hundred(0.004)).toBe('0');
  });
  // International foot, mile and pound: exact by definition (1959 agreement).
  it('shows other units by their definitions', () => {
    expect(shown_unit('m', 'imperial').per).toBe(0.3048);
    expect(plain(4 / shown_unit('km/h', 'imperial').per)).toBe('2.49');
    expect(plain(9 / shown_unit('kg', 'imperial').per, 1)).toBe('19.8');
    expect(shown_unit('°', 'imperial')).toEqual({ unit: '°', per: 1 });
  });
  // 1018 m are 0.6326 mi, 550 m 1804.5 ft, 25 m 82.0 ft, 5 m 16.4 ft; 1344 m 4409.4 ft.
  it('counts feet and miles as people say them, as card and sheet do', () => {
    expect(length(1018, 'imperial')).toBe('0.6 mi');
    expect(length(550, 'imperial')).toBe('1800 ft');
    expect(length(25, 'imperial')).toBe('80 ft');
    expect(length(5, 'imperial')).toBe('16 ft');
    expect(height(1344, 'imperial')).toBe('4410 ft');
    expect(far(11_000, 'imperial')).toBe('6.8 mi');
    expect(far(1147, 'metric')).toBe('1\u202f147 m');
    expect(length(782, 'metric')).toBe('782 m');
  });
  it('steps heights by round figures of the shown unit', () => {
    expect(height_steps(180, 724, 3, 'metric').map((s) => s.text)).toEqual(['200 m', '400 m', '600 m']);
    expect(height_steps(180, 724, 3, 'imperial').map((s) => s.text)).toEqual(['1000 ft', '2000 ft']);
  });
  it('writes days and sizes', () => {
    expect(day('2026-11-14')).toBe('Sat 14 Nov 2026');
    // The comma and the points of German dates, as in Duden's rules for dates.
    expect(day('2026-11-14', 'de')).toBe('Sa., 14. Nov. 2026');
    expect(day('soon')).toBe('soon');
    expect(size(412)).toBe('1 kB');
    expect(size(4_210_000)).toBe('4.2 MB');
  });
});
