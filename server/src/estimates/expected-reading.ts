/**
 * What a meter should show on each resistance line of a pickup's readings, and whether what was read lies within the meter's
 * limits and the spread of what is computed. Of what was read before the work only the coils that are said to be kept are judged.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import { type Bench, benchMeter, type MeterAccuracy } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { looseNetlist, type PickupNetlist, probedNets } from '../model/netlist.ts';
import type { ReadingOf, Readings } from '../model/readings.ts';
import { resistanceBetween } from '../physics/circuit/dc.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { type CoilRead, newestUpTo, readingUpTo } from './coil-life.ts';
import {
  coilOfReading,
  isResistance,
  type ReadingTemperature,
  type ResistanceLine,
  readingTemperature,
  resistanceAt20C,
} from './coil-reading.ts';
import { NOMINAL_OHM, OPEN_FROM_OHM } from './common-practice.ts';
import { coilsBetween, dcPickup } from './pickup-circuit.ts';
import { type QuickEstimates, resistanceOf } from './quick.ts';
import { atTemperature, toleranceOhm } from './reading-limits.ts';
import { segmentOhm } from './segment-shares.ts';
import { sounds } from './signs.ts';

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
  /** Resistance at 20 degC of a coil by its newest reading up to then; `undefined`: not read by then. */
  ownOhm(coil: Coil): Estimate | undefined;
  /** True where what is expected was read before this block: since then a coil may have changed. */
  readonly since: boolean;
  /** What would be expected if coils had these shares of their resistance, Ω; `null` is open. */
  ohmWith(shareOf: (coil: Coil) => number): number | null;
}

export interface JudgedBlock {
  readonly block: Readings;
  readonly lines: readonly JudgedLine[];
}

/** Every resistance line that something is known about. Blocks in the order of the file; remembered by the estimates. */
export const judgeReadings = onceFor((quick: QuickEstimates, bench: Bench | undefined): readonly JudgedBlock[] => {
  const { netlist } = quick;
  const blocks = netlist.pickup.readings;
  if (!blocks.some(({ lines }) => lines.some(isResistance))) return [];
  const setting: Setting = { quick, bench, meter: benchMeter(bench), states: leadsStates(netlist) };
  const alone = blocks.map((block) => {
    const lines = judgeCoilsAlone(block, setting);
    return block.found ? lines.filter(({ coils }) => coils.every(({ work }) => work?.value === 'kept')) : lines;
  });
  const { orderOf } = quick.life;
  const misfits = alone.flat().filter(({ fits }) => !fits);
  return blocks.map((block, index) => {
    const own = alone[index] ?? [];
    const doubted = new Set(misfits.flatMap((line) => (orderOf(line.block) <= orderOf(block) ? line.coils : [])));
    const through = !block.found && (block.apart || isSound(quick)) ? judgeNetwork(block, setting, doubted) : [];
    const order = (each: JudgedLine) => block.lines.indexOf(each.line);
    return { block, lines: [...own, ...through].sort((a, b) => order(a) - order(b)) };
  });
});

interface Setting {
  readonly quick: QuickEstimates;
  readonly bench: Bench | undefined;
  readonly meter: MeterAccuracy;
  readonly states: readonly { readonly state: LeadsState; readonly netlist: PickupNetlist }[];
}

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
    const ownOhm = () => undefined;
    const one = { line, block, state: 'joined' as const, temperature, coils: [coil] };
    const base: Base = { ...one, sharesToOhm: undefined, ownOhm, since: false };
    const computed = quick.windings.get(coil)?.computed20COhm;
    const judged = computed && judge(base, atTemperature(computed, temperature), meter, 'turns');
    const before = earlierReading(line, block, coil, quick);
    if (!before) return judged ? [judged] : line.value === 'open' ? [unexpectedlyOpen(base)] : [];
    const then = readingTemperature(before.line.atC, before.dated.block, bench);
    // An earlier reading that was odd itself says nothing against this one.
    const sound =
      !computed || judge({ ...base, line: before.line }, atTemperature(computed, then), meter, 'turns').fits;
    if (!sound) return judged ? [judged] : [];
    if (before.line.value === 'open') return judged ? [judged] : [];
    const read20C = resistanceAt20C(before.line.value, then, meter);
    const repeated = judge(
      { ...base, since: true },
      atTemperature(read20C, temperature),
      meter,
      'an earlier reading',
      before.line,
    );
    return [repeated.fits && judged ? judged : repeated];
  });
}

interface Base extends Pick<JudgedLine, 'line' | 'block' | 'state' | 'temperature' | 'coils' | 'ownOhm' | 'since'> {
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

/** The newest reading of the same coil before this line. */
function earlierReading(
  line: ResistanceLine,
  block: Readings,
  coil: Coil,
  { life }: QuickEstimates,
): CoilRead | undefined {
  const at = life.orderOf(block);
  return life.reads
    .get(coil)
    ?.findLast(
      (each) =>
        life.orderOf(each.dated.block) < at ||
        (each.dated.block === block && block.lines.indexOf(each.line) < block.lines.indexOf(line)),
    );
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

/** The state that explains the most lines of the block, the joined one first. */
function judgeNetwork(block: Readings, setting: Setting, doubted: ReadonlySet<Coil>): readonly JudgedLine[] {
  let best: readonly JudgedLine[] = [];
  let most = -1;
  for (const { state, netlist } of setting.states) {
    // Before any joint was made there was nothing but loose leads.
    if (block.apart && state !== 'loose') continue;
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
  const nets = probedNets(line.probes, netlist);
  if (!nets || touchesUntraced(line, netlist)) return undefined;
  const temperature = readingTemperature(line.atC, block, bench);
  const coils = coilsBetween(netlist, nets);
  const factor = copperTemperatureFactor(temperature.celsius);
  const ownOhm = (coil: Coil) => readingUpTo(quick.life, coil, block, bench)?.at20COhm;
  const asKnown = withResistance(quick, (coil) => ownOhm(coil) ?? quick.windings.get(coil)?.computed20COhm);
  const sharesToOhm: Base['sharesToOhm'] = (shareOf) => {
    const { network, nodeOf } = dcPickup(
      netlist,
      (segment) => shareOf(segment.coil) * factor * (segmentOhm(segment, asKnown) ?? NOMINAL_OHM),
      nets[1],
    );
    return resistanceBetween(network, nodeOf(nets[0]), nodeOf(nets[1]));
  };
  const isEarlier = (coil: Coil) => newestUpTo(quick.life, coil, block)?.dated.block !== block;
  const since = coils.every((coil) => ownOhm(coil)) && coils.some(isEarlier);
  const base: Base = { line, block, state, temperature, coils, sharesToOhm, ownOhm, since };
  const by = (against: 'turns' | 'coil readings', ohmOf: (coil: Coil) => Estimate | undefined) => {
    const expected = resistanceOf(netlist, withResistance(quick, ohmOf), nets[0], nets[1]);
    if (expected === undefined) return undefined;
    return judge(base, expected && atTemperature(expected, temperature), meter, against);
  };
  const computed = (coil: Coil) => quick.windings.get(coil)?.computed20COhm;
  const allRead = coils.length > 0 && coils.every((coil) => ownOhm(coil));
  const judged = by(allRead ? 'coil readings' : 'turns', (coil) => ownOhm(coil) ?? computed(coil));
  // Where a coil's own reading is the odd one, a sum that agrees with the turns is told with that coil, not again here.
  if (judged && !judged.fits && coils.some((coil) => doubted.has(coil))) {
    const asWound = by('turns', (coil) => (doubted.has(coil) ? computed(coil) : (ownOhm(coil) ?? computed(coil))));
    if (asWound?.fits) return asWound;
  }
  return judged;
}

const withResistance = (
  { windings }: QuickEstimates,
  ohmOf: (coil: Coil) => Estimate | undefined,
): QuickEstimates['windings'] =>
  new Map([...windings].map(([coil, winding]) => [coil, { ...winding, resistance20COhm: ohmOf(coil) }]));

/** A probe on a conductor that nobody traced, while a coil's ends are still to be found: nothing can be expected there. */
function touchesUntraced({ probes }: ReadingOf<'resistance'>, netlist: PickupNetlist): boolean {
  if (!netlist.windings.some(({ ends }) => ends === 'unknown')) return false;
  return [probes.red, probes.black].some((path) => {
    const net = netlist.netAt(path);
    return (
      net !== undefined &&
      !netlist.nets[net]?.nodes.some((each) => each.startsWith('coil:') || each.startsWith('part:'))
    );
  });
}
