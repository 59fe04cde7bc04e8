/** The measurement that comes next, in words. */
import type { Pickup } from '../model/pickup.ts';
import { cautionsOf, type Hazard } from '../words/cautions.ts';
import { ENGLISH, type Language, type PlainText } from '../words/languages/language.ts';
import { PICKUP_NUMBERS } from '../words/numbers.ts';
import { coilOhmOrder, compassOrder, inductanceOrder, kickOrder, outputOhmOrder } from '../words/reading-orders.ts';
import { list } from '../words/text.ts';
import type { Measurement, NextMeasurement, OpenQuestion, Work } from './measure-next.ts';

export interface MeasurementWords {
  /** `phase and hum (the slug coil), inductance` */
  readonly settles: string;
  /** An order: which probes go where. */
  readonly how: string;
  /** `about 3 min of handling` */
  readonly handling: string;
  /** The line to write, with a gap (`…`) where what is read goes. */
  readonly line: string;
}

/** `pickup`: whose it is, where an instrument has several. */
export const measurementWords = (
  next: NextMeasurement & { readonly pickup?: Pickup },
  t = ENGLISH,
): MeasurementWords => ({
  settles: [...(next.pickup ? [next.pickup.name] : []), settledWords(next.settles, t)].join(': '),
  how: [
    orderOf(next, t),
    ...next.work.map((each) => t(WORK[each])),
    ...cautionsOf(...hazardsOf(next)).map((each) => t(each)),
  ].join(' '),
  handling: t('about {0} min of handling', `${next.minutes}`),
  line: next.line,
});

const WORK: Readonly<Record<Work, PlainText>> = {
  unsoldered: 'For that a joint is unsoldered, and soldered again.',
  opened: 'For that the pickup is opened, and closed again.',
  takenOut: 'For that the pickup is taken out of the instrument, unplugged.',
};

/** A compass or a meter on leads at hand asks for no caution of its own; whoever unsolders or opens has an iron in hand. */
const hazardsOf = ({ work }: Measurement): readonly Hazard[] => [
  ...(work.some((each) => each !== 'takenOut') ? (['solder'] as const) : []),
  ...(work.includes('opened') ? (['enamel'] as const) : []),
];

function orderOf(next: Measurement, t: Language): string {
  switch (next.kind) {
    case 'kick':
      return kickOrder(next.coil.name, next, t);
    case 'compass':
      return compassOrder(next.coil.name, t);
    case 'coil resistance':
      return coilOhmOrder(next, t);
    case 'output resistance':
      return outputOhmOrder(t);
    case 'inductance':
      return inductanceOrder(t);
  }
}

const settledWords = (questions: readonly OpenQuestion[], t: Language): string =>
  list(
    questions.map((each) => questionWords(each, t)),
    t('and'),
  );

function questionWords(open: OpenQuestion, t: Language): string {
  switch (open.kind) {
    case 'phase':
    case 'hum':
      return `${t(open.kind)} (${t('the {0} coil', open.coil.name)})`;
    case 'turns':
      return t('turns of the {0} coil', open.coil.name);
    case 'target':
      return t('the target of {0}', open.aim.written);
    case 'number':
      return t(PICKUP_NUMBERS[open.number].what);
  }
}
