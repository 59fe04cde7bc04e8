/** How the bobbin is mounted, which way the spindle turns, and how the wire then lies: three small drawings in one row. */
import { opposite, type Rotation } from '../../model/coil.ts';
import type { Language } from '../../words/languages/language.ts';
import { type CoilOutline, closedTurns, coilBody, outerHalfHeight, spiral } from '../coil-spiral.ts';
import { wordsAt } from '../labels.ts';
import { circle, d, element, path, picture, rect, type SvgElement } from '../svg.ts';
import { woundArrow } from '../symbols.ts';

export interface Mounting {
  readonly t: Language;
  /** For element ids; letters, digits and hyphens. */
  readonly id: string;
  readonly towardSpindle: 'top' | 'bottom';
  /** Of the spindle, seen facing it; `undefined` where the direction is not known. */
  readonly spindle: Rotation | undefined;
  /** Of the wire from start to finish, seen from the strings. */
  readonly wire: Rotation | undefined;
}

export function mountDrawing({ t, id, towardSpindle, spindle, wire }: Mounting): SvgElement {
  const words = [
    t('Bobbin with its {0} toward the spindle.', faceWords(towardSpindle, t)),
    spindle ? t('Seen facing the spindle, it turns {0}.', t(spindle)) : t('The way the spindle turns is not known.'),
    wire
      ? t('Seen from the strings, the wire lies {0} from start to finish.', t(wire))
      : t('The way the wire lies is not known.'),
  ];
  return picture(
    { id, name: t('Mounting and turning'), description: words.join(' ') },
    { y: TOP, width: WIDTH, height: HEIGHT - TOP },
    ...mounted(towardSpindle, t),
    ...fromFreeEnd(spindle, t),
    ...fromStrings(wire, t),
  );
}

const WIDTH = 650;
const TOP = 12;
const HEIGHT = 170;
const AXIS = 78;

const faceWords = (face: 'top' | 'bottom', t: Language): string => t(face === 'top' ? 'top (string side)' : 'bottom');
const quiet = (text: string, x: number, y: number, anchor: 'start' | 'middle' | 'end' = 'middle') =>
  wordsAt(text, x, y, { quiet: true, anchor });
const bold = (text: string, x: number, y: number) => wordsAt(text, x, y, { bold: true, anchor: 'middle' });

function mounted(towardSpindle: 'top' | 'bottom', t: Language): readonly SvgElement[] {
  const away = opposite(towardSpindle);
  const turns = [0, 1, 2].flatMap((index) => [
    path('w1', d`M73 ${AXIS - 26 - 4 * index}H111`),
    path('w1', d`M73 ${AXIS + 26 + 4 * index}H111`),
  ]);
  return [
    rect('open', 14, AXIS - 34, 30, 68),
    rect('open', 44, AXIS - 5, 22, 10),
    ...turns,
    rect('open', 73, AXIS - 22, 38, 44),
    rect('open', 66, AXIS - 44, 7, 88),
    rect('open', 111, AXIS - 44, 7, 88),
    quiet(t('spindle'), 14, AXIS - 44, 'start'),
    path('w1', d`M69.5 ${AXIS + 46}V${AXIS + 56}`),
    quiet(faceWords(towardSpindle, t), 20, AXIS + 70, 'start'),
    quiet(faceWords(away, t), 114, AXIS - 54),
    quiet(t('you look'), 156, AXIS - 10),
    path('w2', d`M180 ${AXIS}H134m9 -5l-9 5l9 5`),
  ];
}

function fromFreeEnd(rotation: Rotation | undefined, t: Language): readonly SvgElement[] {
  const x = 300;
  const bobbin = [circle('open', x, AXIS, 42), rect('w2', x - 32, AXIS - 9, 64, 18, 9), circle('solid', x, AXIS, 2.5)];
  const captions = [
    bold(rotation ? t('spindle turns {0}', t(rotation)) : t('spindle: unknown'), x, 150),
    quiet(t('seen facing the spindle'), x, 166),
  ];
  if (rotation === undefined) return [...bobbin, ...captions];
  const way = rotation === 'clockwise' ? 1 : -1;
  const reach = 54 * Math.SQRT1_2;
  const [from, to] = [x - way * reach, x + way * reach];
  // The head points along the tangent at the arc's end, down and outward.
  const head = d`M${to + way * 5} ${AXIS - reach + 5}L${to - way * 9.5} ${AXIS - reach - 2.4}L${to - way * 2.4} ${AXIS - reach - 9.5}Z`;
  const arc = d`M${from} ${AXIS - reach}A54 54 0 0 ${way > 0 ? 1 : 0} ${to} ${AXIS - reach}`;
  return [...bobbin, path('w2', arc), path('solid', head), ...captions];
}

function fromStrings(rotation: Rotation | undefined, t: Language): readonly SvgElement[] {
  const outline: CoilOutline = {
    left: 462,
    right: 546,
    centre: AXIS,
    inner: 9,
    outer: outerHalfHeight(9, 2, 8),
    turns: 2,
    pitch: 8,
  };
  const end = 604;
  const captions = [
    bold(rotation ? t('wire lies {0}', t(rotation)) : t('wound: unknown'), 504, 150),
    quiet(t('seen from the strings'), 504, 166),
  ];
  const body = element('path', { class: 'body', 'fill-rule': 'evenodd', d: coilBody(outline) });
  const { path: turns, finish } = rotation
    ? spiral(outline, {
        clockwise: rotation === 'clockwise',
        finishAt: rotation === 'clockwise' ? 'top' : 'bottom',
        startX: end,
        finishX: end,
        finishRow: 50,
      })
    : closedTurns(outline, { finishAt: 'top', startX: end, finishX: end });
  return [
    body,
    path('w2', turns),
    ...(rotation ? woundArrow(outline.left, AXIS, outline.outer + 10, rotation === 'clockwise') : []),
    quiet(t('start'), end + 4, AXIS + 4, 'start'),
    quiet(t('finish'), end + 4, finish.y + 4, 'start'),
    ...captions,
  ];
}
