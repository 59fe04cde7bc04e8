/** What hangs on a pickup in a plot of its response, in words. */
import type { Dimension } from '../../../../grammar/values/unit-table.ts';
import type { Load } from '../../estimates/pickup-estimates.ts';
import { printValue } from '../../quantities/print.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';

export function loadWords({ volumeOhm, toneOhm, toneF, cableF, inputOhm }: Load, t: Language): string {
  const shown = (value: number, dimension: Dimension) => printValue({ value, dimension, style: t.numbers });
  if (volumeOhm === undefined && inputOhm === undefined) return t('no load');
  const pot = (what: PlainText, ohm: number | undefined) =>
    ohm === undefined ? [] : [`${shown(ohm, 'resistance')} ${t(what)}`];
  const pots =
    volumeOhm === toneOhm
      ? pot('volume and tone at 10', volumeOhm)
      : [...pot('volume at 10', volumeOhm), ...pot('tone at 10', toneOhm)];
  return [
    ...pots,
    ...(toneF > 0 ? [shown(toneF, 'capacitance')] : []),
    t('{0} of cable', shown(cableF, 'capacitance')),
    ...(inputOhm === undefined ? [] : [t('{0} input', shown(inputOhm, 'resistance'))]),
  ].join(', ');
}
