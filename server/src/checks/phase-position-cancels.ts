import { heardTogether, type SoundingCoil } from '../estimates/positions.ts';
import type { Slot } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import { positionWords } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import { flipBar, flipPolarity, present, rewriteJoint } from './edits.ts';
import type { Edit, Remedy } from './finding.ts';
import { defineInstrumentCheck, onPurposeEdit, type SolvedPosition } from './instrument-check.ts';
import { ownEdits } from './own-edits.ts';

export const positionCancels = defineInstrumentCheck({
  code: 'phase/position-cancels',
  severity: 'error',
  yieldsTo: ['circuit/open', 'circuit/output-shorted'],
  run: ({ positions }) =>
    positions.flatMap((solved) => {
      const { position, coils } = solved;
      const against = opposed(coils);
      const first = against[0];
      if (!first) return [];
      const others = coils.filter((each) => !against.includes(each));
      const quiet = coils.every(({ hum }) => hum !== undefined) && humOf(coils) < 0.5;
      return [
        {
          message:
            `In ${positionWords(position)} ${partsWords(against)} ${against.length > 1 && slots(against).length > 1 ? 'work' : 'works'} against ${partsWords(others)}: ` +
            `string signals subtract, the sound is thin${quiet ? '; hum still cancels' : ''}.`,
          place: position.place,
          ...(position.onPurpose ? { severity: 'information' as const } : {}),
          related: slots([...against, ...others]).map((slot) => ({
            message: `${slot.name} is fitted here`,
            place: slot.place,
          })),
          remedies: () => remedies(solved, against, others),
          subject: { position: position.key.value, coils: against.map(({ placed }) => placed.segment.coil.name) },
        },
      ];
    }),
});

/** Coils that stand against the larger part; what one pickup does inside itself is told at the pickup. */
function opposed(coils: readonly SoundingCoil[]): readonly SoundingCoil[] {
  const known = coils.filter(({ string }) => string !== undefined);
  const clash = known.some((a) =>
    known.some((b) => a.string !== b.string && heardTogether(a, b) && !insideOnePickup(a, b)),
  );
  if (!clash) return [];
  const weight = (sign: number) =>
    known.filter(({ string }) => string === sign).reduce((sum, { transfer }) => sum + Math.abs(transfer), 0);
  const [plus, minus] = [weight(1), weight(-1)];
  const alike = Math.abs(plus - minus) < 0.05 * Math.max(plus, minus);
  const lesser = alike ? known[0]?.string : plus < minus ? 1 : -1;
  return known.filter((each) => each.string === lesser);
}

/** Both coils of a pickup that the position takes as its hookup joins it. */
export const insideOnePickup = (a: SoundingCoil, b: SoundingCoil): boolean =>
  a.placed.slot === b.placed.slot && prefixOf(a) === prefixOf(b);

const prefixOf = ({ placed }: SoundingCoil): string =>
  placed.segment.source.slice(0, placed.segment.source.lastIndexOf('.'));

const slots = (coils: readonly SoundingCoil[]): readonly Slot[] => [...new Set(coils.map(({ placed }) => placed.slot))];

function partsWords(coils: readonly SoundingCoil[]): string {
  return list(
    slots(coils).map((slot) => {
      const own = coils.filter(({ placed }) => placed.slot === slot).map(({ placed }) => placed.segment.coil.name);
      const all = slot.pickup?.coils.length ?? 0;
      return own.length < all ? `the ${list(own)} coil of ${slot.name}` : slot.name;
    }),
  );
}

/** Hum against what the coils would give adding up. */
function humOf(coils: readonly SoundingCoil[]): number {
  const total = coils.reduce((sum, { hum = 1, transfer }) => sum + hum * Math.abs(transfer), 0);
  return Math.abs(total) / coils.reduce((sum, { transfer }) => sum + Math.abs(transfer), 0);
}

function remedies(
  { position }: SolvedPosition,
  against: readonly SoundingCoil[],
  others: readonly SoundingCoil[],
): readonly Remedy[] {
  const forSlot = (slot: Slot, preferred: boolean): readonly (Remedy | undefined)[] => {
    const { pickup } = slot;
    if (!pickup) return [];
    const own = (edits: readonly Edit[] | undefined) => edits && ownEdits(edits, pickup);
    const turned = own(turnMagnet(pickup));
    const swapped = own(swapHotAndGround(pickup));
    return [
      turned && { title: `Turn the magnet of ${slot.name} over`, edits: turned, kind: 'build', preferred },
      swapped && { title: `Swap hot and ground of ${slot.name}`, edits: swapped, kind: 'build' },
    ];
  };
  return present([
    ...slots(against).flatMap((slot) => forSlot(slot, true)),
    ...slots(others).flatMap((slot) => forSlot(slot, false)),
    {
      title: `${capital(positionWords(position))} is meant: say \`on purpose\``,
      edits: [onPurposeEdit(position)],
      kind: 'build',
    },
  ]);
}

/** The bar, or every coil's own rods. */
export function turnMagnet(pickup: Pickup): readonly Edit[] | undefined {
  const bar = flipBar(pickup);
  if (bar) return [bar];
  return flipPolarity(pickup.coils, pickup);
}

export function swapHotAndGround(pickup: Pickup): readonly Edit[] | undefined {
  const joints = pickup.hookup?.joints ?? [];
  const [hot, ground] = [joints.find(({ kind }) => kind === 'hot'), joints.find(({ kind }) => kind === 'ground')];
  if (!hot || !ground) return undefined;
  return [
    rewriteJoint(
      hot,
      ground.leads.map(({ text }) => text),
    ),
    rewriteJoint(
      ground,
      hot.leads.map(({ text }) => text),
    ),
  ];
}
