/** How a target and what the build comes to are told. */
import type { Aim, JudgedAim } from '../estimates/aims.ts';
import { printCelsius, printNumber, printQuantity } from '../quantities/print.ts';
import { ENGLISH } from './languages/language.ts';
import { numberText } from './number-text.ts';
import { type NumberName, PICKUP_NUMBERS } from './numbers.ts';

/** What the number of a target is called. */
export function aimName(
  { aim: { kind, between, against, load = 'loaded' }, roomC }: Pick<JudgedAim, 'aim' | 'roomC'>,
  t = ENGLISH,
): NumberName<string> {
  const under = ({ what, ...number }: NumberName): NumberName<string> => ({
    ...number,
    what: t(load === 'loaded' ? 'loaded {0}' : 'unloaded {0}', t(what)),
  });
  switch (kind) {
    case 'resistance':
      return {
        what: t('resistance hot to ground at {0}', printCelsius(roomC, t.numbers)),
        dimension: 'resistance',
        none: 'open',
      };
    case 'inductance':
      return { ...PICKUP_NUMBERS.inductanceH, what: t(PICKUP_NUMBERS.inductanceH.what) };
    case 'resonance':
      return under(PICKUP_NUMBERS.resonanceHz);
    case 'peak':
      return { ...under(PICKUP_NUMBERS.peakDb), none: 'no peak' };
    case 'output':
      return {
        what: t('output against {0}', against?.name ?? t('another pickup')),
        dimension: 'level',
        decimals: 1,
      };
    case 'hum':
      return { ...PICKUP_NUMBERS.humDb, what: t('hum that is left') };
    case 'mismatch':
      return {
        what: t('mismatch of {0} against {1}', between?.coil ?? '', between?.other ?? ''),
        dimension: 'percentage',
        decimals: 1,
      };
  }
}

/** `resonance of 2.4 kHz loaded`, `slug 20 % heavier than screw` */
export function aimWords({ kind, written, wanted, between, against, load }: Aim, t = ENGLISH): string {
  if (between)
    return t(
      wanted < 0 ? '{0} {1} lighter than {2}' : '{0} {1} heavier than {2}',
      between.coil,
      written,
      between.other,
    );
  if (against) return t('output of {0} against {1}', written, against.name);
  return [t('{0} of {1}', t(kind), written), ...(load === undefined ? [] : [t(load)])].join(' ');
}

/** `6.42 ± 0.04 kΩ`; of two coils `22 ± 2 %`. */
export const reachedText = (judged: JudgedAim, t = ENGLISH): string =>
  judged.reached === undefined ? t('not known yet') : numberText(judged.reached, aimName(judged), t);

/** `12 % above`, `3.4 dB below` */
const gapWords = (aim: Aim, value: number, t = ENGLISH): string =>
  t(value > aim.wanted ? '{0} above' : '{0} below', gapText(aim, value, t));

/** `12 %`, `3.4 dB`: how far off. */
export function gapText({ kind, wanted }: Aim, value: number, t = ENGLISH): string {
  const off = value - wanted;
  if (kind === 'peak' || kind === 'output' || kind === 'hum')
    return printQuantity({ value: Math.abs(off), dimension: 'level', decimals: 1, style: t.numbers });
  const percent = 100 * Math.abs(kind === 'mismatch' ? off : off / wanted);
  return `${printNumber(percent, percent < 1 ? 1 : 0, t.numbers)}\u202F%`;
}

/** `72 in 100`, `more than 99 in 100` */
export function oddsWords(odds: number, t = ENGLISH): string {
  if (odds > 0.995) return t('more than 99 in 100');
  return odds < 0.005 ? t('less than 1 in 100') : t('{0} in 100', String(Math.round(100 * odds)));
}

/** `reached`, `missed, 12 % above`, `not decidable, 40 in 100` */
export function verdictWords({ aim, reached, odds, verdict }: JudgedAim, t = ENGLISH): string {
  if (verdict === undefined || reached === undefined || odds === undefined) return t('not known yet');
  if (verdict === 'missed') return reached === null ? t('missed') : t('missed, {0}', gapWords(aim, reached.value, t));
  return verdict === 'reached' ? t('reached') : t('not decidable within the uncertainty, odds {0}', oddsWords(odds, t));
}

/** ` (± 5 %)`, where the line states no tolerance itself. */
export function toleranceWords({ kind, written, tolerance, wanted }: Aim, t = ENGLISH): string {
  if (kind === 'hum' || written.includes('±')) return '';
  if (kind === 'peak' || kind === 'output')
    return ` (± ${printQuantity({ value: tolerance, dimension: 'level', style: t.numbers })})`;
  return ` (± ${printNumber(100 * (kind === 'mismatch' ? tolerance : tolerance / wanted), 0, t.numbers)}\u202F%)`;
}
