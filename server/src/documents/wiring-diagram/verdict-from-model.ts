import { present } from '../../../../grammar/values/present.ts';
import { type HumVerdict, hearsStrings, humVerdict, pairsHeard } from '../../estimates/phase.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { type CoilSigns, sounds } from '../../estimates/signs.ts';
import { poleOf } from '../../model/coil.ts';
import { linear } from '../../quantities/estimate.ts';
import { rotationWords } from '../../words/directions.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';
import { numberText } from '../../words/number-text.ts';
import { PICKUP_NUMBERS } from '../../words/numbers.ts';
import { turnsText } from '../../words/turns-words.ts';
import type { Push, VectorsPicture, VerdictPicture } from './picture.ts';

/** Why it sounds so, from the signs and sizes of its coils; `undefined` where no path leads from ground to hot. */
export function verdictOf(quick: QuickEstimates, topFirst: readonly string[], t: Language): VerdictPicture | undefined {
  const live = topFirst.flatMap((name) => quick.signs.filter((each) => each.coil.name === name && sounds(each)));
  if (live.length === 0) return undefined;
  const heard = live.filter(({ coil }) => hearsStrings(coil));
  const stringTurns = vectorsOf(
    heard,
    ({ string }) => string,
    ({ coil, transfer = 0 }) => sized(quick.windings.get(coil)?.turns?.value, transfer),
  );
  const humAreas = vectorsOf(
    live,
    ({ hum }) => hum,
    ({ coil, humTransfer = 0 }) => sized(quick.windings.get(coil)?.turnAreaM2?.value, humTransfer),
  );
  const traced = ({ coil }: CoilSigns) =>
    quick.netlist.windings.find((each) => each.coil === coil)?.ends !== 'from a kick';
  const stringWay = reference(heard, ({ string }) => string);
  const humWay = reference(live, ({ hum }) => hum);
  return {
    rows: live.map((signs) => ({
      coil: signs.coil.name,
      wound: traced(signs) ? rotationWords(signs.wind?.sign, t) : t('unknown'),
      // Direction times wind is the way round that the path goes, whichever end is the inner one.
      path: rotationWords(signs.hum, t),
      polarity: signs.pole && poleOf(signs.pole.sign),
      string: push(signs.string, stringWay),
      hum: push(signs.hum, humWay),
    })),
    signal: signalOf(quick, heard, stringTurns, t),
    hum: humOf(quick, live, humAreas, t),
  };
}

function signalOf(
  { phase, windings }: QuickEstimates,
  heard: readonly CoilSigns[],
  vectors: VectorsPicture['vectors'],
  t: Language,
): VectorsPicture {
  const series = heard.every(({ transfer = 0 }) => Math.abs(Math.abs(transfer) - 1) < 1e-3);
  const turns = heard.map(({ coil }) => windings.get(coil)?.turns);
  const known = present(turns);
  const sum = linear(
    known,
    known.map(() => 1),
  );
  const total = series && known.length === turns.length ? [turnsText(sum, t)] : [];
  if (phase === 'out')
    return {
      heading: t('String signal cancels'),
      vectors,
      remarks: [t('thin: only what the coils hear differently is left')],
    };
  if (phase === 'unproven')
    return {
      heading: t('String signal: not proven'),
      vectors: [],
      remarks: [t('The kick of each coil settles it, taken between its own two leads.')],
    };
  if (pairsHeard(heard).length > 0) return { heading: t('String signal adds'), vectors, remarks: total };
  if (heard.length > 1)
    return {
      heading: t('No string is heard twice'),
      vectors: [],
      remarks: [t('Each coil serves strings of its own.')],
    };
  const unknown = t('unknown until its turns are known');
  return { heading: t('String signal'), vectors, remarks: known.length === 0 ? [unknown] : total };
}

function humOf(
  { humDb }: QuickEstimates,
  live: readonly CoilSigns[],
  vectors: VectorsPicture['vectors'],
  t: Language,
): VectorsPicture {
  if (live.some(({ hum }) => hum === undefined)) {
    return {
      heading: t('Hum: not proven'),
      vectors: [],
      remarks: [t('It takes the way each coil is wound, or its kick and a compass at its poles.')],
    };
  }
  if (live.length === 1) return { heading: t('Hum'), vectors, remarks: [t('a single coil takes up all of it')] };
  const cancels = live.some(({ hum }) => hum !== live[0]?.hum);
  if (humDb === undefined) return { heading: t(cancels ? 'Hum cancels' : 'Hum adds'), vectors, remarks: [] };
  const verdict = humVerdict(humDb.value);
  const level = numberText(humDb, PICKUP_NUMBERS.humDb, t);
  return { heading: t(HEADINGS[verdict]), vectors, remarks: [verdict === 'adds' ? level : t('left: {0}', level)] };
}

const HEADINGS: Readonly<Record<HumVerdict, PlainText>> = {
  adds: 'Hum adds',
  hums: 'Hum does not cancel',
  'in part': 'Hum cancels in part',
  gone: 'Hum cancels',
};

const sized = (size: number | undefined, transfer: number) =>
  size === undefined ? undefined : size * Math.abs(transfer);

/** Signed lengths, the strongest side positive; none where a sign or a size is unknown. */
function vectorsOf(
  signs: readonly CoilSigns[],
  signOf: (signs: CoilSigns) => number | undefined,
  sizeOf: (signs: CoilSigns) => number | undefined,
): VectorsPicture['vectors'] {
  const vectors = signs.map((each) => {
    const [sign, size] = [signOf(each), sizeOf(each)];
    return sign === undefined || size === undefined ? undefined : { coil: each.coil.name, length: sign * size };
  });
  const known = vectors.flatMap((each) => each ?? []);
  if (known.length < signs.length) return [];
  const sum = known.reduce((total, { length }) => total + length, 0);
  const way = sum < 0 ? -1 : 1;
  return known
    .map(({ coil, length }) => ({ coil, length: way * length }))
    .sort((a, b) => Number(b.length > 0) - Number(a.length > 0));
}

/** The sign that is shown as a push to hot: that of the lowest coil, where the path begins. */
function reference(live: readonly CoilSigns[], signOf: (signs: CoilSigns) => number | undefined): number {
  const last = live.at(-1);
  return (last === undefined ? undefined : signOf(last)) ?? 1;
}

function push(sign: number | undefined, way: number): Push {
  return sign === undefined ? undefined : sign === way ? 'hot' : 'ground';
}
