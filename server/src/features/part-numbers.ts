/** What is known of a coil, a pickup, a magnet in a pickup: values, what each rests on, and the measurement that would narrow it most. */
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { largestCause } from '../estimates/causes.ts';
import { isDistanceAssumed } from '../estimates/coil-places.ts';
import { fieldAtStringT, type MagnetExchange, magnetExchanges } from '../estimates/magnet-estimates.ts';
import { pickupMagnetics } from '../estimates/magnetics.ts';
import type { Mismatch } from '../estimates/mismatch.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import { machineSettings } from '../estimates/winding-plan.ts';
import { benchRoomC } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { keptOrNew } from '../model/life.ts';
import { HANDLING_NOTE } from '../physics/magnet-grades.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Estimate, scale } from '../quantities/estimate.ts';
import { printNumber, printQuantity } from '../quantities/print.ts';
import { cautionsOf } from '../words/cautions.ts';
import { differenceText, numberText } from '../words/number-text.ts';
import {
  COIL_NUMBERS,
  FIELD_AT_STRING,
  type NumberName,
  OUTPUT_CHANGE,
  PICKUP_NUMBERS,
  PULL_RATIO,
} from '../words/numbers.ts';
import { coilWords } from '../words/parts.ts';
import { COIL_UNTOLD } from '../words/untold.ts';
import { aimRows, aimTable } from './aim-rows.ts';
import { coilRows, type EstimateRow, pickupRows, rowOf } from './estimate-rows.ts';
import { mismatchHeading, mismatchRows } from './mismatch-rows.ts';
import type { RichText } from './rich-text.ts';

export function coilNumbers({ bench }: Analysis, { pickup, estimates }: PickupAnalysis, name: string): RichText {
  const coil = pickup.coils.find((each) => each.name === name);
  const values = estimates().coils.get(name);
  if (!coil || !values) return [];
  const quick = quickOf(bench)(pickup);
  const room = benchRoomC(bench);
  const atRoom = values.resistance20COhm && scale(values.resistance20COhm, copperTemperatureFactor(room));
  const field = fieldAtStringT(pickup, coil);
  return [
    ...table([
      ...coilRows(values),
      ...(room === 20
        ? []
        : rowOf(
            { what: `resistance at ${printNumber(room, 0)}\u202F°C, today's room`, dimension: 'resistance' },
            atRoom,
          )),
      ...rowOf(FIELD_AT_STRING, field),
      ...spindleRows(quick, coil),
    ]),
    ...narrowing(COIL_NUMBERS, values, ['resistance20COhm', 'turns', 'inductanceH', 'capacitanceF']),
    ...untold(estimates().isSweptWhole && values.inductanceH === undefined, coil),
    ...keptBySilence(quick, coil),
    ...agreedThen(quick, coil),
  ];
}

/** Of a closed pickup that was swept as a whole. */
const untold = (isUntold: boolean | undefined, { name }: Coil): RichText =>
  isUntold
    ? [
        {
          kind: 'paragraph',
          text: `Inductance, capacitance and losses: ${COIL_UNTOLD}; a line \`sweep ${name}.start to ${name}.finish\` tells them. ${cautionsOf('sweep').join(' ')}`,
        },
      ]
    : [];

/** Nobody said whether the coil was kept: why what was read of it as found counts. */
function keptBySilence({ life }: QuickEstimates, coil: Coil): RichText {
  if (coil.work || !life.blocks.some(({ worksAgo }) => worksAgo > 0) || !life.outlasted(coil.name, 1)) return [];
  const why =
    keptOrNew(coil) === 'kept' ? 'neither turns, count nor spool is stated' : 'what it read as found fits its turns';
  return [{ kind: 'paragraph', text: `Counts as kept, since ${why}; \`kept\` or \`new\` in the coil says it.` }];
}

/** Kicks as found say of two coils that were kept whether they agreed over the magnet of then, whatever lies there now. */
function agreedThen({ signs, life }: QuickEstimates, coil: Coil): RichText {
  const then = (each: CoilSigns) => (life.outlasted(each.coil.name, 1) ? each.found?.windPole?.sign : undefined);
  const own = signs.find((each) => each.coil === coil);
  const sign = own && then(own);
  if (!sign) return [];
  return signs.flatMap((each): RichText => {
    const other = each === own ? undefined : then(each);
    if (!other) return [];
    const words = other === sign ? 'the same sign as' : 'the other sign than';
    return [
      {
        kind: 'paragraph',
        text: `As found, from start to finish, its kick had ${words} that of ${coilWords(each.coil)}.`,
      },
    ];
  });
}

/** How the spindle turns and how long it takes. */
export function spindleRows(quick: QuickEstimates, coil: Coil): readonly EstimateRow[] {
  const settings = machineSettings(quick, coil);
  if (!settings) return [];
  const { spindle, minutes, speedRpm, turnsPerLayer } = settings;
  return [
    ...(spindle
      ? [
          {
            name: 'spindle, seen facing it',
            value: `${spindle.topTowardIt}, top toward it`,
            restsOn: `${spindle.bottomTowardIt} with the bottom toward it`,
          },
        ]
      : []),
    {
      name: 'winding time',
      value: `${printNumber(minutes, minutes < 10 ? 1 : 0)}\u202Fmin`,
      restsOn: `${printNumber(speedRpm, 0)} rpm${coil.speed ? '' : ', assumed'}; ${turnsPerLayer} turns from flange to flange`,
    },
  ];
}

export function pickupNumbers({ bench }: Analysis, analysed: PickupAnalysis): RichText {
  const { pickup, estimates, mismatch } = analysed;
  const aims = aimTable(aimRows(analysed));
  const values = estimates();
  const quick = quickOf(bench)(pickup);
  return [
    ...table([...pickupRows(values), ...couplingRows(quick)]),
    ...(aims.length > 0 ? [{ kind: 'heading', text: 'Target' } as const, ...aims] : []),
    ...narrowing(PICKUP_NUMBERS, values, ['resistance20COhm', 'inductanceH', 'capacitanceF', 'resonanceHz']),
    ...besideMatched(mismatch()),
  ];
}

/** What coils of unequal turn-area cost: as built, matched, and what lies between the two. */
function besideMatched(unequal: Mismatch | undefined): RichText {
  if (!unequal) return [];
  const rows = mismatchRows(unequal);
  return rows.length === 0 ? [] : [{ kind: 'heading', text: mismatchHeading(unequal) }, ...table(rows)];
}

/** k = M / √(L₁L₂) of two coils, both counted the same way round. */
function couplingRows(quick: QuickEstimates): readonly EstimateRow[] {
  const { coils, mutualSameSenseH } = pickupMagnetics(quick);
  const [a, b, ...more] = [...coils.values()];
  if (!a || !b || more.length > 0) return [];
  const k = Math.abs(mutualSameSenseH(a.coil, b.coil)) / Math.sqrt(a.totalH.value * b.totalH.value);
  if (!Number.isFinite(k)) return [];
  const { pickup } = quick.netlist;
  const apart = pickup.coilsApart?.value.distance.written;
  return [
    {
      name: `coupling of ${a.coil.name} and ${b.coil.name}`,
      value: printNumber(k, 2),
      restsOn: apart
        ? `coils ${apart} apart`
        : isDistanceAssumed(pickup)
          ? 'distance of the coils assumed'
          : 'the coils as they lie in line or in the stack',
    },
  ];
}

/** What each other magnet in scope would change, were it put in the place of the pickup's own. */
export function magnetNumbers(analysis: Analysis, { pickup }: PickupAnalysis, name: string): RichText {
  const own = pickup.barMagnet?.value.magnet;
  if (own?.name !== name) return [];
  const found = magnetExchanges(pickup, analysis.namesInScope('magnet'));
  if (!found) return [];
  const { coil, fieldT, material, exchanges } = found;
  const rows = [
    ...rowOf({ ...FIELD_AT_STRING, what: `${FIELD_AT_STRING.what} over ${coil.name}` }, fieldT),
    ...exchanges.map((each) => exchangeRow(each, fieldT)),
  ];
  return [...table(rows), ...(material.note ? [{ kind: 'paragraph', text: HANDLING_NOTE } as const] : [])];
}

function exchangeRow({ magnet, material, change }: MagnetExchange, field: Estimate): EstimateRow {
  const { outputDb, pullRatio, fieldRatio } = change;
  const at = printQuantity({ value: field.value * fieldRatio.value, digits: 2, dimension: 'flux density' });
  return {
    name: `with ${magnet.name} instead`,
    value: `${OUTPUT_CHANGE.what} ${differenceText(outputDb, OUTPUT_CHANGE)}`,
    restsOn: `field ${at}, ${PULL_RATIO.what} × ${numberText(pullRatio, PULL_RATIO)}; same size, both fully charged; ${material.words}`,
  };
}

const table = (rows: readonly EstimateRow[]): RichText => (rows.length > 0 ? [{ kind: 'values', rows }] : []);

/** The one measurement that would narrow each number most; nothing where its own error is the largest part. */
function narrowing<K extends string>(
  names: Readonly<Record<K, NumberName>>,
  values: { readonly [key in K]: Estimate | null | undefined },
  keys: readonly K[],
): RichText {
  const rows = keys.flatMap((key): readonly EstimateRow[] => {
    const estimate = values[key];
    const largest = estimate ? largestCause(estimate) : undefined;
    if (!largest) return [];
    const percent = Math.round(100 * largest.share);
    return [{ name: names[key].what, value: `${percent}\u202F% ${largest.cause}`, restsOn: largest.measurement }];
  });
  return rows.length === 0 ? [] : [{ kind: 'heading', text: 'What would narrow it most' }, ...table(rows)];
}
