import { humDb, humsNeedlessly, humVerdict, phaseOf } from '../estimates/phase.ts';
import { AT_THE_METER, positionNetwork } from '../estimates/position-network.ts';
import { soundingCoils } from '../estimates/positions.ts';
import { servesDifferentStrings } from '../model/coil.ts';
import type { Selection } from '../model/instrument.ts';
import { mapParts, partsOf, type SelectionPart } from '../model/selection.ts';
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
      const better = [...turnedDummies(selection), ...otherCoils(selection)]
        .flatMap((choice) => {
          const left = humOf(choice.changed, context);
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

interface Choice {
  readonly changed: Selection;
  readonly from: string;
  readonly to: string;
  readonly place: Selection['place'];
  /** Leads change places; no other coil is taken. */
  readonly turns: boolean;
}

/** The selection with one split's coil exchanged for another of the same pickup. */
function otherCoils(selection: Selection): readonly Choice[] {
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
        turns: false,
      }));
  });
}

/** The selection with one part turned round that no string drives: nothing is heard of it but its hum. */
function turnedDummies(selection: Selection): readonly Choice[] {
  return partsOf(selection).flatMap((part): readonly Choice[] => {
    const sounding = (part.slot.pickup?.coils ?? []).filter(({ name }) => part.kind !== 'coil' || name === part.coil);
    if (sounding.length === 0 || sounding.some(({ serves }) => serves?.value !== 'none')) return [];
    const { text } = part.path;
    return [
      {
        changed: mapParts(selection, (each) =>
          each === part ? { kind: 'reversed', of: part, place: part.place } : each,
        ),
        from: text,
        to: `reversed ${text}`,
        place: pathOnly(part),
        turns: true,
      },
    ];
  });
}

/** The part's name without its `through …`. */
const pathOnly = ({ place, path }: SelectionPart): Selection['place'] => ({
  chunk: place.chunk,
  span: { start: place.span.start, end: place.span.start + path.text.length },
});

/** `undefined` where the coils then work against each other, or nobody knows what is left. */
function humOf(selection: Selection, { instrument, quickOf }: InstrumentContext): number | undefined {
  const coils = soundingCoils(positionNetwork(instrument, selection, quickOf, AT_THE_METER), 0);
  return phaseOf(coils) === 'out' ? undefined : humDb(coils);
}
