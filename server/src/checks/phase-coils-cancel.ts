import type { Some } from '../../../grammar/values/present.ts';
import { opposed, pairsHeard } from '../estimates/phase.ts';
import { soundingIn } from '../estimates/quick.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import { isBlade } from '../model/bobbin.ts';
import { type Coil, poleOf, rotationOf } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { polesWords, woundWords } from '../words/directions.ts';
import { coilWords, endLead, endsWords } from '../words/parts.ts';
import { coilPolesTurned } from '../words/pole-turning.ts';
import { capital, list } from '../words/text.ts';
import type { Found } from './check.ts';
import { flipPolarity, flipWinding, insertFirstLine, swapCoilLeads } from './edits.ts';
import type { Remedy } from './finding.ts';
import { placeOfCoilInHookup } from './joints.ts';
import { ownEdits } from './own-edits.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { meantRemedy, remedy } from './remedy.ts';
import { say } from './say.ts';

export const phaseCoilsCancel = definePickupCheck({
  code: 'phase/coils-cancel',
  severity: 'error',
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/output-shorted', 'circuit/open'],
  run: (context) => {
    const { quick, netlist, pickup } = context;
    const live = soundingIn(quick);
    // Of two, the one declared later: its leads are joined last.
    const { against, others } = opposed(live, pairsHeard(live), 'last');
    const wrong = against.map(({ coil }) => coil);
    const first = wrong[0];
    if (!first) return [];
    const coils = list(wrong.map((each) => coilWords(each)));
    const humKnown = [...against, ...others].every(({ hum }) => hum !== undefined);
    const humAdds = humKnown && [...against, ...others].every(({ hum }, _, all) => hum === all[0]?.hum);
    const onPurpose = pickup.hookup?.onPurpose;
    const found: Found = {
      what: say`${capital(coils)} (${wrong.map((coil) => endsWords(netlist, coil)).join('; ')}) ${wrong.length > 1 ? 'work' : 'works'} against ${list(others.map(({ coil }) => coilWords(coil)))}: their string signals subtract at the output${humAdds ? ', and their hum adds' : ''}; ${reason(against, others)}.`,
      action: humAdds
        ? say`Swap the leads of ${coils}.`
        : humKnown
          ? say`${capital(coilPolesTurned(pickup, wrong))}: with leads swapped, hum would add.`
          : say`Swap the leads of ${coils}${pickup.barMagnet ? '' : say`, or ${coilPolesTurned(pickup, wrong)}`}.`,
      place: placeOfCoilInHookup(netlist, first),
      ...(onPurpose ? { severity: 'information' } : {}),
      related: [...against, ...others].flatMap((each) =>
        (each.windPole?.places ?? []).map((place) => ({
          message: say`${coilWords(each.coil)}: ${signWords(each)}`,
          place,
        })),
      ),
      remedies: () => remedies(context, against, others),
      subject: {
        coils: [...wrong, ...others.map(({ coil }) => coil)].map(({ name }) => name),
        nodes: wrong.flatMap((coil) => [`coil:${coil.name}.start`, `coil:${coil.name}.finish`]),
      },
    };
    return [found];
  },
});

function reason(against: readonly CoilSigns[], others: readonly CoilSigns[]): string {
  const [a, b] = [against[0], others[0]];
  if (a?.pole && b?.pole && a.pole.sign === b.pole.sign)
    return a.hum !== undefined && a.hum !== b.hum ? 'both have the same poles up' : 'their e.m.f.s meet head on';
  if (a?.wind && b?.wind) return 'the path turns the same way round in both, over unlike poles';
  return 'the kicks taken show it';
}

function signWords({ wind, pole }: CoilSigns): string {
  const words = [
    ...(wind ? [woundWords(rotationOf(wind.sign))] : []),
    ...(pole ? [polesWords(poleOf(pole.sign))] : []),
  ];
  return words.length ? words.join(', ') : 'by its kick';
}

function remedies(
  { pickup, netlist }: PickupContext,
  against: readonly CoilSigns[],
  others: readonly CoilSigns[],
): Some<Remedy> {
  const forSide = (side: readonly CoilSigns[], preferred: boolean) => {
    const coils = side.map(({ coil }) => coil);
    const names = list(coils.map(({ name }) => name));
    const leads = list(
      coils.map((coil) => say`${endLead(netlist, coil, 'start')} and ${endLead(netlist, coil, 'finish')}`),
    );
    return [
      remedy(
        say`Swap the leads of the ${names} coil: ${leads} change places`,
        coils.flatMap((coil) => swapCoilLeads(pickup, coil)),
        preferred,
      ),
      remedy(say`${capital(coilPolesTurned(pickup, coils))}`, flipPolarity(coils, pickup), preferred),
      remedy(say`Wind the ${names} coil the other way`, flipWinding(coils, pickup)),
    ];
  };
  return [
    ...forSide(against, true),
    ...forSide(others, false),
    ownStrings([...against, ...others], pickup),
    meantRemedy(pickup),
  ];
}

/**
 * Two halves in line, each under its own strings: no string hears both. With two poles to a string, as usual for bass, a half has as
 * many poles as the pickup has strings, and only a word tells it from a coil under all of them.
 */
function ownStrings(live: readonly CoilSigns[], pickup: Pickup): Remedy | undefined {
  const { strings, coils } = pickup;
  const halves = coils.filter((coil) => live.some((each) => each.coil === coil));
  const [first, second] = halves;
  const count = strings?.value ?? 0;
  const mayBeHalf = ({ bobbin, serves }: Coil) => !serves && bobbin?.poles?.value.count === count && !isBlade(bobbin);
  if (!first || !second || halves.length > 2 || count < 4 || count > 5 || !halves.every(mayBeHalf)) return undefined;
  const before = Math.floor(count / 2);
  const edits = [
    insertFirstLine(first.place, `serves strings 1 to ${before}`),
    insertFirstLine(second.place, `serves strings ${before + 1} to ${count}`),
  ];
  const own = ownEdits(edits, pickup);
  // True by itself or not at all: that hum adds all the same is another finding then.
  return own && { title: say`Each lies under its own strings: say \`serves\``, edits: own, kind: 'text' };
}
