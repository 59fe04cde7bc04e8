import { HUMS_ABOVE_DB, QUIET_BELOW_DB } from '../estimates/common-practice.ts';
import { humDb, phaseOf } from '../estimates/phase.ts';
import { AT_THE_METER, positionNetwork } from '../estimates/position-network.ts';
import { soundingCoils } from '../estimates/positions.ts';
import { servesDifferentStrings } from '../model/coil.ts';
import type { Selection } from '../model/instrument.ts';
import { mapParts, partsOf } from '../model/selection.ts';
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
      if (level === undefined || level < HUMS_ABOVE_DB || phaseOf(coils) === 'out') return [];
      const better = otherChoices(selection).filter(({ changed }) => cancels(changed, context));
      const first = better[0];
      if (!first) return [];
      return [
        {
          what: say`${capital(positionWords(position))} hums, ${Math.round(level)} dB against its strongest coil: ${list(coils.map(({ placed }) => say`${placed.slot.name}.${placed.segment.coil.name}`))} turn the same way round.`,
          action: say`Take ${first.to} in place of ${first.from}, and hum cancels.`,
          place: position.place,
          ...(position.onPurpose ? { severity: 'information' as const } : {}),
          related: [],
          remedies: () =>
            better.map(
              ({ from, to, place }, index): Remedy => ({
                title: say`Take the other coil: \`${to}\` instead of \`${from}\``,
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

interface Choice {
  readonly changed: Selection;
  readonly from: string;
  readonly to: string;
  readonly place: Selection['place'];
}

/** The selection with one split's coil exchanged for another of the same pickup. */
function otherChoices(selection: Selection): readonly Choice[] {
  return partsOf(selection).flatMap((part) => {
    if (part.kind !== 'coil') return [];
    const coils = part.slot.pickup?.coils ?? [];
    const taken = coils.find(({ name }) => name === part.coil);
    // A half that senses other strings is no choice in place of this one.
    return coils
      .filter((each) => each !== taken && !(taken && servesDifferentStrings(each, taken)))
      .map(({ name }) => ({
        changed: mapParts(selection, (each) => (each === part ? { ...part, coil: name } : each)),
        from: part.path.text,
        to: `${part.slot.name}.${name}`,
        place: pathOnly(part),
      }));
  });
}

/** The part's name without its `through …`. */
const pathOnly = ({ place, path }: Extract<Selection, { kind: 'coil' }>): Selection['place'] => ({
  chunk: place.chunk,
  span: { start: place.span.start, end: place.span.start + path.text.length },
});

function cancels(selection: Selection, { instrument, quickOf }: InstrumentContext): boolean {
  const coils = soundingCoils(positionNetwork(instrument, selection, quickOf, AT_THE_METER), 0);
  const level = humDb(coils);
  return level !== undefined && level < QUIET_BELOW_DB && phaseOf(coils) !== 'out';
}
