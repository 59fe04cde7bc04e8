/** Resistance as the low end of a sweep shows it: in the place of a meter's where none was read. No fit is needed for it. */
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Bench } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { ReadingOf, Readings } from '../model/readings.ts';
import type { Sweep } from '../model/sweep.ts';
import { resistanceSeen } from '../physics/sweep/sweep-start.ts';
import { printQuantity } from '../quantities/print.ts';
import { causes } from './causes.ts';
import { readingTemperature, resistanceAt20C } from './coil-reading.ts';
import type { CoilReading } from './coil-winding.ts';
import { magneticSubject } from './measured-magnetics.ts';
import { because } from './reasons.ts';
import { moreThanGiven } from './sweep-faults.ts';
import { measuredCurve, recorderInput } from './sweep-set-up.ts';

/** The newest sweep of a coil by itself, after the work. */
export function sweptReading(coil: Coil, netlist: PickupNetlist, bench: Bench | undefined): CoilReading | undefined {
  const isOnly = netlist.pickup.coils.length === 1;
  const found = sweepsAfterWork(netlist).findLast(({ sweep, block }) => {
    const subject = magneticSubject(sweep, block, netlist);
    return subject === coil || (isOnly && subject === 'whole');
  });
  if (!found) return undefined;
  const { sweep, block } = found;
  const seen = resistanceIn(sweep, bench);
  if (!seen) return undefined;
  const temperature = readingTemperature(sweep.atC, block, bench);
  const read = resistanceAt20C(seen.value, temperature, UNUSED_METER);
  const share = (seen.resistorSd * read.value) / seen.value.si;
  return {
    at20COhm: {
      ...read,
      restsOn: [because('low end of the sweep {0} at {1}', sweep.file.value, temperature.words)],
      ...(share > 0 ? { sources: { ...read.sources, [seen.resistor]: share } } : {}),
    },
    words: because('its sweep {0}', sweep.file.value),
  };
}

/** Lines as a meter's between hot and ground, of pickups of several coils. */
export const sweptLines = (
  netlist: PickupNetlist,
  bench: Bench | undefined,
): readonly { readonly line: ReadingOf<'resistance'>; readonly file: string; readonly block: Readings }[] =>
  sweepsAfterWork(netlist).flatMap(({ sweep, block }) => {
    const seen = magneticSubject(sweep, block, netlist) === 'whole' ? resistanceIn(sweep, bench) : undefined;
    if (!seen) return [];
    const { probes, atC, file } = sweep;
    return [
      { line: { kind: 'resistance', probes, atC, value: seen.value, place: file.place }, file: file.value, block },
    ];
  });

const sweepsAfterWork = ({ pickup }: PickupNetlist) =>
  pickup.readings.flatMap((block) =>
    block.found ? [] : block.sweeps.filter((sweep) => !moreThanGiven(sweep)).map((sweep) => ({ sweep, block })),
  );

/** What is seen has its own deviation: no meter is behind it. */
const UNUSED_METER = { accuracyPercent: 0, digits: 0, resolutionOhm: 0 };

interface ResistanceIn {
  /** At the temperature of the sweep. */
  readonly value: Quantity;
  readonly resistorSd: number;
  readonly resistor: string;
}

/** `undefined` of an exciter, of a level without phase, and of what passes no current. */
function resistanceIn(sweep: Sweep, bench: Bench | undefined): ResistanceIn | undefined {
  if (!sweep.curve) return undefined;
  const curve = measuredCurve({ ...sweep, curve: sweep.curve });
  const recorder = recorderInput(bench);
  const ohm = resistanceSeen(curve, recorder);
  if (ohm === undefined || !(ohm > 0) || !(ohm < MOST_OHM)) return undefined;
  const moved = (by: Partial<typeof curve>, input = recorder) =>
    (resistanceSeen({ ...curve, ...by }, input) ?? ohm) - ohm;
  const resistorSd = moved({ seriesOhm: curve.seriesOhm * (1 + curve.seriesSd) });
  const others = [
    moved({ magnitude: curve.magnitude.map((each) => each * (1 + curve.scaleSd)) }),
    moved({}, { ...recorder, ohm: recorder.ohm * (1 + recorder.ohmSd) }),
  ];
  const sd = Math.hypot(resistorSd, ...others);
  const marked = printQuantity({ value: curve.seriesOhm, dimension: 'resistance' });
  return {
    value: { dimension: 'resistance', si: ohm, sd, written: `sweep ${sweep.file.value}` },
    resistorSd,
    resistor: causes.sweepResistor(marked),
  };
}

/** Of a coil that is broken its capacitance shows more. */
const MOST_OHM = 200e3;
