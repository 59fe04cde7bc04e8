import type { ResponseBand } from '../../estimates/response-band.ts';
import type { TunedString } from '../../estimates/tuning.ts';
import { difference, type Estimate } from '../../quantities/estimate.ts';
import { printNumber, printParts, printQuantity } from '../../quantities/print.ts';
import type { Language } from '../../words/languages/language.ts';
import { differenceText, marked } from '../../words/number-text.ts';
import { PICKUP_NUMBERS } from '../../words/numbers.ts';
import {
  drawing,
  type FactTable,
  FRAMES,
  type PlotWidth,
  paragraphs,
  part,
  type SheetWords,
  sheetHead,
} from '../drawing-sheet.ts';
import { type Box, drawLabel, type Label, placeLabels, type Run } from '../labels.ts';
import { circle, path, type SvgNode } from '../svg.ts';
import { type Axes, axesOf, drawAxes } from './axes.ts';
import { type CalloutLine, callout } from './callout.ts';
import { bandPath, curveBoxes, curvePath } from './curve-shapes.ts';
import { levelAt, type MeasuredPicture, type StripPicture } from './measured.ts';
import { drawMeasuredPoints, measuredStrip } from './measured-strip.ts';
import { stringRange } from './string-range.ts';

export interface CurvePicture {
  /** `rev 4, before`; empty where the drawing's title names the only curve. */
  readonly name: string;
  /** Its name, or the drawing's title, says whether it was measured. */
  readonly isBasisNamed?: boolean;
  readonly band: ResponseBand;
  readonly resonanceHz: Estimate | undefined;
  /** Height of the resonance above the low notes. */
  readonly peakDb: Estimate | undefined;
  readonly minus3DbHz?: Estimate | undefined;
}

export interface ResponsePicture extends SheetWords {
  readonly now: CurvePicture;
  readonly before?: CurvePicture | undefined;
  /** A sweep of the whole pickup, its points under the same load. */
  readonly measured?: MeasuredPicture | undefined;
  /** True where the levels are of what the winding passes on, and no string is behind them. */
  readonly isOfWinding?: boolean;
  /** What is to be known of how it was made. */
  readonly notes?: readonly string[];
  /** The strings under the axis; none where their tuning is not known. */
  readonly strings: readonly TunedString[];
}

/** The response as a picture: the same input gives the same bytes. */
export function responsePlot(picture: ResponsePicture, size: PlotWidth): string {
  const frame = FRAMES[size];
  const { t } = picture;
  const zero = zeroLevel(picture.now, t);
  const head = sheetHead({ ...picture, subtitle: `${picture.subtitle} ${zero.words} ${bandWords(picture)}` }, frame);
  const axes = axesOf(size, head.bottom + 24, levelRange(picture, zero.db));
  const curves = drawCurves(picture, axes, zero.db);
  const points = picture.measured ? drawMeasuredPoints(picture.measured, axes, zero.db, t) : [];
  const strings = stringRange(axes, picture.strings, axes.bottom + 44, t);
  const strip = picture.measured
    ? measuredStrip(picture.measured, axes, { frame, top: strings.bottom + 20, size, t })
    : { nodes: [], bottom: strings.bottom };
  const lowDb = picture.now.band.levelDb[0] ?? 0;
  const low = `${lowDb > 0 ? '+' : ''}${printNumber(lowDb, 1, t.numbers)}`;
  const level = t(
    'Low notes: {0} against the unloaded string signal of one coil of 5\u202F000 turns.',
    `${low}\u202FdB`,
  );
  const sentences = [...(picture.isOfWinding ? [] : [...differenceWords(picture), level]), ...(picture.notes ?? [])];
  const foot = paragraphs(sentences, {
    x: frame.margin,
    y: strip.bottom + 24,
    width: frame.right - frame.margin,
    quiet: false,
  });
  const height = Math.ceil(Math.max(foot.bottom, strip.bottom) + 20);
  return drawing(picture, size, height, [
    ...head.nodes,
    drawAxes(axes, size, t),
    ...curves,
    ...points,
    ...strings.nodes,
    ...strip.nodes,
    ...foot.nodes,
  ]);
}

/** The same as rows: the resonances, then the levels at the ticks of the axis. */
export function responseTable(picture: ResponsePicture): FactTable {
  const { t } = picture;
  const zero = zeroLevel(picture.now, t);
  const curves = [...(picture.before === undefined ? [] : [picture.before]), picture.now];
  const single = curves.length === 1;
  const cell = (text: string | undefined) => text ?? t('none');
  const resonances = [
    [
      t(PICKUP_NUMBERS.resonanceHz.what),
      ...curves.map((curve) => cell(curve.resonanceHz && markedFrequency(curve, curve.resonanceHz, t))),
    ],
    [t(PICKUP_NUMBERS.peakDb.what), ...curves.map(({ peakDb }) => cell(peakDb && levelText(peakDb, t)))],
  ];
  const levels = TABLE_HZ.map((hz) => [
    frequencyText({ value: hz, sd: 0 }, t),
    ...curves.map(({ band }) => {
      const index = nearest(band.frequencyHz, hz);
      return levelText({ value: (band.levelDb[index] ?? 0) - zero.db, sd: band.levelSdDb[index] ?? 0 }, t);
    }),
  ]);
  const { measured } = picture;
  const strips = measured?.strips ?? [];
  const blank = strips.map(() => '');
  return {
    caption: `${picture.name}. ${zero.words}`,
    columns: [
      '',
      ...curves.map(({ name }) => (single && name === '' ? t('level') : name)),
      ...strips.map(({ isChange, unit, word }) =>
        isChange ? t('change') : unit === '°' ? t('rest of the phase') : word,
      ),
    ],
    rows: [
      ...sweptRows(picture).map((row) => (measured?.numbers?.isChange ? row : [...row, ...blank])),
      ...resonances.map((row) => [...row, ...blank]),
      ...levels.map((row, index) => [...row, ...strips.map((strip) => stripCell(strip, TABLE_HZ[index] ?? 0, t))]),
    ],
  };
}

/** At the nearest point, where one was measured within a quarter of that frequency. */
function stripCell({ hz, off, offSd, unit, isChange }: StripPicture, at: number, t: Language): string {
  const index = nearest(hz, at);
  if (!isChange && Math.abs(Math.log((hz[index] ?? 0) / at)) > Math.log(1.25)) return '';
  const [value, sd] = [off[index] ?? 0, offSd[index] ?? 0];
  if (isChange) return levelText({ value, sd }, t);
  const text = printParts({ value, sd, dimension: 'ratio', decimals: 2, style: t.numbers });
  return `${text.value} ± ${text.uncertainty ?? ''}${unit === '°' ? '°' : '\u202FdB'}`;
}

/** Numbers of a sweep; its verdict stands in the first row. */
function sweptRows({ measured, before, t }: ResponsePicture): readonly (readonly string[])[] {
  if (!measured) return [];
  const { verdict, numbers } = measured;
  if (numbers?.isChange)
    return [
      [t('as measured'), '', '', verdict],
      ...numbers.rows.map(([what, was, is, change]) => [what, was, is, change]),
    ];
  const rows = numbers?.rows ?? [];
  // Beside another state, which is not what is computed of this one, the numbers are told in the column of the newer one.
  if (before && !before.isBasisNamed)
    return [
      [t('from the sweep'), '', verdict],
      ...rows.map(([what, , found]) => [`${what}, ${t('from the sweep')}`, '', found]),
    ];
  const columns = (computed: string, found: string) => (before ? [computed, found] : [found]);
  return [
    [t('from the sweep'), ...columns('', verdict)],
    ...rows.map(([what, computed, found]) => [what, ...columns(computed, found)]),
  ];
}

const TABLE_HZ = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];

/** From this much below the highest level on, the low notes are no measure: they nearly cancel. */
const LOW_NOTES_LOST_DB = 12;

function zeroLevel({ band }: CurvePicture, t: Language): { readonly db: number; readonly words: string } {
  const low = band.levelDb[0] ?? 0;
  const highest = Math.max(...band.levelDb);
  return highest - low > LOW_NOTES_LOST_DB
    ? { db: highest, words: t('0\u202FdB: its highest level.') }
    : { db: low, words: t('0\u202FdB: its low notes.') };
}

const bandWords = ({ before, t }: ResponsePicture): string =>
  t(before === undefined ? 'Band: one standard deviation.' : 'Band and dots: one standard deviation.');

/** Whole threes of dB, with room for words above the resonance. */
function levelRange({ now, before }: ResponsePicture, zeroDb: number): readonly [number, number] {
  const bands = [now.band, ...(before === undefined ? [] : [before.band])];
  const highest = Math.max(...bands.flatMap(({ highDb }) => highDb)) - zeroDb;
  const lowNotes = Math.min(...bands.map(({ levelDb }) => levelDb[0] ?? zeroDb)) - zeroDb;
  const middle =
    Math.min(...bands.map(({ frequencyHz, levelDb }) => levelDb[nearest(frequencyHz, 1500)] ?? zeroDb)) - zeroDb;
  const floor = Math.min(-12, Math.floor((Math.min(lowNotes, middle) - 3) / 6) * 6);
  return [Math.max(floor, -48), Math.min(Math.max(Math.ceil(highest / 3) * 3 + 3, 6), 60)];
}

function drawCurves(picture: ResponsePicture, axes: Axes, zeroDb: number): readonly SvgNode[] {
  const { now, before } = picture;
  const shift = (levels: readonly number[]) => levels.map((level) => level - zeroDb);
  const nodes: SvgNode[] = [];
  const obstacles: Box[] = [];
  for (const curve of [before, now]) {
    if (curve === undefined) continue;
    const { frequencyHz, levelDb, lowDb, highDb } = curve.band;
    const isNow = curve === now;
    const limits = [shift(lowDb), shift(highDb)] as const;
    const shown = isNow
      ? [
          path('band', bandPath(axes, frequencyHz, ...limits)),
          path('now', curvePath(axes, frequencyHz, shift(levelDb))),
        ]
      : [
          ...limits.map((limit) => path('limit', curvePath(axes, frequencyHz, limit))),
          path('was', curvePath(axes, frequencyHz, shift(levelDb))),
        ];
    nodes.push(part(isNow ? 'response:now' : 'response:before', curveWords(curve, isNow, picture.t), ...shown));
    for (const level of [levelDb, lowDb, highDb]) obstacles.push(...curveBoxes(axes, frequencyHz, shift(level)));
  }
  nodes.push(...resonances(picture, axes, zeroDb, obstacles), ...names(picture, axes, zeroDb, obstacles));
  return nodes;
}

/** Marks and their words. The words of a state stand on its own side: what resonates lower, to the left. */
function resonances(
  { now, before, t }: ResponsePicture,
  axes: Axes,
  zeroDb: number,
  obstacles: Box[],
): readonly SvgNode[] {
  const nodes: SvgNode[] = [];
  const nowHz = now.resonanceHz?.value;
  const beforeHz = before?.resonanceHz?.value;
  const nowSide = beforeHz !== undefined && nowHz !== undefined && nowHz < beforeHz ? 'left' : 'right';
  const curves = [now, before].flatMap((curve) => {
    const hz = curve?.resonanceHz?.value;
    if (curve === undefined || hz === undefined || !(hz >= 20 && hz <= 20_000)) return [];
    const y = Math.max(axes.y(levelAt(curve.band, hz) - zeroDb), axes.area.y + 6);
    return y > axes.bottom ? [] : [{ curve, at: { x: axes.x(hz), y } }];
  });
  for (const { at } of curves) obstacles.push({ x: at.x - 8, y: at.y - 8, width: 16, height: 16 });
  const texts: Box[] = [];
  let isSmall = false;
  for (const { curve, at } of curves) {
    const isNow = curve === now;
    const side = isNow ? nowSide : nowSide === 'right' ? 'left' : 'right';
    const place = { prefer: side, within: wordsArea(axes), obstacles, texts } as const;
    const lines = resonanceLines(curve, t);
    const small = lines.map(({ runs }) => ({ runs, size: 12 as const }));
    // What was is never written larger than what is.
    const large: ReturnType<typeof callout> = isSmall ? undefined : callout(at, lines, place);
    const placed = large ?? callout(at, small, place);
    isSmall = large === undefined;
    const mark = circle('open', at.x, at.y, 5);
    if (placed !== undefined) {
      obstacles.push(...placed.boxes);
      texts.push(...placed.boxes);
    }
    nodes.push(
      part(
        isNow ? 'resonance:now' : 'resonance:before',
        curve.name === ''
          ? t('Resonance: {0}', resonanceWords(curve, t))
          : t('Resonance, {0}: {1}', curve.name, resonanceWords(curve, t)),
        mark,
        ...(placed?.nodes ?? []),
      ),
    );
  }
  return nodes;
}

const wordsArea = ({ area, right }: Axes): Box => ({
  x: area.x + 4,
  y: area.y + 2,
  width: right + 12 - area.x,
  height: area.height - 6,
});

function resonanceLines(curve: CurvePicture, t: Language): readonly CalloutLine[] {
  const { name, resonanceHz, peakDb } = curve;
  const value = resonanceHz === undefined ? '' : markedFrequency(curve, resonanceHz, t);
  const first = name === '' ? value : `${name}: ${value}`;
  return [
    { runs: [{ text: first }], size: 14 },
    ...(peakDb === undefined ? [] : [{ runs: [{ text: levelText(peakDb, t), quiet: true }], size: 12 as const }]),
  ];
}

/** At the left end: which curve is which and how their low notes differ; a curve without a peak. */
function names(
  { now, before, t }: ResponsePicture,
  axes: Axes,
  zeroDb: number,
  obstacles: readonly Box[],
): readonly SvgNode[] {
  const labels: Label[] = [];
  const add = (runs: readonly Run[], atHz: number, levelAt: (hz: number) => number, above: boolean, rank: number) => {
    const ways = above ? [-10, -18, -26, 22, 30, -36, -46, 40, 50] : [20, 28, 36, -12, -20, 46, 56, -30, -40];
    labels.push({
      wordings: [runs],
      spots: [1, 0.7, 1.5, 0.5, 2.2, 3].flatMap((share) => {
        const [x, y] = [axes.x(atHz * share), axes.y(levelAt(atHz * share))];
        return [
          ...ways.map((dy) => ({ x, y: y + dy, anchor: 'start' as const })),
          { x: x - 14, y, anchor: 'end' as const },
          { x: x + 14, y, anchor: 'start' as const },
        ];
      }),
      rank,
    });
  };
  const nowDb = (now.band.levelDb[0] ?? 0) - zeroDb;
  if (before !== undefined) {
    const beforeDb = (before.band.levelDb[0] ?? 0) - zeroDb;
    const apart = beforeDb - nowDb;
    const words =
      Math.abs(apart) < 0.05
        ? t('as loud')
        : t(apart > 0 ? '{0} louder' : '{0} softer', `${printNumber(Math.abs(apart), 1, t.numbers)}\u202FdB`);
    const unnamed = before.resonanceHz === undefined || now.resonanceHz === undefined;
    if (unnamed || Math.abs(apart) >= 0.05) {
      add([{ text: `${before.name}: ${words}`, quiet: true }], 45, () => beforeDb, apart >= 0, 1);
      add([{ text: `${now.name}: ${printNumber(nowDb, 0)}\u202FdB`, quiet: true }], 45, () => nowDb, apart < 0, 1);
    }
  }
  if (now.resonanceHz === undefined) {
    const words =
      now.minus3DbHz === undefined ? t('no peak') : t('no peak; −3\u202FdB at {0}', frequencyText(now.minus3DbHz, t));
    add([{ text: words, bold: true }], 300, (hz) => levelAt(now.band, hz) - zeroDb, true, 0);
  }
  return placeLabels(labels, obstacles, wordsArea(axes)).placed.map(drawLabel);
}

function differenceWords({ now, before, t }: ResponsePicture): readonly string[] {
  if (before?.resonanceHz === undefined || now.resonanceHz === undefined) return [];
  const apart = difference(now.resonanceHz, before.resonanceHz);
  const size = { ...apart, value: Math.abs(apart.value) };
  if (size.value < 1) return [t('Both resonate at one frequency.')];
  const shared = apart.sd < 0.9 * Math.hypot(now.resonanceHz.sd, before.resonanceHz.sd);
  const why = shared ? ` ${t('What both rest on alike cancels.')}` : '';
  const unit = now.resonanceHz.value >= 1000 ? 'kHz' : 'Hz';
  const text = printQuantity({ value: size.value, sd: size.sd, dimension: 'frequency', unit, style: t.numbers });
  const differ =
    size.value > 2 * apart.sd
      ? t('The two resonances differ by {0}, more than the doubt.', text)
      : t('The two resonances differ by {0}, within the doubt.', text);
  return [`${differ}${why}`];
}

function curveWords(curve: CurvePicture, isNow: boolean, t: Language): string {
  const name = curve.name || t(isNow ? 'Response' : 'Before');
  return `${name}: ${resonanceWords(curve, t)}`;
}

const markedFrequency = ({ isBasisNamed }: CurvePicture, resonanceHz: Estimate, t: Language): string => {
  const text = frequencyText(resonanceHz, t);
  return isBasisNamed ? text : marked(text, resonanceHz, t);
};

export function resonanceWords(curve: CurvePicture, t: Language): string {
  const { resonanceHz, peakDb } = curve;
  if (resonanceHz === undefined) return t('no resonance');
  const frequency = markedFrequency(curve, resonanceHz, t);
  return peakDb === undefined ? frequency : t('{0}, {1} above the low notes', frequency, levelText(peakDb, t));
}

export const frequencyText = ({ value, sd }: { readonly value: number; readonly sd: number }, t: Language): string =>
  printQuantity({ value, sd, dimension: 'frequency', style: t.numbers });

/** Against the level that is drawn as 0; what a curve falls to is no null. */
const levelText = (level: { readonly value: number; readonly sd: number }, t: Language): string =>
  differenceText(level, PICKUP_NUMBERS.peakDb, t);

function nearest(frequencyHz: readonly number[], hz: number): number {
  let best = 0;
  frequencyHz.forEach((each, index) => {
    if (Math.abs(Math.log(each / hz)) < Math.abs(Math.log((frequencyHz[best] ?? hz) / hz))) best = index;
  });
  return best;
}
