/**
 * What a meter should show on each resistance line of a pickup's readings, and whether what was read lies within the meter's
 * limits and the spread of what is computed. Readings taken before the work are not judged.
 */
import type { Quantity } from '../../../grammar/values/quantity.ts';
import { type Bench, benchMeter, type MeterAccuracy } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { ReadingOf, Readings } from '../model/readings.ts';
import { resistanceBetween } from '../physics/circuit/dc.ts';
import { readingLimits } from '../physics/meter.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Estimate, scale } from '../quantities/estimate.ts';
import { coilOfReading, netsOf, type ReadingTemperature, readingTemperature, resistanceAt20C } from './coil-reading.ts';
import { NOMINAL_OHM, OPEN_FROM_OHM, PROBES_OHM, READING_SPREAD_SD } from './common-practice.ts';
import { dcPickup, dcTransfers, looseNetlist } from './pickup-circuit.ts';
import { type QuickEstimates, resistanceOf, segmentOhm } from './quick.ts';
import { sounds } from './signs.ts';

export type ResistanceLine = ReadingOf<'coil resistance'> | ReadingOf<'resistance'>;

/** How the pickup lay when a block was read: leads joined on the bench, joined and fitted (shield on ground), or loose. */
export type LeadsState = 'joined' | 'fitted' | 'loose';

export interface JudgedLine {
  readonly line: ResistanceLine;
  readonly block: Readings;
  readonly state: LeadsState;
  readonly temperature: ReadingTemperature;
  /** What was read, Ω; `null` is open. */
  readonly readOhm: number | null;
  /** What should be read at the reading's own temperature, Ω; `null` is open. */
  readonly expected: Estimate | null;
  /** What the reading may differ by, Ω: the meter's limit and three standard deviations of what is expected. */
  readonly limitOhm: number;
  /** Coils between the probes. */
  readonly coils: readonly Coil[];
  /** What the expectation rests on: turns and wire, the coils' own readings, or an earlier reading of the same coil. */
  readonly against: 'turns' | 'coil readings' | 'an earlier reading';
  /** The earlier line, where one is compared. */
  readonly earlier: ResistanceLine | undefined;
  readonly fits: boolean;
  /** What would be expected if coils had these shares of their resistance, Ω; `null` is open. */
  ohmWith(shareOf: (coil: Coil) => number): number | null;
}

export interface JudgedBlock {
  readonly block: Readings;
  readonly lines: readonly JudgedLine[];
}

/** Every resistance line that something is known about. Blocks in the order of the file; remembered by the estimates. */
export function judgeReadings(quick: QuickEstimates, bench: Bench | undefined): readonly JudgedBlock[] {
  const before = remembered.get(quick);
  if (before && before.bench === bench) return before.blocks;
  const blocks = judgeAll(quick, bench);
  remembered.set(quick, { bench, blocks });
  return blocks;
}

const remembered = new WeakMap<
  QuickEstimates,
  { readonly bench: Bench | undefined; readonly blocks: readonly JudgedBlock[] }
>();

function judgeAll(quick: QuickEstimates, bench: Bench | undefined): readonly JudgedBlock[] {
  const { netlist } = quick;
  const blocks = netlist.pickup.readings.filter(({ found }) => !found);
  if (!blocks.some(({ lines }) => lines.some(isResistance))) return [];
  const setting: Setting = { quick, bench, meter: benchMeter(bench), states: leadsStates(netlist) };
  const alone = blocks.map((block) => judgeCoilsAlone(block, setting));
  const doubted = new Set(
    alone
      .flat()
      .filter(({ fits }) => !fits)
      .flatMap(({ coils }) => coils),
  );
  return blocks.map((block, index) => {
    const own = alone[index] ?? [];
    const through = isSound(quick) ? judgeNetwork(block, setting, doubted) : [];
    const order = (each: JudgedLine) => block.lines.indexOf(each.line);
    return { block, lines: [...own, ...through].sort((a, b) => order(a) - order(b)) };
  });
}

interface Setting {
  readonly quick: QuickEstimates;
  readonly bench: Bench | undefined;
  readonly meter: MeterAccuracy;
  readonly states: readonly { readonly state: LeadsState; readonly netlist: PickupNetlist }[];
}

const isResistance = (line: Readings['lines'][number]): line is ResistanceLine =>
  line.kind === 'coil resistance' || line.kind === 'resistance';

function leadsStates(netlist: PickupNetlist): Setting['states'] {
  // With the chassis named as ground, no wire is added between a shield line and ground.
  const apart = { ...netlist, chassis: netlist.ground };
  return [
    { state: 'joined', netlist: apart },
    ...(netlist.chassis === netlist.ground ? [] : [{ state: 'fitted' as const, netlist }]),
    { state: 'loose', netlist: looseNetlist(netlist.pickup) },
  ];
}

/** A fault of the hookup explains what a meter reads through it: then only coils by themselves are judged. */
function isSound({ netlist, signs }: QuickEstimates): boolean {
  const { hot, ground, undeclared, reused, windings, pickup } = netlist;
  if (undeclared.length > 0 || reused.length > 0) return false;
  if (!pickup.hookup) return true;
  if (windings.some(({ start, finish }) => start !== undefined && start === finish)) return false;
  if (windings.some(({ ends }) => ends === 'unknown')) return true;
  return hot !== undefined && ground !== undefined && hot !== ground && signs.some(sounds);
}

function judgeCoilsAlone(block: Readings, { quick, bench, meter, states }: Setting): readonly JudgedLine[] {
  const loose = states.at(-1)?.netlist ?? quick.netlist;
  return block.lines.filter(isResistance).flatMap((line): JudgedLine[] => {
    const coil = coilOfReading(line, block, quick.netlist, loose);
    if (!coil) return [];
    const temperature = readingTemperature(line.atC, block, bench);
    const base: Base = { line, block, state: 'joined', temperature, coils: [coil], sharesToOhm: undefined };
    const computed = quick.windings.get(coil)?.computed20COhm;
    const judged = computed && judge(base, atTemperature(computed, temperature), meter, 'turns');
    const before = earlierReading(line, coil, quick.netlist, loose);
    if (!before) return judged ? [judged] : line.value === 'open' ? [unexpectedlyOpen(base)] : [];
    const then = readingTemperature(before.line.atC, before.block, bench);
    // An earlier reading that was odd itself says nothing against this one.
    const sound =
      !computed || judge({ ...base, line: before.line }, atTemperature(computed, then), meter, 'turns').fits;
    if (!sound) return judged ? [judged] : [];
    const read20C = resistanceAt20C(before.value, then, meter);
    const repeated = judge(base, atTemperature(read20C, temperature), meter, 'an earlier reading', before.line);
    return [repeated.fits && judged ? judged : repeated];
  });
}

interface Base extends Pick<JudgedLine, 'line' | 'block' | 'state' | 'temperature' | 'coils'> {
  /** Resistance by shares of coils over the resistance of all as they are; `undefined` for a coil alone. */
  readonly sharesToOhm: ((shareOf: (coil: Coil) => number) => number | null) | undefined;
}

const unexpectedlyOpen = ({ sharesToOhm: _, ...base }: Base): JudgedLine => ({
  ...base,
  ohmWith: () => null,
  readOhm: null,
  expected: { value: Number.NaN, sd: 0, basis: 'assumed', restsOn: [] },
  limitOhm: 0,
  against: 'turns',
  earlier: undefined,
  fits: false,
});

/** The newest reading of the same coil that stands before this line; one taken before the work counts too. */
function earlierReading(
  line: ResistanceLine,
  coil: Coil,
  netlist: PickupNetlist,
  loose: PickupNetlist,
): { readonly line: ResistanceLine; readonly block: Readings; readonly value: Quantity } | undefined {
  let last: { readonly line: ResistanceLine; readonly block: Readings; readonly value: Quantity } | undefined;
  const { readings } = netlist.pickup;
  const ordered = [...readings.filter(({ found }) => found), ...readings.filter(({ found }) => !found)];
  for (const block of ordered)
    for (const each of block.lines) {
      if (each === line) return last;
      if (!isResistance(each) || each.value === 'open' || !(each.value.si > 0)) continue;
      if (coilOfReading(each, block, netlist, loose) === coil) last = { line: each, block, value: each.value };
    }
  return last;
}

function atTemperature(at20C: Estimate, { celsius, sdK }: ReadingTemperature): Estimate {
  const there = scale(at20C, copperTemperatureFactor(celsius));
  const perKelvin = at20C.value * (copperTemperatureFactor(21) - 1);
  return { ...there, sd: Math.hypot(there.sd, perKelvin * sdK) };
}

function judge(
  base: Base,
  expected: Estimate | null,
  meter: MeterAccuracy,
  against: JudgedLine['against'],
  earlier?: ResistanceLine,
): JudgedLine {
  const { value } = base.line;
  const readOhm = value === 'open' || value.si >= OPEN_FROM_OHM ? null : value.si;
  const limitOhm = expected && value !== 'open' ? toleranceOhm(value, expected, meter) : 0;
  const fits =
    expected === null || readOhm === null
      ? expected === null && readOhm === null
      : Math.abs(readOhm - expected.value) <= limitOhm;
  const { sharesToOhm, ...rest } = base;
  const [only] = base.coils;
  const ohmWith: JudgedLine['ohmWith'] = (shareOf) =>
    expected === null
      ? null
      : sharesToOhm
        ? sharesToOhm(shareOf)
        : only
          ? shareOf(only) * expected.value
          : expected.value;
  return { ...rest, readOhm, expected, limitOhm, against, earlier, fits, ohmWith };
}

function toleranceOhm(read: Quantity, expected: Estimate, meter: MeterAccuracy): number {
  const ownOhm = read.sd === undefined ? readingLimits(meter, read.si).plusMinusOhm : READING_SPREAD_SD * read.sd;
  // Readings by one meter share its scale: that part of the error is the same on both sides.
  const common = read.sd === undefined ? (expected.sources?.['the meter'] ?? 0) : 0;
  const scaleOhm = Math.min((meter.accuracyPercent / 100) * read.si, Math.sqrt(3) * Math.abs(common));
  const spread = Math.sqrt(Math.max(0, expected.sd ** 2 - common ** 2));
  return (common === 0 ? ownOhm : ownOhm - scaleOhm) + READING_SPREAD_SD * spread + PROBES_OHM;
}

/** The state that explains the most lines of the block, the joined one first. */
function judgeNetwork(block: Readings, setting: Setting, doubted: ReadonlySet<Coil>): readonly JudgedLine[] {
  let best: readonly JudgedLine[] = [];
  let most = -1;
  for (const { state, netlist } of setting.states) {
    const lines = block.lines
      .filter(isResistance)
      .flatMap((line) => judgeThrough(line, block, { state, netlist }, setting, doubted) ?? []);
    const explained = lines.filter(({ fits }) => fits).length;
    if (explained <= most) continue;
    best = lines;
    most = explained;
    if (lines.length > 0 && explained === lines.length) break;
  }
  return best;
}

function judgeThrough(
  line: ResistanceLine,
  block: Readings,
  { state, netlist }: Setting['states'][number],
  { quick, bench, meter, states }: Setting,
  doubted: ReadonlySet<Coil>,
): JudgedLine | undefined {
  if (line.kind !== 'resistance') return undefined;
  const loose = states.at(-1)?.netlist ?? quick.netlist;
  if (coilOfReading(line, block, quick.netlist, loose)) return undefined;
  const nets = netsOf(line.probes, netlist);
  if (!nets || touchesUntraced(line, netlist)) return undefined;
  const temperature = readingTemperature(line.atC, block, bench);
  const coils = coilsBetween(netlist, nets);
  const factor = copperTemperatureFactor(temperature.celsius);
  const sharesToOhm: Base['sharesToOhm'] = (shareOf) => {
    const { network, nodeOf } = dcPickup(
      netlist,
      (segment) => shareOf(segment.coil) * factor * (segmentOhm(segment, quick.windings) ?? NOMINAL_OHM),
      nets[1],
    );
    return resistanceBetween(network, nodeOf(nets[0]), nodeOf(nets[1]));
  };
  const base: Base = { line, block, state, temperature, coils, sharesToOhm };
  const by = (against: 'turns' | 'coil readings', ohmOf: (coil: Coil) => Estimate | undefined) => {
    const windings = new Map(
      [...quick.windings].map(([coil, winding]) => [coil, { ...winding, resistance20COhm: ohmOf(coil) }]),
    );
    const expected = resistanceOf(netlist, windings, nets[0], nets[1]);
    if (expected === undefined) return undefined;
    return judge(base, expected && atTemperature(expected, temperature), meter, against);
  };
  const computed = (coil: Coil) => quick.windings.get(coil)?.computed20COhm;
  const own = (coil: Coil) => quick.readings.get(coil)?.at20COhm;
  const allRead = coils.length > 0 && coils.every((coil) => own(coil));
  const judged = by(allRead ? 'coil readings' : 'turns', (coil) => own(coil) ?? computed(coil));
  // Where a coil's own reading is the odd one, a sum that agrees with the turns is told with that coil, not again here.
  if (judged && !judged.fits && coils.some((coil) => doubted.has(coil))) {
    const asWound = by('turns', (coil) => (doubted.has(coil) ? computed(coil) : (own(coil) ?? computed(coil))));
    if (asWound?.fits) return asWound;
  }
  return judged;
}

/** A probe on a conductor that nobody traced, while a coil's ends are still to be found: nothing can be expected there. */
function touchesUntraced({ probes }: ReadingOf<'resistance'>, netlist: PickupNetlist): boolean {
  if (!netlist.windings.some(({ ends }) => ends === 'unknown')) return false;
  return [probes.red, probes.black].some((path) => {
    const node = netlist.resolve(path);
    const net = node === undefined ? undefined : netlist.netOf(node);
    return (
      net !== undefined &&
      !netlist.nets[net]?.nodes.some((each) => each.startsWith('coil:') || each.startsWith('part:'))
    );
  });
}

/** The coils whose resistance a meter between two nets sees. */
export function coilsBetween(netlist: PickupNetlist, [a, b]: readonly [number, number]): readonly Coil[] {
  const shares = dcTransfers(netlist, () => NOMINAL_OHM, a, b);
  if (!shares) return [];
  const carrying = new Set([...shares].filter(([, share]) => Math.abs(share) > 1e-3).map(([{ coil }]) => coil));
  return netlist.pickup.coils.filter((coil) => carrying.has(coil));
}
