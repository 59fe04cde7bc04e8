import { times } from '../estimates/sign-system.ts';
import { type CoilSigns, declaredPolarity, declaredRotation } from '../estimates/signs.ts';
import {
  type Coil,
  opposite,
  oppositeSign,
  poleOf,
  poleSign,
  rotationFromSpindle,
  rotationOf,
  type Sign,
} from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { ReadingOf } from '../model/readings.ts';
import type { Language, Wording } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { capital, listIn } from '../words/text.ts';
import type { Found } from './check.ts';
import { flipBar, flipPolarity, flipWinding, replaceAt, replaceWord, swapCoilLeads } from './edits.ts';
import type { Edit, Remedy } from './finding.ts';
import { asSwappedSince, isOverHookup, swappedSinceWords } from './later-state.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy, textRemedy } from './remedy.ts';

export const readingContradicts = definePickupCheck({
  code: 'reading/contradicts',
  severity: 'warning',
  yieldsTo: ['lead/undeclared', 'lead/reused'],
  run: (context) => {
    const spindles = context.pickup.coils.map((coil) => spindleAgainstWound(coil, context));
    const disputed = contradictions(context);
    return [
      ...spindles,
      ...tellTogether(disputed, context),
      ...context.quick.signs.map((each) => asFound(each, context)),
    ];
  },
});

/** What was found of a coil that was kept is no reading of today that can be taken again: the line that states its wind is looked at. */
function asFound({ coil, foundAgainst }: CoilSigns, { pickup, netlist }: PickupContext): Found | undefined {
  const wound = coil.wound ?? coil.spindle;
  const wind = declaredRotation(coil);
  const traced = netlist.windings.find((each) => each.coil === coil)?.ends === 'stated';
  if (!foundAgainst || !wound || !wind || !traced) return undefined;
  const { kick, against } = foundAgainst;
  const { red, black } = kick.probes;
  const other = rotationOf(oppositeSign(wind.sign));
  const flipped = coil.wound && flipWinding([coil], pickup);
  return {
    what: (t) =>
      t(
        '{0} was kept, and as found {1}: over its poles then that is a coil wound {2}, not {3} as stated.',
        capital(coilWords(coil, t)),
        t('{0} to {1} read {2} on {3}', t.word(red.text), t.word(black.text), t(kick.reads), t(kick.motion)),
        t(other),
        t(rotationOf(wind.sign)),
      ),
    hint: (t) =>
      t(
        'A coil keeps its winding direction whatever becomes of the magnet: it is stated wrong, its start and finish are swapped, or the probes were as it was found.',
      ),
    action: (t) => t('Take a kick at the coil as it is now.'),
    place: wound.place,
    related: [kick.place, ...against.places.filter((place) => !wind.places.includes(place))].map((place) => ({
      message: (t: Language) => t('As it was found'),
      place,
    })),
    remedies: () => remedy((t) => t('{0} is wound {1}', capital(coilWords(coil, t)), t(other)), flipped, true),
    subject: { coils: [coil.name] },
  };
}

function spindleAgainstWound(coil: Coil, { pickup }: PickupContext): Found | undefined {
  const { spindle, wound } = coil;
  if (!spindle || !wound) return undefined;
  const laid = rotationFromSpindle(spindle.value);
  if (laid === wound.value) return undefined;
  const turned = spindle.value.towardIt === 'bottom' ? spindle.value.rotation : opposite(spindle.value.rotation);
  const flipped = replaceWord(spindle.place, spindle.value.rotation, opposite(spindle.value.rotation));
  const wind = flipWinding([coil], pickup);
  return {
    what: (t) =>
      t(
        'Seen from the strings, the bobbin of {0} turned {1}, which lays the wire {2}, but `wound {3}` is stated.',
        coilWords(coil, t),
        t(turned),
        t(laid),
        wound.value,
      ),
    hint: (t) => t("A spindle's direction is easily written down as the wire's."),
    action: (t) => t('Correct the line that is wrong.'),
    place: spindle.place,
    related: [{ message: (t: Language) => t('The winding direction as stated'), place: wound.place }],
    remedies: () => [
      remedy((t) => t('The spindle turned the other way: `spindle {0}`', opposite(spindle.value.rotation)), flipped),
      remedy((t) => t('The wire lies the other way: `wound {0}`', laid), wind),
    ],
    subject: { coils: [coil.name] },
  };
}

/** What contradicts what is stated of one coil. A compass that does explains a kick that does. */
interface Contradiction {
  readonly coil: Coil;
  readonly compass: ReadingOf<'compass'> | undefined;
  readonly kick: ReadingOf<'kick'> | undefined;
  /** True where the compass over this coil agrees with what is stated. */
  readonly poleConfirmed: boolean;
  /** True where a reading contradicts another reading, with nothing stated against it. */
  readonly amongReadings: boolean;
  /** The lines that are contradicted. */
  readonly against: readonly Place[];
  readonly declaredPole: Sign | undefined;
  readonly declaredWind: Sign | undefined;
}

function contradictions({ quick, netlist, pickup }: PickupContext): readonly Contradiction[] {
  return quick.signs.flatMap((signs): Contradiction[] => {
    const { coil } = signs;
    const pole = declaredPolarity(coil, pickup);
    // Which end is the inner one is not known where a kick had to find the leads: its wind contradicts nothing.
    const traced = netlist.windings.find((each) => each.coil === coil)?.ends === 'stated';
    const wind = traced ? declaredRotation(coil) : undefined;
    const base = { coil, declaredPole: pole?.sign, declaredWind: wind?.sign };
    const against = pole ?? firstCompass(signs);
    const compass = signs.compasses.find((each) => against && poleSign(each.shows) !== against.sign);
    const product = wind && against ? times(wind.sign, against.sign) : undefined;
    const expected = product ?? signs.kicks[0]?.windPole;
    const kick = signs.kicks.find(({ windPole }) => expected !== undefined && windPole !== expected)?.kick;
    if (!compass && !kick) return [];
    const places = [...(pole?.places ?? []), ...(kick && wind ? wind.places : [])];
    return [
      {
        ...base,
        compass,
        kick,
        poleConfirmed: pole !== undefined && !compass && signs.compasses.length > 0,
        amongReadings: compass ? pole === undefined : product === undefined,
        against: places.length > 0 ? places : (against?.places ?? [signs.kicks[0]?.kick.place ?? coil.place]),
      },
    ];
  });
}

function firstCompass({
  compasses,
}: CoilSigns): { readonly sign: Sign; readonly places: readonly Place[] } | undefined {
  const first = compasses[0];
  return first && { sign: poleSign(first.shows), places: [first.place] };
}

/** A bar put back the wrong way up contradicts every coil at once: that is told once. */
function tellTogether(all: readonly Contradiction[], context: PickupContext): readonly (Found | undefined)[] {
  const { pickup, quick } = context;
  const bar = pickup.barMagnet;
  const underBar = bar ? all.filter(({ coil, amongReadings }) => !coil.polarity && !amongReadings) : [];
  const measured = quick.signs.filter(
    ({ coil, kicks, compasses }) => !coil.polarity && (kicks.length > 0 || compasses.length > 0),
  );
  const whole =
    underBar.length > 0 &&
    underBar.length === measured.length &&
    (underBar.some(({ compass }) => compass) || underBar.length > 1) &&
    underBar.every(({ poleConfirmed }) => !poleConfirmed);
  const together = whole ? underBar : [];
  const apart = all.filter((each) => !together.includes(each));
  return [barFinding(together, context), ...apart.map((each) => coilFinding(each, context))];
}

function barFinding(all: readonly Contradiction[], { pickup }: PickupContext): Found | undefined {
  const lines = all.flatMap(({ compass, kick }) => [compass, kick]).flatMap((line) => line?.place ?? []);
  const [first, ...rest] = [...lines].sort((a, b) => a.span.start - b.span.start);
  const bar = pickup.barMagnet;
  if (!first || !bar) return undefined;
  const byCompass = all.some(({ compass }) => compass);
  return {
    what: (t) =>
      t(
        byCompass
          ? 'The compass shows {0} with the other pole up than the bar magnet as stated gives ({1} toward {2}).'
          : 'The kicks show {0} with the other pole up than the bar magnet as stated gives ({1} toward {2}).',
        listIn(
          t,
          all.map(({ coil }) => coilWords(coil, t)),
        ),
        t(bar.value.pole),
        bar.value.towardCoil.value,
      ),
    hint: (t) =>
      t(
        byCompass
          ? 'The bar lies the other way round, or the compass was not checked on a known pole.'
          : 'The bar lies the other way round, or the probes were swapped.',
      ),
    action: ONCE_MORE,
    place: first,
    related: [
      { message: (t: Language) => t('The bar as stated'), place: bar.place },
      ...rest.map((place) => ({ message: (t: Language) => t('This reading shows the same'), place })),
    ],
    remedies: (inSight) => [
      remedy((t) => t('State the bar as the readings show it'), flipBar(pickup), true),
      byCompass ? undefined : swappedSince(all, pickup, inSight),
    ],
    subject: { coils: all.map(({ coil }) => coil.name) },
  };
}

function coilFinding(each: Contradiction, context: PickupContext): Found | undefined {
  const { coil, compass, kick } = each;
  const words = compass ? compassWords(each, compass) : kick && kickWords(each, kick);
  if (!words) return undefined;
  const place = compass?.place ?? kick?.place ?? coil.place;
  return {
    ...words,
    action: ONCE_MORE,
    place,
    related: [
      ...each.against.map((line) => ({
        message: (t: Language) => t(each.amongReadings ? 'The reading that it contradicts' : 'As stated'),
        place: line,
      })),
      compass && kick && { message: (t: Language) => t('The kick shows the same'), place: kick.place },
    ],
    remedies: (inSight) =>
      each.amongReadings
        ? undefined
        : compass
          ? poleRemedy(coil, context)
          : [...windRemedies(each, context), swappedSince([each], context.pickup, inSight)],
    subject: { coils: [coil.name] },
  };
}

/** Kicks read from hot to ground say the opposite over a hookup whose hot and ground have changed places since. */
function swappedSince(all: readonly Contradiction[], pickup: Pickup, inSight: readonly Pickup[]): Remedy | undefined {
  const record = all.every(({ kick }) => kick && isOverHookup(kick)) ? asSwappedSince(pickup, inSight) : undefined;
  return record && textRemedy(swappedSinceWords(pickup.name), record);
}

type Words = Pick<Found, 'what' | 'hint'>;

/** A reading is sooner wrong than a pickup. */
const ONCE_MORE: Wording = (t) => t('Take the reading once more before anything is changed.');

function compassWords({ coil, amongReadings, kick }: Contradiction, { shows }: ReadingOf<'compass'>): Words {
  return {
    what: (t) => {
      const shown = t(
        amongReadings
          ? 'The compass shows {0} {1}, an earlier compass reading makes it {2}'
          : 'The compass shows {0} {1}, what is stated makes it {2}',
        coilWords(coil, t),
        t(shows),
        t(opposite(shows)),
      );
      return kick ? t('{0}; the kick there shows the same.', shown) : `${shown}.`;
    },
    hint: (t) => t('The magnet lies the other way round, or the compass was not checked on a known pole.'),
  };
}

function kickWords(
  { coil, declaredPole, declaredWind, amongReadings, poleConfirmed }: Contradiction,
  kick: ReadingOf<'kick'>,
): Words {
  const { red, black } = kick.probes;
  const reads = opposite(kick.reads);
  const line = (t: Language) =>
    t(
      '{0} to {1} reads {2} on {3} at {4}',
      capital(t.word(red.text)),
      t.word(black.text),
      t(kick.reads),
      t(kick.motion),
      coilWords(coil, t),
    );
  if (amongReadings || declaredWind === undefined)
    return {
      what: (t) => t('{0}, another kick there says the opposite.', line(t)),
      hint: (t) => t('The probes were swapped, or approach and pull-off mistaken.'),
    };
  const wound = rotationOf(declaredWind);
  const what: Wording = (t) =>
    t(
      '{0}; wound {1} and {2}, it must read {3}.',
      line(t),
      t(wound),
      t(declaredPole === undefined ? 'by the compass' : poleOf(declaredPole)),
      t(reads),
    );
  if (isOverHookup(kick))
    return {
      what,
      hint: (t) =>
        t(
          poleConfirmed
            ? 'Hot and ground were swapped since, which `reworks` tells; or the winding direction is wrong, or start and finish are swapped.'
            : 'Hot and ground were swapped since, which `reworks` tells; or the winding direction is wrong, or start and finish are swapped, or the poles are the other way.',
        ),
    };
  return {
    what,
    hint: (t) =>
      t(
        poleConfirmed
          ? 'The compass agrees with the magnet, so the winding direction is wrong, or start and finish are swapped.'
          : 'The winding direction or the poles are the other way, or start and finish are swapped.',
      ),
  };
}

function poleRemedy(coil: Coil, { pickup }: PickupContext): Remedy | undefined {
  const edits = flipPolarity([coil], pickup) ?? (coil.polarity ? undefined : flipBar(pickup));
  return remedy((t) => t('State the poles of {0} as the compass shows them', coilWords(coil, t)), edits, true);
}

function windRemedies(
  { coil, poleConfirmed }: Contradiction,
  { pickup }: PickupContext,
): readonly (Remedy | undefined)[] {
  const wind = flipWinding([coil], pickup);
  const poles = poleConfirmed ? undefined : flipPolarity([coil], pickup);
  const leads = swapCoilLeads(pickup, coil);
  const ends = swapEnds(coil);
  const { wound } = coil;
  const title =
    wound && ((t: Language) => t('{0} is wound {1}', capital(coilWords(coil, t)), t(opposite(wound.value))));
  // Alone, a coil has no neighbour to stay in phase with.
  const several = pickup.coils.length > 1;
  const inHookup = leads?.every(({ place }) => !ends.some((end) => end.place.span.start === place.span.start));
  return [
    title && remedy(title, wind, true),
    title && several
      ? remedy((t) => t('{0}: say so, and swap its leads in the hookup', title(t)), [wind, leads].flat(), true)
      : undefined,
    ends.length > 0 && leads && inHookup && several
      ? remedy(
          (t) => t('Start and finish of {0} are swapped: say so, and swap its leads in the hookup', coilWords(coil, t)),
          [...ends, ...leads],
        )
      : undefined,
    remedy((t) => t('The poles of {0} are the other way up', coilWords(coil, t)), poles),
  ];
}

/** What start and finish are soldered to, exchanged. */
function swapEnds({ start, finish }: Coil): readonly Edit[] {
  const [startTo, finishTo] = [start?.value.to, finish?.value.to];
  if (!startTo || !finishTo) return [];
  return [replaceAt(startTo.value.place, finishTo.value.text), replaceAt(finishTo.value.place, startTo.value.text)];
}
