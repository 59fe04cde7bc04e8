/** Which sweeps of a pickup are looked at together, and the circuit each was recorded in, as plain numbers with their deviations. */
import type { Bench } from '../model/bench.ts';
import { benchMeter } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import type { Curve } from '../model/curve.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Readings } from '../model/readings.ts';
import type { Sweep } from '../model/sweep.ts';
import { sweepsOf } from '../model/sweeps.ts';
import type { DcReading, MeasuredCurve, RecorderInput, SweepsOfCoil } from '../physics/sweep/sweep-problem.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { ownDeviation } from '../quantities/estimate.ts';
import { causes, pieceName } from './causes.ts';
import { isResistance, readingTemperature, resistanceAt20C } from './coil-reading.ts';
import {
  CHANNEL_BALANCE_SD,
  IMPEDANCE_METER_RELATIVE_SD,
  RECORDER_FARAD,
  RECORDER_FARAD_SD,
  RECORDER_OHM,
  RECORDER_OHM_RELATIVE_SD,
  STATED_INPUT_CAPACITANCE_RELATIVE_SD,
  STATED_INPUT_RELATIVE_SD,
  SWEEP_CAPACITOR_RELATIVE_SD,
  SWEEP_RESISTOR_RELATIVE_SD,
} from './common-practice.ts';
import { type MagneticSubject, magneticSubject } from './measured-magnetics.ts';
import { phaseFault } from './sweep-faults.ts';

/** Sweeps of the same two points in one block: they tell of one circuit. */
export interface SweepGroup {
  readonly block: Readings;
  readonly sweeps: readonly (Sweep & { readonly curve: Curve })[];
  readonly subject: MagneticSubject | undefined;
  /** What causes of error call the pickup. */
  readonly piece: string;
}

/** In the order of the blocks, `found` ones among them. */
export function sweepGroups(netlist: PickupNetlist): readonly SweepGroup[] {
  const groups = new Map<string, { block: Readings; sweeps: (Sweep & { readonly curve: Curve })[] }>();
  const blocks = netlist.pickup.readings;
  for (const { sweep, block } of sweepsOf(netlist.pickup)) {
    if (!sweep.curve) continue;
    const key = `${blocks.indexOf(block)} ${pointsOf(sweep)}`;
    const group = groups.get(key) ?? { block, sweeps: [] };
    groups.set(key, group);
    group.sweeps.push({ ...sweep, curve: sweep.curve });
  }
  return [...groups.values()].map(({ block, sweeps }) => {
    const [first] = sweeps;
    return {
      block,
      sweeps,
      subject: first && magneticSubject(first, block, netlist),
      piece: pieceName(netlist.pickup),
    };
  });
}

const pointsOf = ({ probes: { red, black } }: Sweep): string => [red.text, black.text].sort().join(' ');

/** The problem of a group; `dc`: what a meter read between the same points. */
export function sweepsOfGroup(group: SweepGroup, bench: Bench | undefined, dc: readonly DcReading[]): SweepsOfCoil {
  const { alone } = bench?.recorder ?? {};
  const isRecorded = group.sweeps.some(({ setUp }) => setUp.kind !== 'impedance');
  const own = group.sweeps.map(measuredCurve);
  const recorder: readonly MeasuredCurve[] =
    alone?.curve && isRecorded
      ? [
          {
            kind: 'alone',
            ...plainCurve(alone.curve),
            seriesOhm: alone.seriesOhm.si,
            seriesSd: relativeSd(alone.seriesOhm, SWEEP_RESISTOR_RELATIVE_SD),
            addedFarad: 0,
            addedSd: 0,
            scaleSd: CHANNEL_BALANCE_SD,
          },
        ]
      : [];
  return { curves: [...own, ...recorder], recorder: recorderInput(bench), dc };
}

const relativeSd = ({ si, sd }: { readonly si: number; readonly sd?: number }, otherwise: number): number =>
  sd === undefined ? otherwise : sd / si;

const plainCurve = ({ hz, magnitude, phase, relativeSd: sd }: Curve) => ({ hz, magnitude, phase, relativeSd: sd });

export function measuredCurve(sweep: SweepGroup['sweeps'][number]): MeasuredCurve {
  const { setUp, addedF, curve } = sweep;
  const fault = phaseFault(sweep);
  const turned = curve.phase?.map((each) =>
    fault === 'turned' ? -each : fault === 'inverted' ? each + Math.PI : each,
  );
  const ratio = setUp.kind === 'impedance' ? undefined : setUp.seriesOhm;
  return {
    kind: setUp.kind,
    ...plainCurve(curve),
    phase: turned,
    seriesOhm: ratio?.si ?? 0,
    seriesSd: ratio ? relativeSd(ratio, SWEEP_RESISTOR_RELATIVE_SD) : 0,
    addedFarad: addedF?.si ?? 0,
    addedSd: addedF ? relativeSd(addedF, SWEEP_CAPACITOR_RELATIVE_SD) : 0,
    scaleSd: setUp.kind === 'impedance' ? (setUp.accuracy?.si ?? IMPEDANCE_METER_RELATIVE_SD) : CHANNEL_BALANCE_SD,
  };
}

export function recorderInput(bench: Bench | undefined): RecorderInput {
  const { resistance, capacitance } = bench?.recorder.input ?? {};
  return {
    ohm: resistance?.si ?? RECORDER_OHM,
    ohmSd: resistance ? relativeSd(resistance, STATED_INPUT_RELATIVE_SD) : RECORDER_OHM_RELATIVE_SD,
    farad: capacitance?.si ?? RECORDER_FARAD,
    faradSd: capacitance
      ? (capacitance.sd ?? STATED_INPUT_CAPACITANCE_RELATIVE_SD * capacitance.si)
      : RECORDER_FARAD_SD,
  };
}

/** Celsius of the sweep: its own, else the block's room, else the bench's. */
export const sweepTemperature = ({ sweeps, block }: SweepGroup, bench: Bench | undefined) =>
  readingTemperature(sweeps.find(({ atC }) => atC)?.atC, block, bench);

/** What a meter read between the same points at the same time, at the temperature of the sweep; else at another time of the same state. */
export function dcReadings(group: SweepGroup, netlist: PickupNetlist, bench: Bench | undefined): readonly DcReading[] {
  const { celsius } = sweepTemperature(group, bench);
  const factor = copperTemperatureFactor(celsius);
  const [first] = group.sweeps;
  if (!first) return [];
  const inBlock = (block: Readings): readonly DcReading[] =>
    block.lines.flatMap((line) => {
      if (!isResistance(line) || line.value === 'open' || !(line.value.si > 0)) return [];
      const isSame =
        line.kind === 'resistance'
          ? [line.probes.red.text, line.probes.black.text].sort().join(' ') === pointsOf(first)
          : isCoil(group.subject) && line.coil.text === group.subject.name;
      if (!isSame) return [];
      const read = resistanceAt20C(line.value, readingTemperature(line.atC, block, bench), benchMeter(bench));
      const meter = Math.abs(read.sources?.[causes.meter] ?? 0);
      const own = line.value.sd ?? ownDeviation(read);
      return [{ ohm: read.value * factor, sd: Math.max(1e-4, own / read.value), meterSd: meter / read.value }];
    });
  const here = inBlock(group.block);
  if (here.length > 0) return here;
  const others = netlist.pickup.readings.filter(
    ({ found, apart }) => found === group.block.found && apart === group.block.apart,
  );
  return (
    others
      .map(inBlock)
      .filter((each) => each.length > 0)
      .at(-1) ?? []
  );
}

export const isCoil = (subject: MagneticSubject | undefined): subject is Coil =>
  typeof subject === 'object' && 'name' in subject;
