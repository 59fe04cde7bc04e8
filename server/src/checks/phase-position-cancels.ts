import type { Some } from '../../../grammar/values/present.ts';
import { HUMS_ABOVE_DB } from '../estimates/common-practice.ts';
import { hearsStrings, humDb, humVerdict, opposed, pairsHeard } from '../estimates/phase.ts';
import type { QuickOf } from '../estimates/position-network.ts';
import { insideOnePickup, type SoundingCoil } from '../estimates/positions.ts';
import type { Slot } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Language, Wording } from '../words/languages/language.ts';
import { positionWords } from '../words/parts.ts';
import { hasUnseenPoles, polesTurned } from '../words/pole-turning.ts';
import { capital, listIn } from '../words/text.ts';
import { flipBar, flipPolarity, flipSeenPoles } from './edits.ts';
import type { Edit, Remedy } from './finding.ts';
import { definePositionCheck, onPurposeEdit, type SolvedPosition } from './instrument-check.ts';
import { asLaterState, asSwappedSince, isReadOverHookup, swapHotAndGround, swappedSinceWords } from './later-state.ts';
import { ownEdits } from './own-edits.ts';
import { remedy, textRemedy } from './remedy.ts';

export const phasePositionCancels = definePositionCheck({
  code: 'phase/position-cancels',
  severity: 'error',
  yieldsTo: ['circuit/open', 'circuit/output-shorted'],
  at: (solved, { quickOf }) => {
    const { position, coils } = solved;
    // What one pickup does inside itself is told at the pickup.
    const across = pairsHeard(coils).filter(([a, b]) => !insideOnePickup(a, b));
    const { against, others } = opposed(coils, across, 'first');
    if (against.length === 0) return undefined;
    const hum = humDb(coils);
    const quiet = hum !== undefined && hum < HUMS_ABOVE_DB;
    return {
      what: (t) => {
        const several = against.length > 1 && slots(against).length > 1;
        const clash = t(
          several
            ? 'In {0} {1} work against {2}: string signals subtract, the sound is thin'
            : 'In {0} {1} works against {2}: string signals subtract, the sound is thin',
          positionWords(position, t),
          partsWords(against, t),
          partsWords(others, t),
        );
        if (!quiet) return `${clash}.`;
        return t(humVerdict(hum) === 'gone' ? '{0}; hum still cancels.' : '{0}; hum still cancels in part.', clash);
      },
      ...hintOf([...against, ...others]),
      ...(position.onPurpose
        ? { severity: 'information' as const }
        : { action: (t: Language) => wayOut(solved, against, quiet, t) }),
      related: slots([...against, ...others]).map((slot) => ({
        message: (t: Language) => t('{0} is fitted here', slot.name),
        place: slot.place,
      })),
      remedies: (inSight) => remedies(solved, { against, others, quiet }, { quickOf, inSight }),
      subject: { coils: against.map(({ placed }) => placed.segment.coil.name) },
    };
  },
});

const slots = (coils: readonly SoundingCoil[]): readonly Slot[] => [...new Set(coils.map(({ placed }) => placed.slot))];

function partsWords(coils: readonly SoundingCoil[], t: Language): string {
  return listIn(
    t,
    slots(coils).map((slot) => {
      const own = coils.filter(({ placed }) => placed.slot === slot).map(({ placed }) => placed.segment.coil.name);
      const all = slot.pickup?.coils.filter(hearsStrings).length ?? 0;
      return own.length < all ? t('{0} of {1}', t('the {0} coil', listIn(t, own)), slot.name) : slot.name;
    }),
  );
}

/** A kick at hot or ground speaks of the joints of its day. */
function hintOf(coils: readonly SoundingCoil[]): { readonly hint?: Wording } {
  const read = slots(coils).filter(({ pickup }) => pickup && isReadOverHookup(pickup));
  if (read.length === 0) return {};
  return {
    hint: (t) =>
      t(
        read.length > 1
          ? '{0} were read from hot to ground: a swap of the two since then must be told by `reworks`, or the reading says the opposite of what holds now.'
          : '{0} was read from hot to ground: a swap of the two since then must be told by `reworks`, or the reading says the opposite of what holds now.',
        capital(
          listIn(
            t,
            read.map(({ name }) => name),
          ),
        ),
      ),
  };
}

/** A pickup whose coils go opposite ways: turned as a whole it only changes which of them clashes with the others. */
const dividedSlot = ({ coils }: SolvedPosition): Slot | undefined =>
  slots(coils).find((slot) => {
    const own = coils.filter(({ placed, coil }) => placed.slot === slot && hearsStrings(coil));
    return own.some(({ string }) => string === 1) && own.some(({ string }) => string === -1);
  });

/** Where hum cancels, only the magnet keeps it so. */
function wayOut(solved: SolvedPosition, against: readonly SoundingCoil[], quiet: boolean, t: Language): string {
  const divided = dividedSlot(solved);
  const [slot] = slots(against);
  const poles = slot?.pickup && polesTurned(slot.pickup, slot.name, t);
  const other = divided
    ? t('Make the coils of {0} agree first', divided.name)
    : !slot || !poles
      ? t('Take another coil')
      : quiet
        ? capital(poles)
        : t('Swap hot and ground of {0}, or {1}', slot.name, poles);
  return t('{0}, or say `on purpose` behind the position where it is meant.', other);
}

interface Clash {
  readonly against: readonly SoundingCoil[];
  readonly others: readonly SoundingCoil[];
  /** Hum cancels as it is. */
  readonly quiet: boolean;
}

function remedies(
  solved: SolvedPosition,
  { against, others, quiet }: Clash,
  { quickOf, inSight }: { readonly quickOf: QuickOf; readonly inSight: readonly Pickup[] },
): Some<Remedy> {
  const forSlot = (slot: Slot, preferred: boolean): readonly (Remedy | undefined)[] => {
    const { pickup } = slot;
    if (!pickup) return [];
    const overHookup = isReadOverHookup(pickup);
    const unseen = hasUnseenPoles(pickup);
    const own = (edits: readonly Edit[] | undefined, isLater = overHookup) =>
      edits && (isLater ? asLaterState(pickup, edits, inSight) : ownEdits(edits, pickup));
    const turned = own(unseen ? flipSeenPoles(quickOf(pickup).signs) : turnMagnet(pickup), overHookup || unseen);
    const swapped = own(swapHotAndGround(pickup));
    const poles = remedy((t) => capital(polesTurned(pickup, slot.name, t)), turned, preferred && quiet);
    const leads = remedy((t) => t('Swap hot and ground of {0}', slot.name), swapped, preferred && !quiet);
    const record = overHookup ? asSwappedSince(pickup, inSight) : undefined;
    const since = record && textRemedy(swappedSinceWords(slot.name), record);
    // Leads swapped turn hum over, too: where it cancels now it would add, and where it adds it would cancel.
    return quiet ? [poles, leads, since] : [leads, poles, since];
  };
  const turns = dividedSlot(solved)
    ? []
    : [
        ...slots(against).flatMap((slot) => forSlot(slot, true)),
        ...slots(others).flatMap((slot) => forSlot(slot, false)),
      ];
  return [
    ...turns,
    remedy(
      (t) => t('{0} is meant: say `on purpose`', capital(positionWords(solved.position, t))),
      onPurposeEdit(solved.position),
    ),
  ];
}

/** The bar, or every coil's own rods. */
export function turnMagnet(pickup: Pickup): readonly Edit[] | undefined {
  const bar = flipBar(pickup);
  if (bar) return [bar];
  return flipPolarity(pickup.coils, pickup);
}
