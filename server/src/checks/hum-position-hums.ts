import { given } from '../../../grammar/values/present.ts';
import { humDb, humsNeedlessly, humVerdict, phaseOf, strongestHum } from '../estimates/phase.ts';
import { AT_THE_METER, positionNetwork } from '../estimates/position-network.ts';
import { soundingCoils } from '../estimates/positions.ts';
import type { Selection } from '../model/instrument.ts';
import { partChoices, withChoices } from '../model/selection-choices.ts';
import { printDb } from '../quantities/print.ts';
import { HUM_WORDS } from '../words/heard.ts';
import { positionWords } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import { definePositionCheck, type InstrumentContext } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

export const humPositionHums = definePositionCheck({
  code: 'hum/position-hums',
  severity: 'warning',
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'phase/position-cancels'],
  at: ({ position, selection, coils }, context) => {
    const level = humDb(coils);
    if (level === undefined || phaseOf(coils) === 'out') return undefined;
    const better = partChoices(selection)
      .flatMap((choice) => {
        const left = humOf(withChoices(selection, [choice]), context);
        return left !== undefined && humsNeedlessly(level, left) ? [{ ...choice, left }] : [];
      })
      .sort((a, b) => Number(b.turns) - Number(a.turns) || a.left - b.left);
    const [first] = better;
    if (!first) return undefined;
    const strongest = strongestHum(coils);
    const alike = coils.filter(({ hum }) => hum === strongest);
    const names = list(alike.map(({ placed }) => say`${placed.slot.name}.${placed.segment.coil.name}`));
    const where = positionWords(position);
    const verdict = humVerdict(level);
    const db = say`${printDb(level)} against its strongest coil`;
    const hums = verdict === 'in part' ? say`In ${where} ${HUM_WORDS[verdict]}` : say`${capital(where)} hums`;
    const cause =
      alike.length > 1 ? say`${names} turn the same way round` : say`what turns against ${names} is too weak`;
    const falls =
      humVerdict(first.left) === 'gone' ? say`hum cancels` : say`hum is ${Math.round(level - first.left)} dB less`;
    // A dummy coil is there for its hum alone: one that adds it is joined wrongly.
    const severity = position.onPurpose ? 'information' : first.turns ? 'error' : undefined;
    return {
      what: say`${hums}, ${db}: ${cause}.`,
      action: say`Take ${first.to} in place of ${first.from}, and ${falls}.`,
      ...given({ severity }),
      remedies: () =>
        better.map(({ from, to, place, turns }, index) =>
          remedy(
            say`${turns ? 'Turn the dummy coil round' : 'Take the other coil'}: \`${to}\` instead of \`${from}\``,
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
