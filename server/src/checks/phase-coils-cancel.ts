import type { Some } from '../../../grammar/values/present.ts';
import { opposed, pairsHeard } from '../estimates/phase.ts';
import { soundingIn } from '../estimates/quick.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import { isBlade } from '../model/bobbin.ts';
import { type Coil, poleOf, rotationOf } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { polesWords, woundWords } from '../words/directions.ts';
import type { Language, PlainText } from '../words/languages/language.ts';
import { bothLeads, coilWords, endsWords } from '../words/parts.ts';
import { coilPolesTurned } from '../words/pole-turning.ts';
import { capital, listIn } from '../words/text.ts';
import type { Found } from './check.ts';
import { flipPolarity, flipWinding, insertFirstLine, swapCoilLeads } from './edits.ts';
import type { Remedy } from './finding.ts';
import { placeOfCoilInHookup } from './joints.ts';
import { ownEdits } from './own-edits.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { meantRemedy, remedy, textRemedy } from './remedy.ts';

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
    const coils = (t: Language) =>
      listIn(
        t,
        wrong.map((each) => coilWords(each, t)),
      );
    const humKnown = [...against, ...others].every(({ hum }) => hum !== undefined);
    const humAdds = humKnown && [...against, ...others].every(({ hum }, _, all) => hum === all[0]?.hum);
    const onPurpose = pickup.hookup?.onPurpose;
    const found: Found = {
      what: (t) =>
        t(
          humAdds
            ? CANCELS_AND_HUMS[wrong.length > 1 ? 'several' : 'one']
            : CANCELS[wrong.length > 1 ? 'several' : 'one'],
          capital(coils(t)),
          wrong.map((coil) => endsWords(netlist, coil, t)).join('; '),
          listIn(
            t,
            others.map(({ coil }) => coilWords(coil, t)),
          ),
          t(reason(against, others)),
        ),
      action: (t) => {
        const turned = coilPolesTurned(pickup, wrong, { t });
        if (!humAdds && humKnown) return t('{0}: with leads swapped, hum would add.', capital(turned));
        return humAdds || pickup.barMagnet
          ? t('Swap the leads of {0}.', coils(t))
          : t('Swap the leads of {0}, or {1}.', coils(t), turned);
      },
      place: placeOfCoilInHookup(netlist, first),
      ...(onPurpose ? { severity: 'information' } : {}),
      related: [...against, ...others].flatMap((each) =>
        (each.windPole?.places ?? []).map((place) => ({
          message: (t: Language) => `${coilWords(each.coil, t)}: ${signWords(each, t)}`,
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

const CANCELS = {
  one: '{0} ({1}) works against {2}: their string signals subtract at the output; {3}.',
  several: '{0} ({1}) work against {2}: their string signals subtract at the output; {3}.',
} as const;
const CANCELS_AND_HUMS = {
  one: '{0} ({1}) works against {2}: their string signals subtract at the output, and their hum adds; {3}.',
  several: '{0} ({1}) work against {2}: their string signals subtract at the output, and their hum adds; {3}.',
} as const;

function reason(against: readonly CoilSigns[], others: readonly CoilSigns[]): PlainText {
  const [a, b] = [against[0], others[0]];
  if (a?.pole && b?.pole && a.pole.sign === b.pole.sign)
    return a.hum !== undefined && a.hum !== b.hum ? 'both have the same poles up' : 'their e.m.f.s meet head on';
  if (a?.wind && b?.wind) return 'the path turns the same way round in both, over unlike poles';
  return 'the kicks taken show it';
}

function signWords({ wind, pole }: CoilSigns, t: Language): string {
  const words = [
    ...(wind ? [woundWords(rotationOf(wind.sign), t)] : []),
    ...(pole ? [polesWords(poleOf(pole.sign), t)] : []),
  ];
  return words.length ? words.join(', ') : t('by its kick');
}

function remedies(
  { pickup, netlist }: PickupContext,
  against: readonly CoilSigns[],
  others: readonly CoilSigns[],
): Some<Remedy> {
  const forSide = (side: readonly CoilSigns[], preferred: boolean) => {
    const coils = side.map(({ coil }) => coil);
    const named = (t: Language) =>
      t(
        'the {0} coil',
        listIn(
          t,
          coils.map(({ name }) => name),
        ),
      );
    const leads = (t: Language) =>
      listIn(
        t,
        coils.map((coil) => bothLeads(netlist, coil, t)),
      );
    return [
      remedy(
        (t) => t('Swap the leads of {0}: {1} change places', named(t), leads(t)),
        coils.flatMap((coil) => swapCoilLeads(pickup, coil)),
        preferred,
      ),
      remedy((t) => capital(coilPolesTurned(pickup, coils, { t })), flipPolarity(coils, pickup), preferred),
      remedy((t) => t('Wind {0} the other way', named(t)), flipWinding(coils, pickup)),
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
  return own && textRemedy((t) => t('Each lies under its own strings: say `serves`'), own);
}
