/**
 * What a meter on the jack should show on each `position` line of an instrument's readings, controls full up and nothing plugged
 * in, and why it may show something else.
 */

import { type Bench, benchMeter } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import type { Instrument, Position, Selection } from '../model/instrument.ts';
import type { ReadingOf, Readings } from '../model/readings.ts';
import { slotsOf } from '../model/selection.ts';
import { besideOhm, readingLimitOhm } from '../physics/meter.ts';
import { printQuantity } from '../quantities/print.ts';
import { causes } from './causes.ts';
import { type ReadingTemperature, readingTemperature } from './coil-reading.ts';
import {
  BESIDE_OHM,
  CASE_COLDER_K,
  CASE_HOTTER_K,
  JACK_CONTACTS_OHM,
  OPEN_FROM_OHM,
  READING_SPREAD_SD,
  SHORT_OHM,
} from './common-practice.ts';
import type { Played, QuickOf } from './position-network.ts';
import { type InstrumentAtBench, jackResistance, volumesIn } from './positions.ts';
import { because } from './reasons.ts';
import { sounds } from './signs.ts';

export interface JudgedPosition {
  readonly line: ReadingOf<'position'>;
  readonly position: Position;
  readonly temperature: ReadingTemperature;
  /** `null`: open. */
  readonly readOhm: number | null;
  readonly expectedOhm: number | null;
  /** What the reading may differ by: meter, spread of the coils, tolerance of the pots, temperature. */
  readonly limitOhm: number;
  readonly fits: boolean;
  /** Likely causes, the likeliest first; none where it fits. */
  causes(): readonly JackCause[];
}

export interface JackCause {
  /** The same words for the same cause at several positions. */
  readonly words: string;
  /** How usual it is at a bench, 0 to 3. Common practice, no published source. */
  readonly prior: number;
  /** How far the reading lies from what it would make the meter read, Ω. */
  readonly missOhm?: number;
}

/** Position lines whose resistance is known. Blocks taken before the work are not judged. */
export function judgeJackReadings(
  instrument: Instrument,
  quickOf: QuickOf,
  bench: Bench | undefined,
): readonly JudgedPosition[] {
  return instrument.readings
    .filter(({ found }) => !found)
    .flatMap((block) =>
      block.lines.flatMap((line) => {
        const position =
          line.kind === 'position' && instrument.positions.find(({ key }) => key.value === line.key.value);
        const judged = position && judge({ instrument, quickOf, bench }, block, line, position);
        return judged ? [judged] : [];
      }),
    );
}

function judge(
  setting: InstrumentAtBench,
  block: Readings,
  line: ReadingOf<'position'>,
  position: Position,
): JudgedPosition | undefined {
  const { selection } = position;
  if (!selection || !slotsOf(selection).every(({ pickup }) => pickup && isSound(setting.quickOf, pickup)))
    return undefined;
  const temperature = readingTemperature(line.atC, block, setting.bench);
  const ohmAt = (change: Change = {}) => jackOhm(setting, change.selection ?? selection, temperature.celsius, change);
  const expected = jackResistance(setting, selection, { temperatureC: temperature.celsius });
  if (expected === undefined) return undefined;
  const { value } = line;
  const readOhm = value === 'open' || value.si >= OPEN_FROM_OHM ? null : value.si;
  const base = { line, position, temperature, readOhm };
  if (expected === null || readOhm === null || value === 'open') {
    const fits = expected === null && readOhm === null;
    const expectedOhm = expected === null ? null : expected.value;
    return {
      ...base,
      expectedOhm,
      limitOhm: 0,
      fits,
      causes: () =>
        fits
          ? []
          : readOhm === null
            ? OPEN
            : causesOf(setting, selection, { ohmAt, readOhm, expectedOhm: null, limitOhm: 0 }),
    };
  }
  const meterOhm =
    value.sd === undefined ? readingLimitOhm(benchMeter(setting.bench), readOhm) : READING_SPREAD_SD * value.sd;
  // A tolerance is a limit that all pots may reach: the root of three times the deviation that stands for each of them.
  const potsSd = expected.sources?.[causes.pots] ?? 0;
  const potsOhm = Math.sqrt(3 * Math.max(1, volumesIn(setting.instrument, selection))) * Math.abs(potsSd);
  const perKelvinOhm = Math.abs(
    (jackOhm(setting, selection, temperature.celsius + 1) ?? expected.value) - expected.value,
  );
  const limitOhm =
    meterOhm +
    READING_SPREAD_SD * Math.hypot(Math.sqrt(expected.sd ** 2 - potsSd ** 2), perKelvinOhm * temperature.sdK) +
    potsOhm +
    JACK_CONTACTS_OHM;
  const fits = Math.abs(readOhm - expected.value) <= limitOhm;
  return {
    ...base,
    expectedOhm: expected.value,
    limitOhm,
    fits,
    causes: () => (fits ? [] : causesOf(setting, selection, { ohmAt, readOhm, expectedOhm: expected.value, limitOhm })),
  };
}

/** A pickup with a fault of its own wiring is told at the pickup. */
function isSound(quickOf: QuickOf, pickup: NonNullable<Instrument['slots'][number]['pickup']>): boolean {
  const { netlist, signs } = quickOf(pickup);
  return netlist.undeclared.length === 0 && netlist.reused.length === 0 && signs.some(sounds);
}

interface Change {
  readonly selection?: Selection;
  /** Share of a coil's resistance that is left. */
  readonly shareOf?: (coil: Coil) => number;
  readonly played?: Played;
  readonly temperatureC?: number;
}

function jackOhm(
  { instrument, quickOf, bench }: InstrumentAtBench,
  selection: Selection,
  temperatureC: number,
  { shareOf, played }: Change = {},
): number | null | undefined {
  const changed: QuickOf = shareOf
    ? (pickup) => {
        const quick = quickOf(pickup);
        const windings = new Map(
          [...quick.windings].map(([coil, winding]) => {
            const ohm = winding.resistance20COhm;
            const resistance20COhm = ohm && { ...ohm, value: ohm.value * shareOf(coil), sd: 0 };
            return [coil, { ...winding, resistance20COhm }];
          }),
        );
        return { ...quick, windings };
      }
    : quickOf;
  const estimate = jackResistance({ instrument, quickOf: changed, bench }, selection, {
    temperatureC,
    ...(played && { played }),
  });
  return estimate === null ? null : estimate?.value;
}

const OPEN: readonly JackCause[] = [
  {
    words: because('an open joint between the jack and the pickups, or a contact of the switch that does not close'),
    prior: 3,
  },
  { words: because('a broken coil'), prior: 2 },
];

interface DoubtfulReading {
  readonly readOhm: number;
  /** `null`: open. */
  readonly expectedOhm: number | null;
  readonly limitOhm: number;
  /** What the meter would read after a change. */
  ohmAt(change?: Change): number | null | undefined;
}

/** Each likely cause says what it would make the meter read; those that do are kept. */
function causesOf(
  setting: InstrumentAtBench,
  selection: Selection,
  { ohmAt, readOhm, expectedOhm, limitOhm }: DoubtfulReading,
): readonly JackCause[] {
  const near = (ohm: number | null | undefined) =>
    typeof ohm === 'number' && Math.abs(ohm - readOhm) <= Math.max(limitOhm, 0.01 * readOhm);
  const causes: JackCause[] = [];
  if (readOhm < SHORT_OHM)
    causes.push({
      words: because('hot touching ground at the jack, the switch or a pot: the output is shorted'),
      prior: 3,
    });
  for (const other of setting.instrument.positions)
    if (other.selection && other.selection !== selection) {
      const ohm = ohmAt({ selection: other.selection });
      if (!near(ohm)) continue;
      causes.push({
        words: because(
          'the switch in position {0}, which should read so, or its leads taken for one another',
          other.key.value,
        ),
        prior: 2.6,
        missOhm: Math.abs((ohm ?? 0) - readOhm),
      });
    }
  for (const { taken, other, instead } of coilsTakenFor(selection)) {
    const ohm = ohmAt({ selection: instead });
    if (!near(ohm)) continue;
    causes.push({
      words: because(
        'the {0} coil of {1} in place of its {2} coil, which should read so: their leads taken for one another',
        other,
        taken.slot.name,
        taken.coil,
      ),
      prior: 2.6,
      missOhm: Math.abs((ohm ?? 0) - readOhm),
    });
  }
  const slots = [...new Set(slotsOf(selection))];
  for (const { name, pickup } of slots) {
    const coils = pickup?.coils ?? [];
    const silent = (coil: Coil) => (coils.includes(coil) ? OPEN_SHARE : 1);
    if (slots.length > 1 && near(ohmAt({ shareOf: silent })))
      causes.push({
        words: because('{0} does not reach the output: an open joint, a switch contact or a broken coil', name),
        prior: 2.5,
      });
    for (const coil of coils.length > 1 ? coils : []) {
      if (near(ohmAt({ shareOf: (each) => (each === coil ? 0 : 1) })))
        causes.push({
          words: because('the {0} coil of {1} is bridged: its leads touch, or a split is left on', coil.name, name),
          prior: 2.2,
        });
    }
  }
  if (expectedOhm === null) return ranked(causes);
  const besideItOhm = besideOhm(readOhm, expectedOhm);
  if (besideItOhm !== null && besideItOhm > BESIDE_OHM.least && besideItOhm < BESIDE_OHM.most)
    causes.push({
      words: because(
        'a path of {0} beside it: a hand on the plug, an amplifier plugged in, or a smaller pot than stated',
        printQuantity({ value: besideItOhm, dimension: 'resistance', digits: 2 }),
      ),
      prior: 2,
    });
  if (readOhm > expectedOhm && TURNED_DOWN.some((volume) => (ohmAt({ played: { volume, tone: 10 } }) ?? 0) >= readOhm))
    causes.push({ words: because('a volume control that is not full up'), prior: 2.3 });
  const warmest = (kelvin: number) => jackOhm(setting, selection, 20 + kelvin);
  const [cold, hot] = [warmest(-CASE_COLDER_K), warmest(CASE_HOTTER_K)];
  if (typeof cold === 'number' && typeof hot === 'number' && cold <= readOhm && readOhm <= hot)
    causes.push({
      words:
        readOhm > expectedOhm
          ? because('pickups warmer than the temperature stated')
          : because('pickups colder than the temperature stated'),
      prior: 1.5,
    });
  return ranked(causes);
}

type CoilTaken = Extract<Selection, { kind: 'coil' }>;

/** Each coil that a position takes by itself, another coil of the same pickup, and the position with that one instead. */
function coilsTakenFor(
  selection: Selection,
): readonly { readonly taken: CoilTaken; readonly other: string; readonly instead: Selection }[] {
  if (selection.kind === 'coil') {
    const others = (selection.slot.pickup?.coils ?? []).filter(({ name }) => name !== selection.coil);
    return others.map(({ name }) => ({ taken: selection, other: name, instead: { ...selection, coil: name } }));
  }
  if (selection.kind === 'nets') return selection.words ? coilsTakenFor(selection.words) : [];
  if (selection.kind === 'reversed')
    return coilsTakenFor(selection.of).map((each) => ({ ...each, instead: { ...selection, of: each.instead } }));
  if (selection.kind === 'series' || selection.kind === 'parallel')
    return selection.of.flatMap((part, index) =>
      coilsTakenFor(part).map((each) => ({
        ...each,
        instead: { ...selection, of: selection.of.map((one, place) => (place === index ? each.instead : one)) },
      })),
    );
  return [];
}

/** So many times its resistance is as good as open. */
const OPEN_SHARE = 1e6;
const TURNED_DOWN = [9.8, 9.5, 9, 8, 7, 6, 5] as const;

const ranked = (causes: readonly JackCause[]): readonly JackCause[] => [...causes].sort((a, b) => b.prior - a.prior);
