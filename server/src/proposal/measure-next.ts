/**
 * The one measurement that settles most of what is open of a pickup for the least handling. What it settles is found by solving: the
 * reading is written into the text with each of its outcomes, and what is then still open is counted. Of words (a kick, a compass) the
 * worse outcome counts, of values the mean over what is believed of them.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { insertFirstLines } from '../checks/edits.ts';
import type { Code } from '../checks/pages.ts';
import { type Aim, aimsOf } from '../estimates/aims.ts';
import { INDUCTANCE_GUESSES_H, LOOSE_FROM_SHARE, RESISTANCE_GUESSES_OHM } from '../estimates/common-practice.ts';
import { openSigns } from '../estimates/phase.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { type CoilSigns, sounds } from '../estimates/signs.ts';
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist, Winding } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { endLead } from '../words/parts.ts';

export type OpenQuestion =
  | { readonly kind: 'phase' | 'hum' | 'turns'; readonly coil: Coil }
  | { readonly kind: 'target'; readonly aim: Aim }
  | { readonly kind: 'number'; readonly number: LooseNumber };

/** Numbers that a loose reading leaves loose. */
const LOOSE_NUMBERS = ['resistance20COhm', 'inductanceH', 'resonanceHz'] as const;
export type LooseNumber = (typeof LOOSE_NUMBERS)[number];

export type Work = 'unsoldered' | 'opened' | 'takenOut';

/** A reading that the bench's tools can take: between two leads, or at the poles of a coil. */
export type Measurement = {
  readonly minutes: number;
  /** What has to be done before the probes reach. */
  readonly work: readonly Work[];
  readonly line: string;
  readonly place: Place;
} & (
  | { readonly kind: 'kick' | 'coil resistance'; readonly coil: Coil; readonly red: string; readonly black: string }
  | { readonly kind: 'compass'; readonly coil: Coil }
  | { readonly kind: 'output resistance' }
  | { readonly kind: 'inductance' }
);

export type NextMeasurement = Measurement & {
  /** What it settles, or narrows by much, in the order of the text. */
  readonly settles: readonly OpenQuestion[];
};

/** Minutes of handling. Common practice, no published source. */
const MINUTES = {
  compass: 1,
  'output resistance': 1,
  'coil resistance': 2,
  inductance: 2,
  kick: 3,
  /** A joint opened, and made again. */
  unsoldered: 15,
  /** A cover lifted, the windings bared and closed again. */
  opened: 30,
  /** A pickup taken out of its instrument until its leads can be touched, and fitted again. */
  takenOut: 20,
} as const;

export const handling = (kind: Measurement['kind'], work: readonly Work[] = []) => ({
  work,
  minutes: work.reduce<number>((all, each) => all + MINUTES[each], MINUTES[kind]),
});

/** `undefined` where nothing is open, or nothing that the tools at hand can settle. */
export const measureNext = onceFor((analysed: PickupAnalysis, analysis: Analysis): NextMeasurement | undefined => {
  if (!isAtHand(analysed.pickup, analysis)) return undefined;
  const open = openOf(analysis, analysed);
  if (open.size === 0) return undefined;
  const best = bestOf(candidatesOf(analysis, analysed), (each) => settledBy(each, { analysis, analysed, open }));
  return best && { ...best.candidate, settles: best.settles.flatMap((key) => open.get(key)?.question ?? []) };
});

/** How much of each question is settled, by what it is called. */
export type Settled = ReadonlyMap<string, number>;

/** The candidate that settles most for its minutes, and what that is; of equal ones the cheaper, then the first in the text. */
export function bestOf<C extends Pick<Measurement, 'minutes'>>(
  candidates: readonly C[],
  settledBy: (candidate: C) => Settled,
): { readonly candidate: C; readonly settles: readonly string[] } | undefined {
  let best: { readonly candidate: C; readonly settled: Settled; readonly worth: number } | undefined;
  for (const candidate of candidates) {
    const settled = settledBy(candidate);
    const gain = gainOf(settled);
    const worth = gain / candidate.minutes;
    const isBetter =
      best === undefined ||
      worth > best.worth * (1 + TIE) ||
      (worth > best.worth * (1 - TIE) && candidate.minutes < best.candidate.minutes);
    if (gain >= LEAST_GAIN && isBetter) best = { candidate, settled, worth };
  }
  if (best === undefined) return undefined;
  const settles = [...best.settled].flatMap(([key, share]) => (share >= LEAST_GAIN ? [key] : []));
  return { candidate: best.candidate, settles };
}

const gainOf = (settled: Settled): number => [...settled.values()].reduce((all, each) => all + each, 0);

/** What is settled whatever is shown. */
export const worstOf = (settled: readonly Settled[]): Settled =>
  settled.reduce((worst, each) => (gainOf(each) < gainOf(worst) ? each : worst));

/** As it is, not as it was before its rework; and wound: a coil left open under a target is one to be proposed. */
function isAtHand(pickup: Pickup, { pickups, bench }: Analysis): boolean {
  if (pickups.some((each) => each.pickup.reworks === pickup)) return false;
  const { readings } = quickOf(bench)(pickup);
  const isToBeWound = (coil: Coil) => !coil.turns && !coil.counted && !readings.has(coil);
  return pickup.made !== undefined || aimsOf(pickup).length === 0 || !pickup.coils.some(isToBeWound);
}

/** Less than a twentieth of a question is not worth a reading. */
const LEAST_GAIN = 0.05;
const TIE = 1e-9;
/** A number that could be known better counts half of a question that has no answer yet. */
const NUMBER_COUNTS = 0.5;

interface Open {
  readonly question: OpenQuestion;
  /** Of a loose number: its sd as a share of it. */
  readonly looseness?: number;
}

type OpenQuestions = ReadonlyMap<string, Open>;

/** Everything that is open of a pickup, by what it is called in both states of the text. */
function openOf(analysis: Analysis, analysed: PickupAnalysis): OpenQuestions {
  const { pickup } = analysed;
  const coilsToldBy = (code: Code) =>
    analysed.findings.flatMap((each) =>
      each.code === code && !each.isAccepted
        ? pickup.coils.filter(({ name }) => each.subject.coils?.includes(name))
        : [],
    );
  const { phase, hum } = openSigns(signsAsked(quickOf(analysis.bench)(pickup), coilsToldBy('phase/unproven')));
  const ofCoils = (kind: 'phase' | 'hum' | 'turns', coils: readonly Coil[]) =>
    coils.map((coil): readonly [string, Open] => [`${kind} ${coil.name}`, { question: { kind, coil } }]);
  return new Map([
    ...ofCoils(
      'phase',
      phase.map(({ coil }) => coil),
    ),
    ...ofCoils(
      'hum',
      hum.map(({ coil }) => coil),
    ),
    ...ofCoils('turns', coilsToldBy('winding/turns-unknown')),
    ...analysed.aims().flatMap(({ aim, verdict, reached }): readonly (readonly [string, Open])[] => {
      const isOpen = verdict === 'not decidable' || reached === undefined;
      return isOpen ? [[`target ${aimsOf(pickup).indexOf(aim)}`, { question: { kind: 'target', aim } }]] : [];
    }),
    ...LOOSE_NUMBERS.flatMap((number): readonly (readonly [string, Open])[] => {
      const looseness = loosenessOf(analysed, number);
      return looseness !== undefined && looseness > LOOSE_FROM_SHARE
        ? [[number, { question: { kind: 'number', number }, looseness }]]
        : [];
    }),
  ]);
}

/** None where phase and hum are told as known, or what is wrong with the circuit goes before them. */
const signsAsked = ({ signs }: QuickEstimates, told: readonly Coil[]): readonly CoilSigns[] =>
  told.length === 0 ? [] : signs.filter((each) => sounds(each) || told.includes(each.coil));

function loosenessOf(analysed: PickupAnalysis, number: LooseNumber): number | undefined {
  const estimate = analysed.estimates()[number];
  return estimate && estimate.value > 0 && Number.isFinite(estimate.sd) ? estimate.sd / estimate.value : undefined;
}

interface Asked {
  readonly analysis: Analysis;
  readonly analysed: PickupAnalysis;
  readonly open: OpenQuestions;
}

/** How much of each question a reading settles, 0 to 1 times what the question counts. */
function settledBy(candidate: Measurement, { analysis, analysed, open }: Asked): Settled {
  const settled = outcomesOf(candidate, { analysis, analysed, open }).map(({ shown, share }) => {
    const after = withReading(analysis, analysed.pickup, candidate.line.replace(GAP, shown));
    const again = after?.pickups.find((each) => each.pickup.name === analysed.pickup.name);
    return { share, by: after && again ? answered(open, after, again) : new Map<string, number>() };
  });
  if (candidate.kind === 'kick' || candidate.kind === 'compass') return worstOf(settled.map(({ by }) => by));
  return new Map(
    [...open.keys()].map((key) => [key, settled.reduce((all, { share, by }) => all + share * (by.get(key) ?? 0), 0)]),
  );
}

function answered(open: OpenQuestions, analysis: Analysis, analysed: PickupAnalysis): Settled {
  const still = openOf(analysis, analysed);
  return new Map(
    [...open].map(([key, { question, looseness }]) => {
      if (question.kind !== 'number' || looseness === undefined) return [key, still.has(key) ? 0 : 1];
      const after = loosenessOf(analysed, question.number) ?? looseness;
      return [key, NUMBER_COUNTS * Math.max(0, 1 - after / looseness)];
    }),
  );
}

/** Where what is read goes. */
export const GAP = /…/;

/** Beside what was read of the pickup as it is, or in readings of their own. */
export function withReading(analysis: Analysis, pickup: Pickup, line: string): Analysis | undefined {
  const last = pickup.readings.findLast(({ found, apart }) => !found && !apart);
  const edit = last
    ? insertFirstLines(last.place, [line])
    : insertFirstLines(pickup.place, ['readings {', `  ${line}`, '}']);
  return analysis.edited([edit]);
}

/** What a kick and a compass can show. */
export const WORDS = { kick: ['positive', 'negative'], compass: ['north-up', 'south-up'] } as const;

interface Outcome {
  /** What is written where the line has its gap. */
  readonly shown: string;
  readonly share: number;
}

/** Gauss-Hermite, three points: exact for the mean of whatever is a polynomial up to the fifth degree. Abramowitz & Stegun 25.4.46. */
const POINTS: readonly (readonly [number, number])[] = [
  [0, 2 / 3],
  [-Math.sqrt(3), 1 / 6],
  [Math.sqrt(3), 1 / 6],
];

function outcomesOf(candidate: Measurement, { analysis, analysed, open }: Asked): readonly Outcome[] {
  const words = (...all: readonly string[]) => all.map((shown) => ({ shown, share: 1 / all.length }));
  switch (candidate.kind) {
    case 'kick':
    case 'compass':
      return words(...WORDS[candidate.kind]);
    case 'inductance':
      return values(analysed.estimates().inductanceH, INDUCTANCE_GUESSES_H, open).map(({ value, share }) => ({
        shown: value.toPrecision(4),
        share,
      }));
    case 'coil resistance':
    case 'output resistance': {
      const quick = quickOf(analysis.bench)(analysed.pickup);
      const expected =
        candidate.kind === 'output resistance'
          ? quick.resistance20COhm
          : quick.windings.get(candidate.coil)?.resistance20COhm;
      return values(expected, RESISTANCE_GUESSES_OHM, open).map(({ value, share }) => ({
        shown: (value / 1000).toPrecision(4),
        share,
      }));
    }
  }
}

/** How much a ± shrinks hardly depends on the value; whether a target is decided does. */
function values(
  expected: Estimate | null | undefined,
  guesses: readonly number[],
  open: OpenQuestions,
): readonly { readonly value: number; readonly share: number }[] {
  if (!expected || !(expected.value > 0)) return guesses.map((value) => ({ value, share: 1 / guesses.length }));
  const { value, sd } = expected;
  if (![...open.values()].some(({ question }) => question.kind === 'target')) return [{ value, share: 1 }];
  return POINTS.map(([at, share]) => ({ value: Math.max(value / 10, value + at * sd), share }));
}

/** Readings that are neither taken nor follow from what is known, in the order of the text. */
function candidatesOf({ bench }: Analysis, { pickup, netlist }: PickupAnalysis): readonly Measurement[] {
  const quick = quickOf(bench)(pickup);
  const lines = pickup.readings.filter(({ found }) => !found).flatMap((each) => each.lines);
  const isOutputRead = (kind: 'resistance' | 'inductance') =>
    lines.some(
      (line) =>
        line.kind === kind &&
        [line.probes.red, line.probes.black].every((probe) => {
          const net = netlist.netAt(probe);
          return net !== undefined && (net === netlist.hot || net === netlist.ground);
        }),
    );
  const place = pickup.hookup?.place ?? pickup.place;
  const hasOutput = netlist.hot !== undefined && netlist.ground !== undefined && netlist.hot !== netlist.ground;
  const whole = (kind: 'output resistance' | 'inductance', line: string): Measurement => ({
    kind,
    line,
    place,
    ...handling(kind),
  });
  return [
    ...quick.signs.flatMap((signs) => coilCandidates(signs, quick)),
    ...(hasOutput && quick.resistance20COhm !== null && !isOutputRead('resistance')
      ? [whole('output resistance', 'hot to ground … kohm')]
      : []),
    ...(hasOutput && quick.resistance20COhm !== null && !isOutputRead('inductance')
      ? [whole('inductance', 'inductance hot to ground … H at 1 kHz')]
      : []),
  ];
}

const OUTPUT = { red: 'hot', black: 'ground' } as const;

/** What can be read of one coil that is not known of it. */
export function coilCandidates({ coil, pole, windPole }: CoilSigns, quick: QuickEstimates): readonly Measurement[] {
  const { netlist, readings } = quick;
  const winding = netlist.windings.find((each) => each.coil === coil);
  const { place } = coil;
  // Of a coil whose leads nobody knows, what it gives at the output is all that can be kicked.
  const isAtOutput = winding === undefined || winding.ends === 'unknown';
  const { red, black } = isAtOutput
    ? OUTPUT
    : { red: endLead(netlist, coil, 'finish'), black: endLead(netlist, coil, 'start') };
  const reaching: readonly Work[] = isAtOutput || isLedOut(winding, netlist) ? [] : ['opened'];
  const apart: readonly Work[] = isAtOutput || !isBesideAnother(winding, netlist) ? [] : ['unsoldered'];
  const kick = (over: { readonly red: string; readonly black: string }, work: readonly Work[]): Measurement => ({
    kind: 'kick',
    coil,
    ...over,
    line: `kick ${over.red} to ${over.black} at ${coil.name} approach …`,
    place,
    ...handling('kick', work),
  });
  const compass: Measurement = {
    kind: 'compass',
    coil,
    line: `compass ${coil.name} …`,
    place,
    ...handling('compass'),
  };
  const ohms: Measurement = {
    kind: 'coil resistance',
    coil,
    red: black,
    black: red,
    line: `${coil.name} … kohm`,
    place,
    ...handling('coil resistance', [...reaching, ...apart]),
  };
  return [
    ...(windPole === undefined ? [kick({ red, black }, reaching)] : []),
    // What a coil gives at the output can be kicked without opening anything.
    ...(windPole === undefined && reaching.length > 0 ? [kick(OUTPUT, [])] : []),
    ...(pole === undefined ? [compass] : []),
    ...(isAtOutput || readings.has(coil) ? [] : [ohms]),
  ];
}

/** Both of its ends can be touched from outside. */
const isLedOut = ({ start, finish }: Winding, { hot, ground, nets }: PickupNetlist): boolean =>
  [start, finish].every(
    (net) =>
      net !== undefined &&
      (net === hot || net === ground || (nets[net]?.nodes.some((node) => node.startsWith('lead:')) ?? false)),
  );

/** Joined to another coil at both ends: a meter across it reads that one, too. */
const isBesideAnother = ({ coil, start, finish }: Winding, { windings }: PickupNetlist): boolean =>
  windings.some(
    (other) =>
      other.coil !== coil &&
      [other.start, other.finish].every((net) => net !== undefined && (net === start || net === finish)) &&
      other.start !== other.finish,
  );
