/** How a target and what the build comes to are told. */
import type { Aim, JudgedAim } from '../estimates/aims.ts';
import { printCelsius, printNumber, printQuantity } from '../quantities/print.ts';
import { numberText } from './number-text.ts';
import { type NumberName, PICKUP_NUMBERS } from './numbers.ts';

/** What the number of a target is called. */
export function aimName({
  aim: { kind, between, against, load = 'loaded' },
  roomC,
}: Pick<JudgedAim, 'aim' | 'roomC'>): NumberName<string> {
  switch (kind) {
    case 'resistance':
      return { what: `resistance hot to ground at ${printCelsius(roomC)}`, dimension: 'resistance', none: 'open' };
    case 'inductance':
      return PICKUP_NUMBERS.inductanceH;
    case 'resonance':
      return { ...PICKUP_NUMBERS.resonanceHz, what: `${load} ${PICKUP_NUMBERS.resonanceHz.what}` };
    case 'peak':
      return { ...PICKUP_NUMBERS.peakDb, what: `${load} ${PICKUP_NUMBERS.peakDb.what}`, none: 'no peak' };
    case 'output':
      return { what: `output against ${against?.name ?? 'another pickup'}`, dimension: 'level', decimals: 1 };
    case 'hum':
      return { ...PICKUP_NUMBERS.humDb, what: 'hum that is left' };
    case 'mismatch':
      return {
        what: `mismatch of ${between?.coil ?? ''} against ${between?.other ?? ''}`,
        dimension: 'percentage',
        decimals: 1,
      };
  }
}

/** `resonance of 2.4 kHz loaded`, `slug 20 % heavier than screw` */
export function aimWords({ kind, written, wanted, between, against, load }: Aim): string {
  if (between) return `${between.coil} ${written} ${wanted < 0 ? 'lighter' : 'heavier'} than ${between.other}`;
  if (against) return `output of ${written} against ${against.name}`;
  return `${kind} of ${written}${load === undefined ? '' : ` ${load}`}`;
}

/** `6.42 ± 0.04 kΩ`; of two coils `22 ± 2 %`. */
export const reachedText = (judged: JudgedAim): string =>
  judged.reached === undefined ? 'not known yet' : numberText(judged.reached, aimName(judged));

/** `12 % above`, `3.4 dB below` */
export function gapWords({ kind, wanted }: Aim, value: number): string {
  const off = value - wanted;
  const side = off > 0 ? 'above' : 'below';
  if (kind === 'peak' || kind === 'output' || kind === 'hum')
    return `${printQuantity({ value: Math.abs(off), dimension: 'level', decimals: 1 })} ${side}`;
  const percent = 100 * Math.abs(kind === 'mismatch' ? off : off / wanted);
  return `${printNumber(percent, percent < 1 ? 1 : 0)} % ${side}`;
}

/** `72 in 100`, `more than 99 in 100` */
export function oddsWords(odds: number): string {
  if (odds > 0.995) return 'more than 99 in 100';
  return odds < 0.005 ? 'less than 1 in 100' : `${Math.round(100 * odds)} in 100`;
}

/** `reached`, `missed, 12 % above`, `not decidable, 40 in 100` */
export function verdictWords({ aim, reached, odds, verdict }: JudgedAim): string {
  if (verdict === undefined || reached === undefined || odds === undefined) return 'not known yet';
  if (verdict === 'missed') return reached === null ? 'missed' : `missed, ${gapWords(aim, reached.value)}`;
  return verdict === 'reached' ? verdict : `not decidable within the uncertainty, odds ${oddsWords(odds)}`;
}

/** ` (± 5 %)`, where the line states no tolerance itself. */
export function toleranceWords({ kind, written, tolerance, wanted }: Aim): string {
  if (kind === 'hum' || written.includes('±')) return '';
  if (kind === 'peak' || kind === 'output') return ` (± ${printQuantity({ value: tolerance, dimension: 'level' })})`;
  return ` (± ${printNumber(100 * (kind === 'mismatch' ? tolerance : tolerance / wanted), 0)} %)`;
}
