/**
 * Leads that nobody traced: which coil's they are, and which of a coil's two is its start, as far as resistances, kicks, a compass
 * and the stated wind prove it. A fact is told only if every way of soldering that the readings allow has it, and only of a coil
 * that some reading reaches.
 */

import type { Bench } from '../../model/bench.ts';
import { type Coil, oppositeSign, type Rotation, rotationOf, type Sign } from '../../model/coil.ts';
import type { Place } from '../../model/place.ts';
import type { QuickEstimates } from '../quick.ts';
import { times } from '../sign-system.ts';
import { type Evidence, evidenceOf, type Point } from './evidence.ts';
import { HIDDEN, type Hypothesis, hypothesesOf, isUntraced, type Space } from './hypotheses.ts';
import { type Measurement, type NextMeasurement, nextMeasurement } from './next-measurement.ts';

export interface IdentifiedCoil {
  readonly coil: Coil;
  /** The two leads of the coil, in no order; `undefined`: not proven. */
  readonly leads: readonly [string, string] | undefined;
  /** Its start and finish, where the readings prove them. */
  readonly start: string | undefined;
  readonly finish: string | undefined;
  /**
   * Where the leads are proven and only their order is not: the wind that the coil has if the first of `leads` is its start. A
   * person may settle it by naming an end; no meter does.
   */
  readonly windIfFirstIsStart: Rotation | undefined;
  /** What a probe on the first of `leads`, the other on the second, reads as steel comes near; `undefined`: not proven. */
  readonly firstOnApproach: Sign | undefined;
  /** The leads are this coil's because the others are the other coils': nothing was read that is of this coil alone. */
  readonly byElimination: boolean;
  /** Two leads that only this coil is left for, and between which nothing was read. */
  readonly leftOver: readonly [string, string] | undefined;
  /** The readings that prove it. */
  readonly places: readonly Place[];
}

export interface Identification {
  /** Coils whose ends are not all stated. Empty: nothing to find out. */
  readonly coils: readonly IdentifiedCoil[];
  /** Leads that belong together, of whichever coil. */
  readonly pairs: readonly { readonly leads: readonly [string, string]; readonly place: Place }[];
  /** Conductors that are the shield: they read nearly nothing to a metal part. */
  readonly shields: Evidence['onMetal'];
  readonly assuming: Space['assuming'];
  /**
   * The readings contradict each other, or what is stated: nothing is deduced. Each of these alone, left out, makes the others agree;
   * where none does, all of them.
   */
  readonly contradicts: readonly Place[];
  readonly tooMany: boolean;
  readonly next: (NextMeasurement & { readonly text: string }) | undefined;
}

export function identifyLeads(quick: QuickEstimates, bench: Bench | undefined): Identification {
  const evidence = evidenceOf(quick, bench);
  const open = evidence.coils.filter(isUntraced);
  if (open.length === 0) return { ...NOTHING, shields: evidence.onMetal };
  const { hypotheses, assuming, tooMany } = hypothesesOf(evidence);
  const contradicts = hypotheses.length === 0 && !tooMany ? suspects(evidence) : [];
  const coils = open.map(({ coil }) => identified(coil, evidence, hypotheses));
  const next = tooMany ? undefined : nextFor(coils, evidence, hypotheses);
  return {
    coils,
    pairs: pairsOf(evidence),
    shields: evidence.onMetal,
    assuming,
    contradicts,
    tooMany,
    next: next && { ...next, text: measurementWords(next.measurement, evidence) },
  };
}

/** Start and finish are nobody's need: what the leads are soldered by is a kick at every coil. */
function nextFor(
  coils: readonly IdentifiedCoil[],
  evidence: Evidence,
  hypotheses: readonly Hypothesis[],
): NextMeasurement | undefined {
  const best = nextMeasurement(evidence, hypotheses);
  const unkicked = coils.find(({ leads, firstOnApproach }) => leads && firstOnApproach === undefined);
  const ends = unkicked && hypotheses[0]?.ends.get(unkicked.coil);
  if (!unkicked || !ends || (best && best.measurement.kind !== 'wind' && best.measurement.kind !== 'compass'))
    return best;
  const pairs = [{ red: ends.start, black: ends.finish }];
  return { measurement: { kind: 'kick', coil: unkicked.coil, pairs }, settles: false };
}

function suspects(evidence: Evidence): readonly Place[] {
  const { readings, kicks } = evidence;
  const agree = (without: Evidence) => hypothesesOf(without).hypotheses.length > 0;
  const odd = [
    ...readings.filter((each) => agree({ ...evidence, readings: readings.filter((other) => other !== each) })),
    ...kicks.filter((each) => agree({ ...evidence, kicks: kicks.filter((other) => other !== each) })),
  ];
  return (odd.length > 0 ? odd : [...readings, ...kicks]).map(({ place }) => place);
}

const NOTHING: Identification = {
  coils: [],
  pairs: [],
  shields: [],
  assuming: 'own conductors',
  contradicts: [],
  tooMany: false,
  next: undefined,
};

function identified(coil: Coil, evidence: Evidence, hypotheses: readonly Hypothesis[]): IdentifiedCoil {
  const nothing = {
    coil,
    leads: undefined,
    start: undefined,
    finish: undefined,
    windIfFirstIsStart: undefined,
    firstOnApproach: undefined,
    byElimination: false,
    leftOver: undefined,
  };
  const ends = hypotheses.flatMap((each) => each.ends.get(coil) ?? []);
  const [first] = ends;
  if (!first || ends.length < hypotheses.length) return { ...nothing, places: [] };
  const places = reaching(evidence, coil, [first.start, first.finish]);
  const isPair = ends.every(
    ({ start, finish }) =>
      (start === first.start && finish === first.finish) || (start === first.finish && finish === first.start),
  );
  if (!isPair || first.start === HIDDEN || first.finish === HIDDEN) return { ...nothing, places: [] };
  const isOrdered = ends.every(({ start }) => start === first.start);
  const leads = [evidence.nameOf(first.start), evidence.nameOf(first.finish)] as const;
  if (places.length === 0) return { ...nothing, leftOver: leads, places };
  const alike = hypotheses.filter((each) => each.ends.get(coil)?.start === first.start);
  const [start, finish] = isOrdered ? leads : [undefined, undefined];
  return {
    coil,
    leads,
    start,
    finish,
    windIfFirstIsStart: isOrdered ? undefined : windOf(coil, evidence, alike),
    firstOnApproach: onApproach(coil, first.start, hypotheses),
    byElimination: evidence.coils.length > 1 && !hasOwn(coil, evidence),
    leftOver: undefined,
    places,
  };
}

/** A kick at it, or its resistance by itself: what tells the coil from another one. */
const hasOwn = (coil: Coil, { coils, kicks }: Evidence): boolean =>
  kicks.some((kick) => kick.coil === coil) || coils.some((each) => each.coil === coil && each.ohm20C !== undefined);

/** North-up, wound clockwise (wind · pole −1), red probe on the finish: approach reads positive. */
function onApproach(coil: Coil, red: Point, hypotheses: readonly Hypothesis[]): Sign | undefined {
  const signs = hypotheses.flatMap(({ ends, windPoles }): readonly Sign[] =>
    (windPoles.get(coil) ?? [1, -1]).map((sign) => (ends.get(coil)?.start === red ? sign : oppositeSign(sign))),
  );
  const [first] = signs;
  return signs.every((sign) => sign === first) ? first : undefined;
}

/** A pole that is known and a kick give the wind that goes with a start. */
function windOf(coil: Coil, { coils }: Evidence, alike: readonly Hypothesis[]): Rotation | undefined {
  const pole = coils.find((each) => each.coil === coil)?.pole;
  const products = new Set(alike.flatMap(({ windPoles }) => windPoles.get(coil) ?? []));
  const [product] = products;
  if (pole === undefined || product === undefined || products.size > 1) return undefined;
  return rotationOf(times(product, pole));
}

/** Readings that reach the coil: a resistance between its leads, or a kick at it. Without one, nothing is said of it. */
function reaching({ readings, kicks }: Evidence, coil: Coil, points: readonly Point[]): readonly Place[] {
  return [
    ...readings.filter(({ a, b, at20COhm }) => at20COhm !== null && points.includes(a) && points.includes(b)),
    ...kicks.filter((kick) => kick.coil === coil || (points.includes(kick.red) && points.includes(kick.black))),
  ].map(({ place }) => place);
}

function pairsOf(evidence: Evidence): Identification['pairs'] {
  const { readings, untraced, others, nameOf } = evidence;
  const points = [...untraced, ...others];
  return readings.flatMap(({ a, b, at20COhm, place }) =>
    at20COhm !== null && points.includes(a) && points.includes(b)
      ? [{ leads: [nameOf(a), nameOf(b)] as const, place }]
      : [],
  );
}

function measurementWords(measurement: Measurement, { nameOf }: Evidence): string {
  switch (measurement.kind) {
    case 'resistance':
      return `the resistance \`${nameOf(measurement.a)} to ${nameOf(measurement.b)}\``;
    case 'kick': {
      const [first, ...rest] = measurement.pairs.map(({ red, black }) => `\`${nameOf(red)} to ${nameOf(black)}\``);
      const others =
        rest.length === 0
          ? ''
          : rest.length > 3
            ? ', else the other pairs until one kicks'
            : `, else ${rest.join(', ')}`;
      return `a kick at the ${measurement.coil.name} coil: ${first ?? 'its leads'}${others}, with approach or pull-off stated`;
    }
    case 'compass':
      return `a compass over the ${measurement.coil.name} coil`;
    case 'wind':
      return `the winding direction of the ${measurement.coil.name} coil (or its inner end, traced by eye): no meter tells start from finish`;
  }
}
