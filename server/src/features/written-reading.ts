/** A line of readings: what should be read there, how sure that is, and whether what was read agrees. */
import type { PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis, InstrumentAnalysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { expectedWords } from '../checks/reading-words.ts';
import { isResistance, type ResistanceLine, readingTemperature, resistanceAt20C } from '../estimates/coil-reading.ts';
import { type JudgedLine, judgeReadings } from '../estimates/expected-reading.ts';
import { judgeJackReadings } from '../estimates/jack-reading.ts';
import { isMagnetic, judgeMagnetic, type MagneticLine } from '../estimates/magnetic-reading.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { times } from '../estimates/sign-system.ts';
import { declaredPolarity, declaredRotation } from '../estimates/signs.ts';
import { benchMeter } from '../model/bench.ts';
import { type Coil, opposite, poleOf, rotationOf, type Sign } from '../model/coil.ts';
import type { Reading, ReadingOf, Readings } from '../model/readings.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import { polesWords, woundWords } from '../words/directions.ts';
import { basisWords, numberText } from '../words/number-text.ts';
import { COIL_NUMBERS } from '../words/numbers.ts';
import { coilWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import type { EstimateRow } from './estimate-rows.ts';
import type { RichText } from './rich-text.ts';

/** `at`: an offset within the chunk. Nothing where no reading stands there. */
export function writtenReading(analysis: Analysis, { chunk }: PlacedChunk, at: number): RichText {
  const isHere = ({ place }: Reading): boolean =>
    place.chunk === chunk && place.span.start <= at && at <= place.span.end;
  const around = <T>(all: readonly T[], blocksOf: (each: T) => readonly Readings[]) =>
    all.flatMap((each) =>
      blocksOf(each).flatMap((block) => block.lines.filter(isHere).map((line) => ({ each, block, line }))),
    )[0];
  const ofPickup = around(analysis.pickups, ({ pickup }) => pickup.readings);
  if (ofPickup) return told(ofPickup.block, pickupReading(analysis, ofPickup.each, ofPickup));
  const ofInstrument = around(analysis.instruments, ({ instrument }) => instrument.readings);
  return ofInstrument ? told(ofInstrument.block, positionReading(analysis, ofInstrument.each, ofInstrument.line)) : [];
}

const told = ({ found }: Readings, { rows, verdict }: Judged): RichText => [
  { kind: 'heading', text: 'reading' },
  ...(rows.length > 0 ? [{ kind: 'values', rows } as const] : []),
  { kind: 'paragraph', text: verdict ?? (found ? BEFORE_THE_WORK : NOTHING_EXPECTED) },
];

interface Judged {
  readonly rows: readonly EstimateRow[];
  /** `undefined`: nothing is expected. */
  readonly verdict?: string | undefined;
}

const BEFORE_THE_WORK = 'Read before the work: it is held against nothing that was made since.';
const NOTHING_EXPECTED =
  'Nothing is expected here: neither turns and wire nor an earlier reading say what it should be, or a joint is at fault.';

interface At {
  readonly block: Readings;
  readonly line: Reading;
}

function pickupReading(analysis: Analysis, { pickup }: PickupAnalysis, { block, line }: At): Judged {
  const quick = quickOf(analysis.bench)(pickup);
  if (isResistance(line)) return resistanceReading(analysis, quick, block, line);
  if (line.kind === 'kick') return kickReading(quick, line);
  if (line.kind === 'compass') return compassReading(quick, block, line);
  if (!isMagnetic(line)) return { rows: [] };
  const judged = judgeMagnetic(block, quick).find((each) => each.line === line);
  if (!judged) return { rows: [] };
  const { read, expected, limit, fits } = judged;
  const name = { what: line.kind === 'inductance' ? 'read, at low frequency' : 'read', dimension: line.kind } as const;
  return {
    rows: [
      { name: 'expected', value: expectedWords(judged), restsOn: basisWords(expected) },
      ...(line.kind === 'inductance' ? [{ name: name.what, value: numberText(read, name), restsOn: '' }] : []),
    ],
    verdict: agreement(fits, widest(expected.value, limit, line.kind)),
  };
}

/** `may`: the widest that may be read; left out where that is no number. */
const agreement = (fits: boolean, may?: string): string =>
  `${fits ? 'It agrees' : 'It does not agree'}${may === undefined ? '' : `: all limits together, ${may} may be read`}.`;

/** Nothing where what is expected is no number: open. */
const widest = (value: number | null | undefined, limit: number, dimension: 'resistance' | MagneticLine['kind']) =>
  value !== undefined && value !== null && limit > 0 ? printQuantity({ value, sd: limit, dimension }) : undefined;

function resistanceReading({ bench }: Analysis, quick: QuickEstimates, block: Readings, line: ResistanceLine): Judged {
  const judged = judgeReadings(quick, bench)
    .flatMap(({ lines }) => lines)
    .find((each) => each.line === line);
  const { value } = line;
  const at20C =
    value === 'open'
      ? undefined
      : resistanceAt20C(value, readingTemperature(line.atC, block, bench), benchMeter(bench));
  const own = at20C
    ? [
        {
          name: `read, as ${COIL_NUMBERS.resistance20COhm.what}`,
          value: numberText(at20C, COIL_NUMBERS.resistance20COhm),
          restsOn: basisWords(at20C),
        },
      ]
    : [];
  if (!judged) return { rows: own };
  const { expected, limitOhm, fits } = judged;
  const hasNumber = expected !== null && Number.isFinite(expected.value);
  return {
    rows:
      hasNumber || expected === null
        ? [{ name: 'expected', value: expectedWords(judged), restsOn: restsOn(judged) }, ...own]
        : own,
    verdict: agreement(fits, widest(expected?.value, limitOhm, 'resistance')),
  };
}

const AGAINST: Readonly<Record<JudgedLine['against'], string>> = {
  turns: 'turns and wire',
  'coil readings': 'the readings of its coils by themselves',
  'an earlier reading': 'an earlier reading',
};

const restsOn = ({ against, expected }: JudgedLine): string =>
  [AGAINST[against], ...(expected ? [expected.restsOn.join('; ')] : [])].join(': ');

/** A kick shows winding direction and poles at once: what is stated of both says what it should read. */
function kickReading({ signs, netlist }: QuickEstimates, line: ReadingOf<'kick'>): Judged {
  const found = signs.flatMap(({ coil, kicks }) =>
    kicks.flatMap(({ kick, windPole }) => (kick === line ? [{ coil, windPole }] : [])),
  )[0];
  if (!found) return { rows: [] };
  const { coil, windPole } = found;
  const wind = declaredRotation(coil);
  const pole = declaredPolarity(coil, netlist.pickup);
  const says = { name: `says of ${coilWords(coil)}`, value: kickWords(windPole), restsOn: '' };
  if (!wind || !pole) return { rows: [says], verdict: 'Nothing stated says what it should read: it settles that.' };
  const fits = times(wind.sign, pole.sign) === windPole;
  const stated = list([woundWords(rotationOf(wind.sign)), polesWords(poleOf(pole.sign))]);
  return {
    rows: [{ name: 'expected', value: fits ? line.reads : opposite(line.reads), restsOn: stated }, says],
    verdict: agreement(fits),
  };
}

const kickWords = (windPole: Sign): string =>
  list(
    ([1, -1] as const).map((pole) =>
      [woundWords(rotationOf(times(windPole, pole))), polesWords(poleOf(pole))].join(' over '),
    ),
    'or',
  );

function compassReading(
  { netlist: { pickup } }: QuickEstimates,
  { found }: Readings,
  line: ReadingOf<'compass'>,
): Judged {
  const coil: Coil | undefined = pickup.coils.find(({ name }) => name === line.coil.text);
  const pole = coil && declaredPolarity(coil, pickup);
  if (!coil || found) return { rows: [] };
  if (!pole) return { rows: [], verdict: 'Nothing stated says what it should show: it settles that.' };
  const stated = poleOf(pole.sign);
  return {
    rows: [
      {
        name: 'expected',
        value: polesWords(stated),
        restsOn: pole.basis === 'declared' ? 'as stated' : 'by the magnet as stated',
      },
    ],
    verdict: agreement(stated === line.shows),
  };
}

function positionReading({ bench }: Analysis, { instrument }: InstrumentAnalysis, line: Reading): Judged {
  const judged = judgeJackReadings(instrument, quickOf(bench), bench).find((each) => each.line === line);
  if (!judged) return { rows: [] };
  const { expectedOhm, limitOhm, temperature, fits } = judged;
  const value =
    expectedOhm === null
      ? 'open'
      : `${printQuantity({ value: expectedOhm, sd: limitOhm, dimension: 'resistance' })} at ${printCelsius(temperature.celsius)}`;
  return {
    rows: [{ name: 'expected', value, restsOn: 'pickups, pots and wiring, the controls full up' }],
    verdict: agreement(fits, widest(expectedOhm, limitOhm, 'resistance')),
  };
}
