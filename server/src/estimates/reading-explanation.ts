/**
 * Why readings are not what they should be. Each likely cause says what it would make every line of the block read, resistance,
 * inductance and capacitance alike; causes are ranked by how many lines they explain, by how many good lines they would spoil, and by how often they happen at a bench.
 */

import type { Coil } from '../model/coil.ts';
import { looseNetlist, type PickupNetlist, pickupNetlist, probedNets } from '../model/netlist.ts';
import { leadTexts } from '../model/pickup.ts';
import { resistanceBetween } from '../physics/circuit/dc.ts';
import { besideOhm, parallelOhm } from '../physics/meter.ts';
import { solveIncreasing } from '../physics/solve-increasing.ts';
import { copperTemperatureFactor, temperatureOfResistance } from '../physics/wire.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import {
  BESIDE_OHM,
  CAUSE_FITS_WITHIN,
  COLDEST_BENCH_C,
  GAUGE_NUMBER_LIMIT,
  HOTTEST_COIL_C,
  NOMINAL_OHM,
  SHORT_SHARE,
  SHORTED_MOST_LEFT,
  SPOOL_SPREAD,
} from './common-practice.ts';
import type { JudgedBlock, JudgedLine } from './expected-reading.ts';
import { inductanceStands, type JudgedMagnetic } from './magnetic-reading.ts';
import { dcPickup, dcTransfers } from './pickup-circuit.ts';
import { type QuickEstimates, resistanceOf } from './quick.ts';
import { because } from './reasons.ts';
import { segmentOhm } from './segment-shares.ts';

export type CauseKind =
  | 'slip of the pen'
  | 'warm or cold'
  | 'parallel path'
  | 'shorted turns'
  | 'fewer turns'
  | 'more turns'
  | 'other wire'
  | 'whole spool'
  | 'open coil'
  | 'poor joint'
  | 'other leads'
  | 'joined by mistake'
  | 'poles or steel'
  | 'leads counted in'
  | 'other stage';

export type Evidence = JudgedLine | JudgedMagnetic;

export interface Explanation {
  readonly kind: CauseKind;
  /** `shorted turns, or the counter started late`. */
  readonly words: string;
  /** The measurement that would tell, where one does. */
  readonly settles: string | undefined;
  /** Lines outside their limits that it accounts for. */
  readonly explains: readonly Evidence[];
  /** It alone explains every line that does not fit and spoils none, an inductance among them: no measurement is left to take. */
  readonly certain: boolean;
  /** Higher is likelier; only the order means something. */
  readonly score: number;
}

/** Likely causes of the lines that do not fit, the likeliest first; every one explains at least one such line. */
export function explainReadings(
  { lines }: Pick<JudgedBlock, 'lines'>,
  quick: QuickEstimates,
  magnetic: readonly JudgedMagnetic[] = [],
): readonly Explanation[] {
  const all: readonly Evidence[] = [...lines, ...magnetic];
  const wrong = all.filter(({ fits }) => !fits);
  const causes = wrong.flatMap((line) =>
    isResistance(line) ? causesOf(line, quick, magnetic) : magneticCauses(line, quick),
  );
  const weighed = causes
    .map((cause) => {
      const explains = wrong.filter((line) => reproduces(cause, line));
      const spoiled = all.filter((line) => line.fits && !reproduces(cause, line)).length;
      const whole = explains.length === wrong.length && spoiled === 0;
      return { cause, explains, whole, score: cause.prior + PER_LINE * explains.length - PER_SPOILED_LINE * spoiled };
    })
    .filter(({ explains }) => explains.length > 0)
    .sort((a, b) => b.score - a.score);
  const ranked = weighed.filter(
    (each, index) => weighed.findIndex(({ cause }) => cause.words === each.cause.words) === index,
  );
  const complete = ranked.filter(({ whole }) => whole);
  const byInductance = wrong.some((line) => !isResistance(line) && line.line.kind === 'inductance');
  return ranked.map(
    (each): Explanation => ({
      kind: each.cause.kind,
      words: each.cause.words,
      settles: each.cause.settles,
      explains: each.explains,
      certain: byInductance && complete.length === 1 && complete[0] === each,
      score: each.score,
    }),
  );
}

export const isResistance = (line: Evidence): line is JudgedLine => 'readOhm' in line;

/** Weights of the ranking: one more line explained outweighs how usual a cause is. Common practice, no published source. */
const PER_LINE = 2;
const PER_SPOILED_LINE = 3;
/** What changed since a good reading happened to the pickup: that is likelier than a hand on the probes. Common practice, too. */
const SINCE = 2.3;

interface Cause {
  readonly kind: CauseKind;
  readonly words: string;
  readonly settles?: string;
  /** How usual it is at a bench, 0 to 3. Common practice, no published source. */
  readonly prior: number;
  /** What a line might read under it, Ω (`null`: open); more than one where it may or may not touch that line. */
  reads(line: JudgedLine): readonly (number | null)[];
  /** What an inductance or capacitance might be read under it, lowest and highest; left out where it changes none. */
  shows?(line: JudgedMagnetic): readonly [number, number];
}

function reproduces(cause: Cause, line: Evidence): boolean {
  if (!isResistance(line)) {
    const [low, high] = cause.shows?.(line) ?? [line.expected.value, line.expected.value];
    return line.read.value >= low - line.limit && line.read.value <= high + line.limit;
  }
  return cause
    .reads(line)
    .some((ohm) =>
      ohm === null || line.readOhm === null
        ? ohm === line.readOhm
        : Math.abs(ohm - line.readOhm) <= Math.max(line.limitOhm, CAUSE_FITS_WITHIN * line.readOhm),
    );
}

function causesOf(line: JudgedLine, quick: QuickEstimates, magnetic: readonly JudgedMagnetic[]): readonly Cause[] {
  const { readOhm, expected } = line;
  const leads = otherLeads(line, quick);
  if (readOhm === null) return [...openCoils(line), ...beforeALink(line, quick), ...leads];
  if (expected === null) return [...afterTheJoints(line, readOhm, quick), ...leads, joinedByMistake(line)];
  if (!(expected.value > 0)) return [poorJoint(line, readOhm)];
  if (readOhm < SHORT_SHARE * expected.value)
    return [...slipOfThePen(line, readOhm, expected.value), shorted(line), ...leads];
  return [
    ...slipOfThePen(line, readOhm, expected.value),
    ...warmOrCold(line, readOhm, expected.value),
    ...(readOhm < expected.value ? parallelPath(readOhm, expected.value) : [poorJoint(line, readOhm - expected.value)]),
    ...(line.against === 'coil readings' && !line.since ? [] : coilCauses(line, readOhm, quick, magnetic)),
    ...leads,
  ];
}

/** A link without which nothing joins the probes: read before it was soldered, the line is right. */
function beforeALink(line: JudgedLine, { netlist }: QuickEstimates): readonly Cause[] {
  const { pickup } = netlist;
  const { hookup } = pickup;
  if (!hookup || line.state === 'loose') return [];
  return hookup.joints.flatMap((joint): readonly Cause[] => {
    if (joint.kind !== 'link') return [];
    const joints = hookup.joints.filter((each) => each !== joint);
    const before = pickupNetlist({ ...pickup, hookup: { ...hookup, joints } });
    if (!isOpen(line, before)) return [];
    const leads = leadTexts(joint).join(' ');
    return [
      {
        kind: 'other stage',
        words: because('open as before the link `{0}` was soldered', leads),
        settles: because('a reading with that joint looked at'),
        prior: 2.6,
        reads: (each) => [isOpen(each, before) ? null : unchanged(each)],
      },
    ];
  });
}

function isOpen({ line }: JudgedLine, netlist: PickupNetlist): boolean {
  const nets = line.kind === 'resistance' ? probedNets(line.probes, netlist) : undefined;
  return nets !== undefined && dcTransfers(netlist, () => NOMINAL_OHM, nets[0], nets[1]) === undefined;
}

/** Said to be read apart, and reads what the joined pickup would. */
function afterTheJoints(line: JudgedLine, readOhm: number, { netlist, windings }: QuickEstimates): readonly Cause[] {
  const nets = line.line.kind === 'resistance' ? probedNets(line.line.probes, netlist) : undefined;
  if (!line.block.apart || !nets) return [];
  const joined = resistanceOf(netlist, windings, nets[0], nets[1]);
  const ohm = joined && joined.value * copperTemperatureFactor(line.temperature.celsius);
  if (!joined || !ohm || Math.abs(ohm - readOhm) > Math.max(3 * joined.sd, CAUSE_FITS_WITHIN * readOhm)) return [];
  return [
    {
      kind: 'other stage',
      words: because('that the joints were made already: the joined pickup reads so'),
      prior: 2.4,
      reads: onlyAt(line, readOhm),
    },
  ];
}

const unchanged = ({ expected }: JudgedLine) => (expected === null ? null : expected.value);
const onlyAt = (line: JudgedLine, ohm: number | null) => (each: JudgedLine) =>
  each === line ? [ohm] : [unchanged(each)];
/** To two digits: its size is an inference, not a measurement. */
const kilohms = (ohm: number) => printQuantity({ value: Number(ohm.toPrecision(2)), dimension: 'resistance' });

function openCoils(line: JudgedLine): readonly Cause[] {
  return [
    ...line.coils.map(
      (coil): Cause => ({
        kind: 'open coil',
        words: because('an open {0} coil, its wire broken or a joint held apart by enamel', coil.name),
        settles: because('a reading of the {0} coil at its own two ends', coil.name),
        prior: 2.5,
        reads: (each) => [each.coils.includes(coil) ? null : unchanged(each)],
      }),
    ),
    { kind: 'poor joint', words: because('a probe that did not touch'), prior: 1, reads: onlyAt(line, null) },
  ];
}

const joinedByMistake = (line: JudgedLine): Cause => ({
  kind: 'joined by mistake',
  words: because('solder, a pinched lead or a bare end that joins what should be apart'),
  prior: 1.5,
  reads: onlyAt(line, line.readOhm),
});

const shorted = (line: JudgedLine): Cause => ({
  kind: 'joined by mistake',
  words: because('a short across it: solder or bare ends that touch'),
  prior: 2,
  reads: (each) =>
    line.coils.every((coil) => each.coils.includes(coil)) ? [unchanged(each), line.readOhm] : [unchanged(each)],
});

const poorJoint = (line: JudgedLine, extraOhm: number): Cause => ({
  kind: 'poor joint',
  words: because('a poor joint that adds {0}: enamel under the solder, or a dry joint', kilohms(extraOhm)),
  settles: because('a reading with the joint reheated'),
  prior: 1.2,
  reads: (each) => {
    const plain = unchanged(each);
    if (plain === null) return [null];
    if (each === line) return [plain + extraOhm];
    // One joint lies in the way of every reading through the same coils, and of no other.
    return line.coils.every((coil) => each.coils.includes(coil)) ? [plain, plain + extraOhm] : [plain];
  },
});

/** A decimal point or a unit: the reading is a power of ten off, else right. */
function slipOfThePen(line: JudgedLine, readOhm: number, expectedOhm: number): readonly Cause[] {
  return [10, 100, 1000].flatMap((power) =>
    [readOhm * power, readOhm / power]
      .filter((ohm) => Math.abs(ohm - expectedOhm) <= Math.max(line.limitOhm, 0.05 * expectedOhm))
      .map(
        (ohm): Cause => ({
          kind: 'slip of the pen',
          words: because(
            'a slip of the decimal point or the unit: {0} was meant',
            printQuantity({ value: ohm, dimension: 'resistance' }),
          ),
          prior: 3,
          reads: onlyAt(line, readOhm),
        }),
      ),
  );
}

/** Copper at another temperature than stated; every line of the block was read at it. */
function warmOrCold(line: JudgedLine, readOhm: number, expectedOhm: number): readonly Cause[] {
  const at20C = expectedOhm / copperTemperatureFactor(line.temperature.celsius);
  const celsius = temperatureOfResistance(readOhm, at20C);
  const aboveK = celsius - line.temperature.celsius;
  if (!(celsius >= COLDEST_BENCH_C && celsius <= HOTTEST_COIL_C) || aboveK < -15) return [];
  const words =
    aboveK > 0
      ? because('a coil still warm, at about {0}', printCelsius(Math.round(celsius)))
      : because('a colder coil than stated, at about {0}', printCelsius(Math.round(celsius)));
  return [
    {
      kind: 'warm or cold',
      words,
      settles: because('a reading once the pickup has settled to the room'),
      prior: aboveK > 0 ? 2.4 - aboveK / 40 : 1,
      reads: (each) => {
        const plain = unchanged(each);
        if (plain === null) return [null];
        const there = each.temperature.celsius + aboveK;
        const warm = (plain * copperTemperatureFactor(there)) / copperTemperatureFactor(each.temperature.celsius);
        return each.against === 'coil readings' ? [warm, plain] : [warm];
      },
    },
  ];
}

/** Hands on both probes, a pot across the pickup: a resistance beside the one that was meant. */
function parallelPath(readOhm: number, expectedOhm: number): readonly Cause[] {
  const besideItOhm = besideOhm(readOhm, expectedOhm);
  if (besideItOhm === null || besideItOhm < BESIDE_OHM.least || besideItOhm > BESIDE_OHM.most) return [];
  return [
    {
      kind: 'parallel path',
      words: because(
        'a path of {0} beside it: hands on the probes, or the pickup read in circuit',
        kilohms(besideItOhm),
      ),
      settles: because('a reading out of circuit with no hand on the probes'),
      prior: 2,
      reads: (each) => {
        const plain = unchanged(each);
        return plain === null ? [null] : [plain, parallelOhm(plain, besideItOhm)];
      },
    },
  ];
}

/** What would make one coil, or every coil from one spool, another one than stated. */
function coilCauses(
  line: JudgedLine,
  readOhm: number,
  quick: QuickEstimates,
  magnetic: readonly JudgedMagnetic[],
): readonly Cause[] {
  const causes: Cause[] = [];
  // A total tells of no coil by name: one of them has lost turns.
  if (line.since && line.coils.length > 1 && readOhm < (unchanged(line) ?? 0))
    causes.push({
      kind: 'shorted turns',
      words: because(
        'turns of the {0} coil shorted since the earlier readings',
        line.coils.map(({ name }) => name).join(' or the '),
      ),
      settles: because('a reading of each coil by itself'),
      prior: SINCE,
      reads: onlyAt(line, readOhm),
      shows: (each) => [0, each.expected.value],
    });
  else
    for (const coil of line.coils) {
      const share = shareThatReads(line, readOhm, (each) => each === coil);
      if (share === undefined) continue;
      const scaled = scaledBy((each) => (each === coil ? share : 1));
      const earlier = line.since;
      // What an inductance would tell stands there already, or is asked for.
      const settles = inductanceStands(line.block, coil, quick.netlist)
        ? {}
        : { settles: because('an inductance reading of the {0} coil', coil.name) };
      const judged = magnetic.some(({ coils }) => coils.includes(coil));
      const turnsToo = (each: JudgedMagnetic): readonly [number, number] => {
        const henry = each.with((one) => (one === coil ? share ** 2 : 1));
        return [henry, henry];
      };
      if (share < 1 && judged && !earlier)
        causes.push(shortedTurns(coil, scaled, share ** 2), {
          kind: 'fewer turns',
          words: because('fewer turns on the {0} coil than stated: a counter that started late', coil.name),
          ...settles,
          prior: 1.6,
          reads: scaled,
          shows: turnsToo,
        });
      else if (share < 1)
        causes.push({
          kind: earlier ? 'shorted turns' : 'fewer turns',
          words: earlier
            ? because('turns of the {0} coil shorted since the earlier reading', coil.name)
            : because('shorted turns in the {0} coil, or a counter that started late', coil.name),
          ...settles,
          prior: earlier ? SINCE : 1.9,
          reads: scaled,
          shows: (each) => [0, turnsToo(each)[1]],
        });
      else if (!earlier)
        causes.push({
          kind: 'more turns',
          words: because('more turns on the {0} coil than stated, or wire stretched thin by tension', coil.name),
          ...settles,
          prior: 1.6,
          reads: scaled,
          shows: turnsToo,
        });
      const other = earlier ? undefined : otherGauge(coil, share);
      if (other)
        causes.push({
          kind: 'other wire',
          words: because('{0} wire on the {1} coil instead of the wire stated', other, coil.name),
          ...settles,
          // A spool that was measured is known; one by its label may be another.
          prior: coil.spool?.measured ? 1.2 : 2,
          reads: scaled,
        });
    }
  const [first] = line.coils;
  const wire = first?.wire;
  if (wire && line.against === 'turns' && line.coils.every((coil) => coil.wire === wire)) {
    const share = shareThatReads(line, readOhm, () => true);
    const sharedBySeveral = quick.netlist.pickup.coils.filter((coil) => coil.wire === wire).length > 1;
    if (share !== undefined && Math.abs(share - 1) < SPOOL_SPREAD && sharedBySeveral)
      causes.push({
        kind: 'whole spool',
        words: because(
          share < 1 ? 'wire {0} that runs thicker than stated' : 'wire {0} that runs thinner than stated',
          wire.name,
        ),
        settles: because('a reading of some metres of it'),
        prior: 1.5,
        reads: scaledBy((coil) => (coil.wire === wire ? share : 1)),
      });
  }
  return causes;
}

/** A short inside a winding takes little resistance, and of the inductance anything up to all: its turns are a loaded secondary. */
const shortedTurns = (coil: Coil, reads: Cause['reads'], mostLeft: number): Cause => ({
  kind: 'shorted turns',
  words: because('shorted turns in the {0} coil', coil.name),
  prior: 2.4,
  reads,
  shows: (line) => [line.with((each) => (each === coil ? 0 : 1)), line.with((each) => (each === coil ? mostLeft : 1))],
});

/** What would make an inductance or a capacitance another than turns and bobbin compute to. */
function magneticCauses(line: JudgedMagnetic, quick: QuickEstimates): readonly Cause[] {
  const { read, expected, withoutPoles, coils } = line;
  const same = (each: JudgedLine) => [unchanged(each)];
  const here = (each: JudgedMagnetic): readonly [number, number] =>
    each === line ? [read.value, read.value] : [each.expected.value, each.expected.value];
  const dimension = line.line.kind;
  const slips = [10, 100, 1000].flatMap((power) =>
    [read.value * power, read.value / power]
      .filter((value) => Math.abs(value - expected.value) <= line.limit)
      .map(
        (value): Cause => ({
          kind: 'slip of the pen',
          words: because('a slip of the decimal point or the unit: {0} was meant', printQuantity({ value, dimension })),
          prior: 3,
          reads: same,
          shows: here,
        }),
      ),
  );
  const less = read.value < expected.value;
  if (dimension === 'capacitance')
    return less
      ? slips
      : [
          ...slips,
          {
            kind: 'leads counted in',
            words: because("the meter's own leads or a cable counted in"),
            settles: because('a reading of the leads alone, taken off'),
            prior: 1.5,
            reads: same,
            shows: here,
          },
        ];
  const perCoil = coils.flatMap((coil): readonly Cause[] => {
    const share = Math.sqrt(read.value / expected.value);
    const scaled = scaledBy((each) => (each === coil ? share : 1));
    const shows = (each: JudgedMagnetic): readonly [number, number] => {
      const henry = each.with((one) => (one === coil ? share ** 2 : 1));
      return [henry, henry];
    };
    const settles = quick.readings.has(coil)
      ? {}
      : { settles: because('a resistance reading of the {0} coil', coil.name) };
    return less
      ? [
          shortedTurns(coil, same, SHORTED_MOST_LEFT),
          {
            kind: 'fewer turns',
            words: because('fewer turns on the {0} coil than stated: a counter that started late', coil.name),
            ...settles,
            prior: 1.6,
            reads: scaled,
            shows,
          },
        ]
      : [
          {
            kind: 'more turns',
            words: because('more turns on the {0} coil than stated', coil.name),
            ...settles,
            prior: 1.6,
            reads: scaled,
            shows,
          },
        ];
  });
  const noPoles = withoutPoles !== undefined && Math.abs(read.value - withoutPoles) <= line.limit;
  return [
    ...slips,
    ...perCoil,
    ...(less && noPoles
      ? [
          {
            kind: 'poles or steel',
            words: because('poles that were not in when it was read'),
            prior: 2,
            reads: same,
            shows: here,
          } as const,
        ]
      : []),
    ...(less
      ? []
      : [
          {
            kind: 'poles or steel',
            words: because('steel near it while it was read'),
            prior: 1.2,
            reads: same,
            shows: here,
          } as const,
        ]),
  ];
}

/** Where the coils' own readings are what is expected, they already hold whatever is the matter with a coil. */
const scaledBy = (shareOf: (coil: Coil) => number) => (line: JudgedLine) =>
  line.against === 'coil readings' && !line.since ? [unchanged(line)] : [line.ohmWith(shareOf)];

/** The share of their resistance that these coils must have for the line to read so; it rises with the share. */
function shareThatReads(line: JudgedLine, readOhm: number, chosen: (coil: Coil) => boolean): number | undefined {
  const ohm = (share: number) => line.ohmWith((coil) => (chosen(coil) ? share : 1)) ?? Number.NaN;
  return solveIncreasing(ohm, { target: readOhm, low: LEAST_SHARE, high: MOST_SHARE, tolerance: 1e-9 });
}

/** Between these the search goes: a winding all but shorted, and wire six gauge numbers thinner. No limit of what is found. */
const LEAST_SHARE = 0.02;
const MOST_SHARE = 4;

/** The gauge whose wire would give this share of the stated wire's resistance, by the AWG rule: 92^(2/39) a number. */
function otherGauge(coil: Coil, share: number): string | undefined {
  const stated = coil.wire?.gaugeAwg?.value;
  if (stated === undefined) return undefined;
  const numbers = (Math.log(share) / Math.log(92)) * (39 / 2);
  const whole = Math.round(numbers);
  if (whole === 0 || Math.abs(whole) > 2 || Math.abs(numbers - whole) > GAUGE_NUMBER_LIMIT) return undefined;
  return `${stated + whole} AWG`;
}

/** Another pair of leads reads exactly this: the probes lay there, or two leads are taken for one another. */
function otherLeads(line: JudgedLine, { netlist, windings }: QuickEstimates): readonly Cause[] {
  const { readOhm, temperature } = line;
  if (line.line.kind !== 'resistance') return [];
  if ([...windings.values()].some(({ resistance20COhm }) => resistance20COhm === undefined)) return [];
  const lying: PickupNetlist = line.state === 'loose' ? looseNetlist(netlist.pickup) : netlist;
  const ownNets = [line.line.probes.red, line.line.probes.black].map(lying.netAt);
  const leads = [...lying.leads.values()].slice(0, MOST_LEADS);
  const factor = copperTemperatureFactor(temperature.celsius);
  const { network, nodeOf } = dcPickup(lying, (segment) => factor * (segmentOhm(segment, windings) ?? 0), undefined);
  for (const [index, a] of leads.entries())
    for (const b of leads.slice(index + 1)) {
      const [from, to] = [lying.netOf(a.node), lying.netOf(b.node)];
      if (from === undefined || to === undefined || from === to) continue;
      if (ownNets.includes(from) && ownNets.includes(to)) continue;
      const ohm = resistanceBetween(network, nodeOf(from), nodeOf(to));
      const same =
        ohm === null || readOhm === null
          ? ohm === readOhm
          : Math.abs(ohm - readOhm) <= Math.max(line.limitOhm, 0.02 * readOhm);
      if (!same) continue;
      return [
        {
          kind: 'other leads',
          words:
            readOhm === null
              ? because('a probe on another lead than the one written')
              : because(
                  'probes on other leads than written, or leads that are mistaken for one another ({0} to {1} should read so)',
                  a.name,
                  b.name,
                ),
          prior: line.expected === null ? 2 : 1.1,
          reads: onlyAt(line, readOhm),
        },
      ];
    }
  return [];
}

/** Pairs grow with the square. */
const MOST_LEADS = 8;
