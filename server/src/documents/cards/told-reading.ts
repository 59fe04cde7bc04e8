/** A reading as its reader reads it: in English as it was written down, else in words, with as many digits as were written. */
import type { Quantity } from '../../../../grammar/values/quantity.ts';
import { unitOf } from '../../../../grammar/values/unit-table.ts';
import type { Probes } from '../../model/lead.ts';
import type { Reading } from '../../model/readings.ts';
import { polesWords } from '../../words/directions.ts';
import type { Language } from '../../words/languages/language.ts';

export function toldReading(reading: Reading, t: Language): string {
  if (t.code === 'en') return asWritten(reading);
  const value = (shown: Quantity | 'open') => (shown === 'open' ? t('open') : toldQuantity(shown, t));
  switch (reading.kind) {
    case 'coil resistance':
      return `${t('{0} coil', reading.coil.text)} ${value(reading.value)}`;
    case 'resistance':
      return `${betweenWords(reading.probes, t)} ${value(reading.value)}`;
    case 'kick': {
      const [red, black] = [t.word(reading.probes.red.text), t.word(reading.probes.black.text)];
      const shown = `${t(reading.motion)} ${t(reading.reads)}`;
      return t('kick, red on {0}, black on {1}: {2}', red, black, shown);
    }
    case 'compass':
      return t('compass over the {0} coil: {1}', reading.coil.text, polesWords(reading.shows, t));
    case 'inductance': {
      const at = reading.atHz ? t(' at {0}', toldQuantity(reading.atHz, t)) : '';
      return `${t('inductance')} ${betweenWords(reading.probes, t)} ${value(reading.value)}${at}`;
    }
    case 'capacitance': {
      const between = reading.probes ? ` ${betweenWords(reading.probes, t)}` : '';
      return `${t('capacitance')}${between} ${value(reading.value)}`;
    }
    case 'position':
      return `${t('position {0}', reading.key.value)}: ${value(reading.value)}`;
  }
}

/** `4.10 kohm`; in German `4,10 kΩ`: a digit that was written is one that was read. */
export function toldQuantity({ written }: Quantity, t: Language): string {
  if (typeof t.numbers !== 'object') return written;
  const sign = t.numbers.decimalSign;
  return written
    .split(' ')
    .map((part) =>
      /^\d/.test(part) ? part.replaceAll('_', '\u202F').replace('.', sign) : (unitOf(part)?.printed ?? part),
    )
    .join('\u202F');
}

const asWritten = ({ place: { chunk, span } }: Reading): string => chunk.text.slice(span.start, span.end).trim();

const betweenWords = ({ red, black }: Probes, t: Language): string =>
  t('between {0} and {1}', t.word(red.text), t.word(black.text));
