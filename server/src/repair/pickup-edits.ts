import { present } from '../../../grammar/values/present.ts';
/** What to write so that a pickup's text says what was changed. */
import {
  flipBar,
  flipPolarity,
  flipWinding,
  insertFirstLine,
  insertLineAfter,
  replaceAt,
  replaceWord,
  rewriteJoint,
} from '../checks/edits.ts';
import type { Edit } from '../checks/finding.ts';
import { asLaterState, isReadOverHookup } from '../checks/later-state.ts';
import { ownEdits } from '../checks/own-edits.ts';
import { COIL_ENDS, type Coil } from '../model/coil.ts';
import { leadTexts, type Pickup } from '../model/pickup.ts';
import { samePlace } from '../model/place.ts';

/** `inSight`: all that may be made like it. `undefined` where the text does not hold what would have to change. */
export function pickupEdits(before: Pickup, after: Pickup, inSight: readonly Pickup[]): readonly Edit[] | undefined {
  const edits = editsAnywhere(before, after);
  if (!edits || edits.length === 0) return edits;
  // Poles that only readings tell of are told by them of the state before.
  const seen = before.coils.some(({ polarity }, index) => !polarity && after.coils[index]?.polarity);
  return seen || isReadOverHookup(before) ? asLaterState(before, edits, inSight) : ownEdits(edits, before);
}

/** In its own text and in that which it takes over. */
function editsAnywhere(before: Pickup, after: Pickup): readonly Edit[] | undefined {
  const pairs = before.coils.map((coil, index) => ({ coil, changed: after.coils[index] ?? coil }));
  const rewound = pairs.filter(({ coil, changed }) => coil.wound && coil.wound.value !== changed.wound?.value);
  const turned = pairs.filter(({ coil, changed }) => coil.polarity && coil.polarity.value !== changed.polarity?.value);
  const groups: readonly (readonly (Edit | undefined)[] | undefined)[] = [
    rewound.length > 0
      ? flipWinding(
          rewound.map(({ coil }) => coil),
          before,
        )
      : [],
    turned.length > 0
      ? flipPolarity(
          turned.map(({ coil }) => coil),
          before,
        )
      : [],
    barEdits(before, after),
    pairs.flatMap(({ coil, changed: { polarity } }) =>
      polarity && !coil.polarity ? [insertFirstLine(coil.place, `polarity ${polarity.value}`)] : [],
    ),
    ...pairs.map(({ coil, changed }) => statedWind(coil, changed)),
    ...pairs.map(({ coil, changed }) => spindleEdits(coil, changed, before)),
    ...pairs.map(({ coil, changed }) => leadEdits(coil, changed)),
    jointEdits(before, after),
  ];
  const edits = groups.flatMap((each) => each ?? [undefined]);
  return edits.includes(undefined) ? undefined : present(edits);
}

const barEdits = (before: Pickup, after: Pickup): readonly (Edit | undefined)[] =>
  before.barMagnet?.value.pole === after.barMagnet?.value.pole ? [] : [flipBar(before)];

/** A wind that nothing stated before. */
function statedWind(coil: Coil, { wound }: Coil): readonly Edit[] {
  return wound && !coil.wound ? [insertFirstLine(coil.place, `wound ${wound.value}`)] : [];
}

function spindleEdits({ spindle, place }: Coil, changed: Coil, { coils }: Pickup): readonly (Edit | undefined)[] {
  const now = changed.spindle?.value;
  if (!spindle || !now || spindle.value.rotation === now.rotation) return [];
  const shared = coils.filter((each) => each.spindle && samePlace(each.spindle.place, spindle.place)).length > 1;
  if (shared) return [insertFirstLine(place, `spindle ${now.rotation}, ${now.towardIt} toward it`)];
  return [replaceWord(spindle.place, spindle.value.rotation, now.rotation)];
}

function leadEdits(coil: Coil, changed: Coil): readonly Edit[] {
  return present(
    COIL_ENDS.map((end) => {
      const [was, is] = [coil[end], changed[end]];
      if (!was || !is || was === is) return undefined;
      const [from, to] = [was.value.to?.value, is.value.to?.value];
      if (from && to) return from.text === to.text ? undefined : replaceAt(from.place, to.text);
      return is.value.own ? replaceAt(was.place, `${end} ${is.value.own.value}`) : undefined;
    }),
  );
}

function jointEdits(before: Pickup, after: Pickup): readonly Edit[] {
  const [was, is] = [before.hookup?.joints ?? [], after.hookup?.joints ?? []];
  const last = was.at(-1);
  return is.flatMap((joint, index): readonly Edit[] => {
    const old = was[index];
    if (!old) return last ? [insertLineAfter(last.place, `${joint.kind} ${leadTexts(joint).join(' ')}`)] : [];
    return leadTexts(old).join(' ') === leadTexts(joint).join(' ') ? [] : [rewriteJoint(old, leadTexts(joint))];
  });
}
