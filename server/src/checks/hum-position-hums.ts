import { given } from '../../../grammar/values/present.ts';
import { humDb, humsNeedlessly, humVerdict, isHumMeasurable, phaseOf, strongestHum } from '../estimates/phase.ts';
import { AT_THE_METER, positionNetwork } from '../estimates/position-network.ts';
import { soundingCoils } from '../estimates/positions.ts';
import type { Selection } from '../model/instrument.ts';
import { partChoices, withChoices } from '../model/selection-choices.ts';
import { printDb } from '../quantities/print.ts';
import { positionWords } from '../words/parts.ts';
import { capital, listIn } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import { definePositionCheck, type InstrumentContext } from './instrument-check.ts';
import { remedy } from './remedy.ts';

export const humPositionHums = definePositionCheck({
  code: 'hum/position-hums',
  severity: 'warning',
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'phase/position-cancels'],
  at: ({ position, selection, coils }, context) => {
    const db = humDb(coils);
    if (db === undefined || phaseOf(coils) === 'out') return undefined;
    const better = partChoices(selection)
      .flatMap((choice) => {
        const left = humOf(withChoices(selection, [choice]), context);
        return left !== undefined && humsNeedlessly(db, left) ? [{ ...choice, left }] : [];
      })
      .sort((a, b) => Number(b.turns) - Number(a.turns) || a.left - b.left);
    const [first] = better;
    if (!first) return undefined;
    const strongest = strongestHum(coils);
    const alike = coils.filter(({ hum }) => hum === strongest);
    const names = alike.map(({ placed }) => `${placed.slot.name}.${placed.segment.coil.name}`);
    const verdict = humVerdict(db);
    const isMeasurable = isHumMeasurable(coils);
    // A dummy coil is there for its hum alone: one that adds it is joined wrongly.
    const severity = position.onPurpose ? 'information' : first.turns ? 'error' : undefined;
    return {
      what: (t) => {
        const why = t(
          alike.length > 1 ? '{0} turn the same way round' : 'what turns against {0} is too weak',
          listIn(t, names),
        );
        const where = positionWords(position, t);
        if (!isMeasurable)
          return verdict === 'in part'
            ? t('In {0} hum cancels in part: {1}.', where, why)
            : t('{0} hums: {1}.', capital(where), why);
        const level = printDb(db, { style: t.numbers });
        return verdict === 'in part'
          ? t('In {0} hum cancels in part, {1} against its strongest coil: {2}.', where, level, why)
          : t('{0} hums, {1} against its strongest coil: {2}.', capital(where), level, why);
      },
      action: (t) => {
        if (humVerdict(first.left) === 'gone')
          return t('Take {0} in place of {1}, and hum cancels.', first.to, first.from);
        return isMeasurable
          ? t(
              'Take {0} in place of {1}, and hum is {2} dB less.',
              first.to,
              first.from,
              String(Math.round(db - first.left)),
            )
          : t('Take {0} in place of {1}, and hum is less.', first.to, first.from);
      },
      ...given({ severity }),
      remedies: () =>
        better.map(({ from, to, place, turns }, index) =>
          remedy(
            (t) =>
              t(
                turns
                  ? 'Turn the dummy coil round: `{0}` instead of `{1}`'
                  : 'Take the other coil: `{0}` instead of `{1}`',
                to,
                from,
              ),
            replaceAt(place, to),
            index === 0,
          ),
        ),
    };
  },
});

/** `undefined` where the coils then work against each other, or nobody knows what is left. */
function humOf(selection: Selection, { instrument, quickOf }: InstrumentContext): number | undefined {
  const coils = soundingCoils(positionNetwork(instrument, selection, quickOf, AT_THE_METER), 0);
  return phaseOf(coils) === 'out' ? undefined : humDb(coils);
}
