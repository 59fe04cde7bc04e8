import { humDb, humsNeedlessly, humVerdict, phaseOf } from '../estimates/phase.ts';
import { AT_THE_METER, positionNetwork } from '../estimates/position-network.ts';
import { soundingCoils } from '../estimates/positions.ts';
import type { Selection } from '../model/instrument.ts';
import { partChoices, withChoices } from '../model/selection-choices.ts';
import { positionWords } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { defineInstrumentCheck, type InstrumentContext } from './instrument-check.ts';
import { say } from './say.ts';

export const humPositionHums = defineInstrumentCheck({
  code: 'hum/position-hums',
  severity: 'warning',
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'phase/position-cancels'],
  run: (context) =>
    context.positions.flatMap(({ position, selection, coils }) => {
      const level = humDb(coils);
      if (level === undefined || phaseOf(coils) === 'out') return [];
      const better = partChoices(selection)
        .flatMap((choice) => {
          const left = humOf(withChoices(selection, [choice]), context);
          return left !== undefined && humsNeedlessly(level, left) ? [{ ...choice, left }] : [];
        })
        .sort((a, b) => Number(b.turns) - Number(a.turns) || a.left - b.left);
      const [first] = better;
      if (!first) return [];
      const names = list(coils.map(({ placed }) => say`${placed.slot.name}.${placed.segment.coil.name}`));
      const falls =
        humVerdict(first.left) === 'gone' ? say`hum cancels` : say`hum is ${Math.round(level - first.left)} dB less`;
      // A dummy coil is there for its hum alone: one that adds it is joined wrongly.
      const severity = position.onPurpose ? 'information' : first.turns ? 'error' : undefined;
      return [
        {
          what: say`${capital(positionWords(position))} hums, ${Math.round(level)} dB against its strongest coil: ${names} turn the same way round.`,
          action: say`Take ${first.to} in place of ${first.from}, and ${falls}.`,
          place: position.place,
          ...(severity ? { severity } : {}),
          related: [],
          remedies: () =>
            better.map(
              ({ from, to, place, turns }, index): Remedy => ({
                title: say`${turns ? 'Turn the dummy coil round' : 'Take the other coil'}: \`${to}\` instead of \`${from}\``,
                edits: [replaceAt(place, to)],
                kind: 'build',
                preferred: index === 0,
              }),
            ),
          subject: { position: position.key.value },
        },
      ];
    }),
});

/** `undefined` where the coils then work against each other, or nobody knows what is left. */
function humOf(selection: Selection, { instrument, quickOf }: InstrumentContext): number | undefined {
  const coils = soundingCoils(positionNetwork(instrument, selection, quickOf, AT_THE_METER), 0);
  return phaseOf(coils) === 'out' ? undefined : humDb(coils);
}
