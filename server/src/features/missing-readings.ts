/** What is not known of a pickup or an instrument, and the one reading that settles it: which points, in what way, what to expect. */

import { given } from '../../../grammar/values/present.ts';
import type { Analysis, InstrumentAnalysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import type { LeadReading } from '../estimates/estimates.ts';
import { leadReadings } from '../estimates/lead-readings.ts';
import { openSigns } from '../estimates/phase.ts';
import { quickEstimates } from '../estimates/quick.ts';
import { type CoilSigns, sounds } from '../estimates/signs.ts';
import type { Coil } from '../model/coil.ts';
import { looseNetlist, type PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { Reading } from '../model/readings.ts';
import { printQuantity } from '../quantities/print.ts';
import { KICK_METER, KICK_MOTION, KICK_READ } from '../words/kick.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { endLead } from '../words/parts.ts';
import { coilOhmOrder, compassOrder, kickOrder, outputOhmOrder } from '../words/reading-orders.ts';
import { list } from '../words/text.ts';

/** A line of readings, with a gap (`…`) where what the meter shows goes. */
export interface ReadingLine {
  readonly line: string;
  /** What may stand in the gap, where that is one of few words. */
  readonly words?: readonly string[];
}

export interface MissingReading extends ReadingLine {
  /** `phase and hum`, `turns of the screw coil`. */
  readonly settles: string;
  /** An order: which probes go where. */
  readonly how: string;
  /** What the meter should show, where that can be said before. */
  readonly expected?: string;
  /** The part that it is about. */
  readonly place: Place;
}

/** First what leaves something open, then what would only confirm. */
export function missingPickupReadings(
  analysis: Analysis,
  analysed: PickupAnalysis,
  t = ENGLISH,
): readonly MissingReading[] {
  const { pickup, netlist } = analysed;
  const full = quickEstimates(netlist, analysis.bench);
  // A coil is read by itself, before its leads are joined to anything.
  const loose = leadReadings(full, analysis.bench, looseNetlist(pickup));
  const taken = pickup.readings.filter(({ found }) => !found).flatMap(({ lines }) => lines);
  const expectedOf = (a: string, b: string) => {
    const found = loose.find(({ leads }) => leads.includes(a) && leads.includes(b) && a !== b);
    return found && meterWords(found, t);
  };
  // A coil that outlasted the work was read before it: that reading is of the coil as it is.
  const unread = pickup.coils.filter((coil) => (full.life.reads.get(coil) ?? []).length === 0);
  const coils = unread.flatMap((coil) => coilReadings(coil, analysed, { taken, expectedOf, t }));
  const untraced = netlist.windings.filter(({ ends }) => ends === 'unknown').map(({ coil }) => coil);
  return [
    ...(untraced.length > 0 ? [tracing(untraced, t)] : signReadings(full.signs, netlist, t)),
    ...coils.filter(({ expected }) => expected === undefined),
    ...coils.filter(({ expected }) => expected !== undefined),
    // The only coil of a pickup is its output: one reading serves both.
    ...(pickup.coils.length === 1 && coils.length > 0 ? [] : outputReading(analysed, taken, t)),
  ];
}

/** Positions that nobody has read at the jack. */
export function missingInstrumentReadings(
  { instrument, positions }: InstrumentAnalysis,
  t = ENGLISH,
): readonly MissingReading[] {
  const read = new Set(
    instrument.readings
      .filter(({ found }) => !found)
      .flatMap(({ lines }) => lines.flatMap((line) => (line.kind === 'position' ? [line.key.value] : []))),
  );
  const estimates = new Map(positions().map((each) => [each.key, each]));
  return instrument.positions.flatMap(({ key, title, place }): readonly MissingReading[] => {
    if (read.has(key.value)) return [];
    const ohm = estimates.get(key.value)?.resistanceOhm;
    const position = t('position {0}', key.value);
    const name = title === undefined ? position : `${position}, ${title}`;
    return [
      {
        settles: name,
        how: t(
          'Switch to {0}, volume and tone full up, nothing plugged in: meter from tip to sleeve of the jack.',
          key.value,
        ),
        ...(ohm
          ? { expected: printQuantity({ value: ohm.value, sd: ohm.sd, dimension: 'resistance', style: t.numbers }) }
          : {}),
        line: `position ${key.value} … kohm`,
        place,
      },
    ];
  });
}

/** What a meter on two leads should show: `4.02 ± 0.15 kΩ at 21 °C`, `open`. */
export function meterWords({ resistanceOhm, toleranceOhm, temperatureC }: LeadReading, t = ENGLISH): string {
  if (resistanceOhm === null) return t('open');
  const shown = printQuantity({
    value: resistanceOhm.value,
    sd: toleranceOhm,
    dimension: 'resistance',
    style: t.numbers,
  });
  const temperature = printQuantity({ value: temperatureC + 273.15, dimension: 'temperature', style: t.numbers });
  return t('{0} at {1}', shown, temperature);
}

/** Under a target, with nothing read: there is nothing to read yet. */
export const isStillToBeWound = ({ pickup, quick }: PickupAnalysis): boolean =>
  pickup.coils.some((coil) => quick.coils.get(coil.name)?.turns === undefined && isToBeWound(coil, pickup));

const isToBeWound = ({ work }: Coil, { readings, target }: Pickup): boolean =>
  target !== undefined && work?.value !== 'kept' && readings.length === 0;

function coilReadings(
  coil: Coil,
  { netlist, quick }: PickupAnalysis,
  {
    taken,
    expectedOf,
    t,
  }: {
    readonly taken: readonly Reading[];
    readonly expectedOf: (a: string, b: string) => string | undefined;
    readonly t: Language;
  },
): readonly MissingReading[] {
  const winding = netlist.windings.find((each) => each.coil === coil);
  if (winding === undefined || winding.ends === 'unknown') return [];
  const [start, finish] = [endLead(netlist, coil, 'start'), endLead(netlist, coil, 'finish')];
  if (readsCoil(coil, netlist, taken)) return [];
  const unknown = quick.coils.get(coil.name)?.turns === undefined;
  // Under a target it is still to be wound: there is nothing to read yet.
  if (unknown && isToBeWound(coil, netlist.pickup)) return [];
  const expected = unknown ? undefined : expectedOf(start, finish);
  if (!unknown && expected === undefined) return [];
  return [
    {
      settles: unknown
        ? t('turns of the {0} coil', coil.name)
        : t('resistance of the {0} coil, and with it its turns', coil.name),
      how: coilOhmOrder({ red: start, black: finish }, t),
      ...given({ expected }),
      line: `${coil.name} … kohm`,
      place: coil.place,
    },
  ];
}

function readsCoil(coil: Coil, netlist: PickupNetlist, taken: readonly Reading[]): boolean {
  const winding = netlist.windings.find((each) => each.coil === coil);
  return taken.some((line) => {
    if (line.kind === 'coil resistance') return line.coil.text === coil.name;
    if (line.kind !== 'resistance' || winding?.start === undefined || winding.finish === undefined) return false;
    const nets = [netlist.netAt(line.probes.red), netlist.netAt(line.probes.black)];
    return nets.includes(winding.start) && nets.includes(winding.finish) && nets[0] !== nets[1];
  });
}

function tracing(coils: readonly Coil[], t: Language): MissingReading {
  const [first] = coils;
  if (first === undefined) throw new RangeError('no coil to trace');
  return {
    settles: t('which leads belong to {0}', coilList(coils, t)),
    how: t(
      'Meter in ohms between every pair of leads: a pair that is not open is one coil. Then a kick, red probe on one lead of the pair, the meter at its {0}: bring {1}; {2}.',
      t(KICK_METER),
      t(KICK_MOTION),
      t(KICK_READ),
    ),
    line: `kick … to … at ${first.name} approach …`,
    place: first.place,
  };
}

const coilList = (coils: readonly Coil[], t: Language): string =>
  list(
    coils.map(({ name }) => t('the {0} coil', name)),
    t('and'),
  );

/** What leaves phase or hum open, one reading a coil. */
function signReadings(signs: readonly CoilSigns[], netlist: PickupNetlist, t: Language): readonly MissingReading[] {
  const { phase, hum } = openSigns(signs.filter(sounds));
  return [...new Set([...phase, ...hum])].flatMap((each) =>
    readingsOfSigns(each, netlist, { isPhaseOpen: phase.includes(each), isHumOpen: hum.includes(each), t }),
  );
}

function readingsOfSigns(
  { coil, wind, pole, windPole }: CoilSigns,
  netlist: PickupNetlist,
  { isPhaseOpen, isHumOpen, t }: { readonly isPhaseOpen: boolean; readonly isHumOpen: boolean; readonly t: Language },
): readonly MissingReading[] {
  const open = [...(isPhaseOpen ? [t('phase')] : []), ...(isHumOpen ? [t('hum')] : [])].join(` ${t('and')} `);
  const settles = `${open} (${t('the {0} coil', coil.name)})`;
  const [red, black] = [endLead(netlist, coil, 'finish'), endLead(netlist, coil, 'start')];
  const kick: MissingReading = {
    settles,
    how: kickOrder(coil.name, { red, black }, t),
    line: `kick ${red} to ${black} at ${coil.name} approach …`,
    words: KICKS,
    place: coil.place,
  };
  const compass: MissingReading = {
    settles,
    how: compassOrder(coil.name, t),
    line: `compass ${coil.name} …`,
    words: POLES,
    place: coil.place,
  };
  const needsKick = windPole === undefined && (wind === undefined || isPhaseOpen);
  const needsCompass = pole === undefined && (wind === undefined || !needsKick);
  // Wind known, pole not: the compass alone. Neither: the kick gives their product, the compass the pole.
  if (wind !== undefined && pole === undefined) return [compass];
  return [...(needsKick ? [kick] : []), ...(needsCompass ? [compass] : [])];
}

const KICKS = ['positive', 'negative'];
const POLES = ['north-up', 'south-up'];

/** What settles the turns of a coil, or its signs: also of a coil that is heard beside another pickup's only. */
export function settlingReadings(
  { bench }: Analysis,
  { netlist }: PickupAnalysis,
  coil: Coil,
  open: 'turns' | 'signs',
): readonly ReadingLine[] {
  if (open === 'turns') return [{ line: `${coil.name} … kohm` }];
  const winding = netlist.windings.find((each) => each.coil === coil);
  // Nobody knows its leads: what it gives at the output is all that can be kicked.
  if (winding?.ends === 'unknown') return [{ line: `kick hot to ground at ${coil.name} approach …`, words: KICKS }];
  const signs = quickEstimates(netlist, bench).signs.find((each) => each.coil === coil);
  if (signs === undefined) return [];
  return readingsOfSigns(signs, netlist, {
    isPhaseOpen: signs.windPole === undefined,
    isHumOpen: signs.wind === undefined,
    t: ENGLISH,
  });
}

function outputReading(
  { pickup, netlist, quick }: PickupAnalysis,
  taken: readonly Reading[],
  t: Language,
): readonly MissingReading[] {
  const { hot, ground } = netlist;
  const place = pickup.hookup?.place;
  if (hot === undefined || ground === undefined || hot === ground || place === undefined) return [];
  const isRead = taken.some((line) => {
    if (line.kind === 'coil resistance') return pickup.coils.length === 1;
    if (line.kind !== 'resistance') return false;
    const nets = [netlist.netAt(line.probes.red), netlist.netAt(line.probes.black)];
    return nets.includes(hot) && nets.includes(ground);
  });
  const ohm = quick.resistance20COhm;
  if (isRead || !ohm) return [];
  return [
    {
      settles: t('the joints, from hot to ground'),
      how: outputOhmOrder(t),
      expected: t(
        '{0} at 20\u202F°C',
        printQuantity({ value: ohm.value, sd: ohm.sd, dimension: 'resistance', style: t.numbers }),
      ),
      line: 'hot to ground … kohm',
      place,
    },
  ];
}
