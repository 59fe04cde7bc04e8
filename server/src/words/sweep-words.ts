/** What is said of a measured sweep: what it was measured through, how well the circuit holds, what it could not tell. */
import { type NextMeasurement, nextMeasurement, type Untold, untoldOf } from '../estimates/sweep-advice.ts';
import { changesOf, computedBeside, type SweptChanges, type SweptPair } from '../estimates/sweep-comparison.ts';
import { recorderInput } from '../estimates/sweep-set-up.ts';
import type { Swept, SweptCoil, SweptNumber } from '../estimates/sweeps-measured.ts';
import { lookedAtAlone } from '../estimates/sweeps-together.ts';
import { isPartOfCoil } from '../estimates/swept-circuit.ts';
import type { Bench } from '../model/bench.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { printNumber, printQuantity } from '../quantities/print.ts';
import { ENGLISH, type Language } from './languages/language.ts';
import { differenceText, isToldApart, numberText } from './number-text.ts';
import { keysOf, type NumberName } from './numbers.ts';

export const SWEPT_NUMBERS: Readonly<
  Record<'inductanceH' | 'capacitanceF' | 'resistance20COhm' | 'quality1kHz', NumberName>
> = {
  inductanceH: { what: 'inductance', dimension: 'inductance' },
  capacitanceF: { what: 'capacitance', dimension: 'capacitance' },
  resistance20COhm: { what: 'resistance at 20\u202F°C', dimension: 'resistance' },
  quality1kHz: { what: 'quality at 1\u202FkHz', dimension: 'ratio' },
};

/** What two sweeps tell the change of. */
export const CHANGED_NUMBERS: Readonly<Record<keyof SweptChanges, NumberName>> = {
  inductanceH: SWEPT_NUMBERS.inductanceH,
  capacitanceF: SWEPT_NUMBERS.capacitanceF,
  resistance20COhm: SWEPT_NUMBERS.resistance20COhm,
  lossAt3kHz: { what: 'lost to metal at 3\u202FkHz', dimension: 'percentage' },
};

/** `74 ± 20 pF, not used`: what a sweep tells too weakly stays computed. */
export function sweptNumberText(swept: SweptCoil, key: keyof typeof SWEPT_NUMBERS, t: Language = ENGLISH): string {
  const text = numberText(swept[key], SWEPT_NUMBERS[key], t);
  return isTold(swept, key) ? text : t('{0}, not used', text);
}

function isTold({ tooWeak, verdict }: SweptCoil, key: keyof typeof SWEPT_NUMBERS): boolean {
  if (verdict === 'does not hold') return false;
  const number = WEAK_AS[key];
  return number === undefined || !tooWeak.includes(number);
}

const WEAK_AS: Partial<Record<keyof typeof SWEPT_NUMBERS, SweptNumber>> = {
  inductanceH: 'inductance',
  capacitanceF: 'capacitance',
};

/** `hot to ground`. */
export const sweptBetween = ({ group }: Pick<Swept, 'group'>): string => {
  const [first] = group.sweeps;
  return first ? `${first.probes.red.text} to ${first.probes.black.text}` : '';
};

/** `between hot and ground`. */
export const betweenWords = ({ group }: Pick<Swept, 'group'>): string => {
  const [first] = group.sweeps;
  return first ? `between ${first.probes.red.text} and ${first.probes.black.text}` : '';
};

export const filesWords = ({ group }: Pick<Swept, 'group'>): string =>
  group.sweeps.map(({ file }) => file.value).join(' and ');

/** `The circuit holds: 0.08 % is left where the points scatter by 0.08 %.` */
export function verdictWords({ verdict, fit }: SweptCoil, t: Language = ENGLISH): string {
  const shares = [share(fit.rest, t), share(fit.scatter, t)] as const;
  switch (verdict) {
    case 'holds':
      return t('The circuit holds: {0} is left where the points scatter by {1}.', ...shares);
    case 'doubtful':
      return t(
        'It is doubtful whether the circuit holds: {0} is left where the points scatter by {1}. Its ± are wider for that.',
        ...shares,
      );
    case 'does not hold':
      return t(
        'The circuit does not hold: {0} is left where the points scatter by {1}. Its numbers are not used.',
        ...shares,
      );
  }
}

const share = (part: number, t: Language): string =>
  `${printNumber(100 * part, part < 0.01 ? 2 : 1, t.numbers)}\u202F%`;

/** `Metal takes 9.4 ± 0.3 % of the inductance, from 8.2 ± 0.1 kHz on.`; `undefined` where it takes nothing that can be told. */
export function lossWords({ losses, tooWeak }: Pick<SweptCoil, 'losses' | 'tooWeak'>): string | undefined {
  if (!losses || tooWeak.includes('losses')) return undefined;
  const part = printQuantity({ value: losses.share.value, sd: losses.share.sd, dimension: 'percentage' });
  const corner = printQuantity({ value: losses.cornerHz.value, sd: losses.cornerHz.sd, dimension: 'frequency' });
  return `Metal takes ${part} of the inductance, from ${corner} on.`;
}

const NUMBER_WORDS: Readonly<Record<SweptNumber, string>> = {
  inductance: 'Inductance',
  capacitance: 'Capacitance',
  losses: 'The losses in metal',
};

/** `Capacitance stays computed (96 ± 35 pF): through 100 kohm the recorder's own 150 ± 30 pF are in it.` */
export function untoldWords(swept: SweptCoil, { number, because }: Untold, bench: Bench | undefined): string {
  const of = { inductance: swept.inductanceH, capacitance: swept.capacitanceF, losses: swept.losses?.share }[number];
  const dimension = number === 'losses' ? 'percentage' : number;
  const known = of ? ` (${printQuantity({ value: of.value, sd: of.sd, dimension })})` : '';
  return `${NUMBER_WORDS[number]} ${number === 'losses' ? 'stay' : 'stays'} computed${known}: ${reasonWords(swept, because, bench)}`;
}

function reasonWords({ group }: SweptCoil, because: Untold['because'], bench: Bench | undefined): string {
  switch (because) {
    case 'input capacitance': {
      const { farad, faradSd } = recorderInput(bench);
      const { setUp } = group.sweeps.find((each) => each.setUp.kind === 'through') ?? {};
      const ohms = setUp && setUp.kind !== 'impedance' ? setUp.seriesOhm.written : '';
      return `through ${ohms} the recorder's own ${printQuantity({ value: farad, sd: faradSd, dimension: 'capacitance' })} are in it.`;
    }
    case 'one exciter':
      return 'an exciter alone gives the shape of a resonance, which is one number fewer than inductance and capacitance.';
    case 'hardly any':
      return 'they are too small here to be told.';
    case 'far above':
      return 'what metal takes far above the points does not follow from them.';
    case 'scatter':
      return 'the points scatter too much.';
  }
}

const NEXT: Readonly<Record<NextMeasurement, string>> = {
  'coils apart':
    'Sweep each coil by itself as well: all of them are then fitted at once, as they are joined, and what they couple is known.',
  'all at once':
    'Sweep hot to ground as well: the other coil rings along, and all of them are then fitted at once, as they lie.',
  over: 'Sweep over 10 kohm: pickup from the output to the resistor, resistor to ground.',
  'recorder alone': 'Sweep over 10 kohm, or the recorder alone once: recorder alone "…" through 100 kohm.',
  'with a capacitor': 'Sweep over 10 kohm; or excite it once more with 1 nF across.',
  resistance: 'Read the resistance between the same leads: it is a better scale than the resistor.',
  'set-up': 'Look at the resistor and at which side of it the pickup was, and correct the line.',
  rejoin: 'Look for the broken end or joint.',
  again: 'Sweep again, over 10 kohm, away from steel and transformers, with nothing else on the leads.',
};

export function nextWords(swept: Swept, netlist: PickupNetlist): string | undefined {
  const next = nextMeasurement(swept, netlist);
  return next && NEXT[next];
}

/** What it could not tell, one sentence each. */
export const allUntold = (swept: SweptCoil, bench: Bench | undefined): readonly string[] =>
  untoldOf(swept).map((untold) => untoldWords(swept, untold, bench));

export interface SweptRow {
  readonly what: string;
  readonly measured: string;
  readonly isUsed: boolean;
  /** `computed 4.71 ± 0.11 H, 2.1 deviations apart`; empty where nothing is computed. */
  readonly beside: string;
}

/** All that is said of one: its numbers, and what is to be known of them. */
export function sweptWords(
  swept: Swept,
  netlist: PickupNetlist,
  bench: Bench | undefined,
): { readonly rows: readonly SweptRow[]; readonly sentences: readonly string[] } {
  switch (swept.kind) {
    case 'open': {
      const only = printQuantity({ ...swept.capacitanceF, dimension: 'capacitance' });
      return { rows: [], sentences: [`Open: only ${only} lie there, and no resistance.`] };
    }
    case 'set-up': {
      const [seen, read] = [swept.seenOhm, swept.readOhm].map((value) =>
        printQuantity({ value, dimension: 'resistance' }),
      );
      return { rows: [], sentences: [`Not fitted: as stated the sweep makes ${seen}, and a meter read ${read}.`] };
    }
    case 'no coil':
      return { rows: [], sentences: ['Not fitted: nothing in it rises with frequency as a coil does.'] };
    case 'coil': {
      const computed = computedBeside(swept, netlist, bench);
      const rows = keysOf(SWEPT_NUMBERS).map((key): SweptRow => {
        const beside = computed[key];
        return {
          what: SWEPT_NUMBERS[key].what,
          measured: sweptNumberText(swept, key),
          isUsed: isTold(swept, key),
          beside:
            beside && swept.verdict !== 'does not hold'
              ? `computed ${numberText(beside, SWEPT_NUMBERS[key])}, ${apartWords(swept[key], beside)}`
              : '',
        };
      });
      const told = [lossWords(swept), acrossWords(swept)];
      const sentences =
        swept.verdict === 'does not hold'
          ? [verdictWords(swept), isPartOfCoil(swept.group, netlist) ? PART_WORDS : undefined]
          : [
              ...told,
              verdictWords(swept),
              ...allUntold(swept, bench),
              ALONE_WORDS[lookedAtAlone(swept, netlist) ?? 'no'],
            ];
      return { rows, sentences: sentences.flatMap((each) => each ?? []) };
    }
  }
}

const PART_WORDS =
  'A part of a tapped coil: the rest of the winding rings along. What the tap gives follows from a sweep of the whole coil.';

const ALONE_WORDS: Readonly<Record<NonNullable<ReturnType<typeof lookedAtAlone>> | 'no', string | undefined>> = {
  exciter: 'Looked at by itself: with the other sweeps of the pickup none by an exciter is fitted.',
  tap: 'Looked at by itself: with the other sweeps of the pickup none of a tapped coil is fitted.',
  no: undefined,
};

/** A resistance that is hardly told at all is none. */
const acrossWords = ({ acrossOhm }: SweptCoil): string | undefined =>
  acrossOhm && isToldApart(acrossOhm)
    ? `About ${printQuantity({ ...acrossOhm, dimension: 'resistance' })} lie across; they are taken out of the numbers.`
    : undefined;

/** What is told of two sweeps of the same points: which numbers have changed beyond doubt, and what does so. */
export function changeWords(pair: SweptPair, t: Language = ENGLISH): string {
  const { inductanceH, capacitanceF, resistance20COhm, lossAt3kHz } = changesOf(pair);
  const told = (change: Estimate | undefined): Estimate | undefined =>
    change && isToldApart(change) ? change : undefined;
  const [henry, farad, ohm] = [told(inductanceH), told(capacitanceF), told(resistance20COhm)];
  const text = (change: Estimate, key: keyof typeof SWEPT_NUMBERS) => differenceText(change, SWEPT_NUMBERS[key], t);
  const lost = told(lossAt3kHz);
  const metal =
    lost && Math.abs(lost.value) > LEAST_METAL
      ? [
          t(
            lost.value > 0
              ? 'Metal near the coil takes {0} more of the inductance at 3\u202FkHz, as a cover, a baseplate or shorted turns do.'
              : 'Metal near the coil takes {0} less of the inductance at 3\u202FkHz, as where a cover or a baseplate is taken off.',
            numberText({ ...lost, value: Math.abs(lost.value) }, CHANGED_NUMBERS.lossAt3kHz, t),
          ),
        ]
      : [];
  if (!henry && !farad && !ohm)
    return (
      metal[0] ?? t('Nothing has changed beyond what is known: inductance, capacitance and resistance are as before.')
    );
  const parts: string[] = [];
  const turns = henry && ohm && turnsChanged(pair, henry, ohm);
  if (turns !== undefined)
    parts.push(
      t(
        turns < 0
          ? 'Inductance and resistance have fallen together, as {0} fewer turns make them.'
          : 'Inductance and resistance have risen together, as {0} more turns make them.',
        `${printNumber(Math.abs(100 * turns), 1, t.numbers)}\u202F%`,
      ),
    );
  else {
    if (henry)
      parts.push(
        t(
          'Inductance has changed by {0}, as poles, magnet or steel near the coil make it.',
          text(henry, 'inductanceH'),
        ),
      );
    if (ohm)
      parts.push(
        t(
          'Resistance has changed by {0} at one temperature: a joint, or a winding that is not the same.',
          text(ohm, 'resistance20COhm'),
        ),
      );
  }
  if (farad)
    parts.push(
      t(
        farad.value > 0
          ? 'Capacitance has risen by {0}, as wax between the turns, more cable or metal beside the coil makes it.'
          : 'Capacitance has fallen by {0}, as less cable, wax that came out or metal taken away makes it.',
        numberText({ ...farad, value: Math.abs(farad.value) }, SWEPT_NUMBERS.capacitanceF, t),
      ),
    );
  return [...parts, ...metal].join(' ');
}

/** Of the inductance. Two forms of loss that fit alike differ by less. */
const LEAST_METAL = 0.005;

/** Relative change of the turns where both numbers agree on it: inductance goes with their square, resistance with them. */
function turnsChanged({ swept: { before } }: SweptPair, henry: Estimate, ohm: Estimate): number | undefined {
  const [byHenry, byOhm] = [henry.value / before.inductanceH.value / 2, ohm.value / before.resistance20COhm.value];
  const sd = Math.hypot(henry.sd / before.inductanceH.value / 2, ohm.sd / before.resistance20COhm.value);
  // Turns taken off lie outside and are the longest ones.
  const apart = Math.abs(byHenry - byOhm);
  return byHenry * byOhm > 0 && apart < 2 * sd + OUTER_TURNS * Math.abs(byOhm) ? byHenry : undefined;
}

const OUTER_TURNS = 0.35;

/** `2.1 deviations apart`. */
const apartWords = (measured: Estimate, computed: Estimate): string =>
  `${printNumber(deviationsApart(measured, computed), 1)} deviations apart`;

/** What is measured and what is computed owe nothing to each other. */
export const deviationsApart = (measured: Estimate, computed: Estimate): number => {
  const sd = Math.hypot(measured.sd, computed.sd);
  return sd > 0 ? Math.abs(measured.value - computed.value) / sd : 0;
};
