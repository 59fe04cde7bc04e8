/** What an instrument is played through and how its pots stand, in words. */
import type { Played } from '../estimates/position-network.ts';
import { BLEND_MIDDLE } from '../estimates/position-network.ts';
import type { Instrument } from '../model/instrument.ts';
import { type PrintedDimension, printValue } from '../quantities/print.ts';
import type { Language } from './languages/language.ts';

/** `450 pF of cable, assumed, 1 MΩ input, assumed, pots at 10` */
export function settingWords(instrument: Instrument, played: Played, t: Language): string {
  const { cable, input } = instrument;
  const shown = (value: number, dimension: PrintedDimension) => printValue({ value, dimension, style: t.numbers });
  const cableText =
    played.cableF !== undefined
      ? t('{0} of cable', shown(played.cableF, 'capacitance'))
      : cable === undefined
        ? t('{0}, assumed', t('{0} of cable', '450\u202FpF'))
        : t('{0} cable', shown(cable.value.length.si, 'length'));
  const inputText =
    input === undefined
      ? t('{0}, assumed', t('{0} input', '1\u202FMΩ'))
      : t('{0} input', shown(input.value.si, 'resistance'));
  return `${cableText}, ${inputText}, ${potSettingWords(instrument, played, t)}`;
}

/** `volume 10, tone 10, blend 5, neck at volume 7 and tone 10`; `pots at 10` where all stand alike. */
export function potSettingWords({ controls }: Instrument, { volume, tone, blend, apart }: Played, t: Language): string {
  const hasBlend = controls.some(({ kind }) => kind === 'blend');
  if (volume === tone && !apart && !hasBlend) return t('pots at {0}', String(volume));
  const own = Object.entries(apart ?? {}).map(([slot, knobs]) =>
    t('{0} at volume {1} and tone {2}', slot, String(knobs.volume ?? volume), String(knobs.tone ?? tone)),
  );
  const blends = hasBlend ? [t('blend {0}', String(blend ?? BLEND_MIDDLE))] : [];
  return [t('volume {0}', String(volume)), t('tone {0}', String(tone)), ...blends, ...own].join(', ');
}
