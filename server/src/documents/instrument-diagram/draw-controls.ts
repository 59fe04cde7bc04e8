/**
 * Volume, tone and bleed along one line: tones above it, volume and bleed below, the signal leaving at the wiper. A tone at the wiper
 * hangs below the line that leaves; a volume that is turned round is fed at its wiper.
 */
import type { Language } from '../../words/languages/language.ts';
import { part } from '../drawing-sheet.ts';
import { wordsAt } from '../labels.ts';
import { circle, d, path, type SvgNode } from '../svg.ts';
import { wrapText } from '../text-width.ts';
import { controlWords } from './control-pictures.ts';
import { isLowTone, stepHeights, stepsOf, WIPER_DROP } from './layout.ts';
import type { ControlColumns } from './metrics.ts';
import type { ControlPicture } from './schematic-picture.ts';
import {
  adjustment,
  earthAt,
  plates,
  standingResistor,
  trackEnd,
  weight,
  wiperHead,
  wiperHeadFromLeft,
} from './schematic-symbols.ts';

export interface ControlsDrawn {
  readonly nodes: readonly SvgNode[];
  /** Height of the line on which the signal leaves. */
  readonly outY: number;
  readonly bottom: number;
}

type Of<K extends ControlPicture['kind']> = Extract<ControlPicture, { kind: K }>;

/** `feed` is where the signal comes in on the line. `owner` names the pickup that the controls serve alone. */
export function drawControls(
  controls: readonly ControlPicture[],
  {
    columns,
    line,
    feed,
    live,
    owner,
    t,
  }: { columns: ControlColumns; line: number; feed: number; live: boolean; owner?: string; t: Language },
): ControlsDrawn {
  const of = <K extends ControlPicture['kind']>(kind: K) =>
    controls.filter((each): each is Of<K> => each.kind === kind);
  const [volumes, tones, steps] = [of('volume'), of('tone'), stepsOf(controls)];
  // Without a volume both ends of a bleed are one point.
  const bleeds = volumes.length === 0 ? [] : of('bleed');
  const id = (kind: string, index: number) =>
    `control:${owner === undefined ? '' : `${owner}.`}${kind}${index === 0 ? '' : ` ${index + 1}`}`;
  const stroke = weight(live);
  // Without a volume the jack hangs where the volume would stand; a pickup's own line goes straight on to the selector.
  const straightDown = steps.length === 0 && owner === undefined;
  const heights = stepHeights(controls);
  const outY = line + (straightDown ? WIPER_DROP : heights.out);
  const volumesOut = line + heights.lowTones;
  const roomOf = ({ kind }: Step) =>
    (bleeds.length > 0 && kind === 'volume' ? columns.bleed - 36 : columns.end - 24) - columns.volume;
  const nodes: SvgNode[] = [];
  const low = tones.map((tone) => isLowTone(tone, controls));
  const pitch = columns.toneRoom / Math.max(low.filter((is) => !is).length, 1);
  const toneX = tones.map((_, index) => {
    const before = low.slice(0, index).filter((is) => is === low[index]).length;
    return columns.tone + (low[index] ? before * LOW_PITCH + STEP_SHIFT * (steps.length - 1) : before * pitch);
  });
  const bleedX = bleeds.map((_, index) => columns.bleed + index * 44);
  const onLine = [
    ...(steps.length > 0 || straightDown ? [columns.volume] : [columns.end]),
    ...toneX.filter((_, index) => !low[index]),
    ...bleedX.flatMap((x, index) => [x, ...(isParallel(bleeds[index]) ? [x + 34] : [])]),
  ];
  nodes.push(path(stroke, d`M${Math.min(feed, ...onLine)} ${line}H${Math.max(feed, ...onLine)}`));
  tones.forEach((tone, index) => {
    const x = toneX[index] ?? columns.tone;
    nodes.push(
      part(
        id('tone', index),
        title(tone, t),
        ...(low[index]
          ? lowToneNodes(tone, x, volumesOut, live, columns, t)
          : toneNodes(tone, x, line, live, pitch, t)),
      ),
    );
  });
  steps.forEach((step, index) => {
    const place = {
      x: columns.volume + STEP_SHIFT * index,
      top: line + (heights.tops[index] ?? 0),
      room: roomOf(step) - STEP_SHIFT * index,
    };
    const before = steps[index - 1];
    const [name, draw] =
      step.kind === 'volume'
        ? ([id('volume', index), volumeNodes] as const)
        : ([id('blend', index - volumes.length), step.isTwoGang ? volumeNodes : blendNodes] as const);
    // The next one hangs from what leaves the one before, beside its earth.
    if (before !== undefined) {
      const left = place.x - STEP_SHIFT + leavesBeside(before);
      const leaves = line + (heights.tops[index - 1] ?? 0) + WIPER_DROP;
      nodes.push(path(stroke, d`M${left} ${leaves}H${place.x}V${place.top}`));
    }
    nodes.push(part(name, title(step, t), ...draw(step, place, live, t)));
  });
  bleeds.forEach((bleed, index) => {
    const x = bleedX[index] ?? columns.bleed;
    nodes.push(part(id('bleed', index), title(bleed, t), ...bleedNodes(bleed, x, line, volumesOut, live, t)));
  });
  if (straightDown) nodes.push(path(stroke, d`M${columns.volume} ${line}V${outY}H${columns.end}`));
  else if (steps.length === 0 && tones.length > 0) nodes.push(circle('solid', feed, line, live ? 4.5 : 3.5));
  // What hangs on the volumes' way out hangs before a blend.
  const beforeBlend = [
    ...toneX.filter((_, index) => low[index]),
    ...bleedX.flatMap((x, index) => [x, x + (isParallel(bleeds[index]) ? 34 : 0)]),
  ];
  if (volumes.length < steps.length && volumes.length > 0 && beforeBlend.length > 0)
    nodes.push(
      path(stroke, d`M${columns.volume + STEP_SHIFT * volumes.length} ${volumesOut}H${Math.max(...beforeBlend)}`),
    );
  const last = steps.at(-1);
  if (last !== undefined)
    nodes.push(
      path(stroke, d`M${columns.volume + STEP_SHIFT * (steps.length - 1) + leavesBeside(last)} ${outY}H${columns.end}`),
    );
  // Where three lines meet.
  const inner = onLine.filter((x) => x > Math.min(feed, ...onLine) && x < Math.max(feed, ...onLine));
  nodes.push(...[...new Set(inner)].map((x) => circle('solid', x, line, live ? 4.5 : 3.5)));
  return {
    nodes,
    outY,
    bottom: steps.length > 0 ? line + heights.bottom : outY + 44,
  };
}

type Step = Of<'volume'> | Of<'blend'>;

function title(control: ControlPicture, t: Language): string {
  const words = controlWords(control, t);
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}

/** A track of a blend of two is wired as a volume that is turned round. */
const isFedAtWiper = (step: Step): boolean => (step.kind === 'volume' ? step.isTurnedRound : step.isTwoGang);

/** How far beside the middle of the track the signal leaves it. */
function leavesBeside(step: Step): number {
  if (isFedAtWiper(step)) return BESIDE_TRACK;
  return step.kind === 'volume' ? 11 : 0;
}

const isParallel = (bleed: Of<'bleed'> | undefined): boolean =>
  bleed?.resistor !== undefined && bleed.joined === 'parallel';

/** From one step to the next, past the earth of the one before. */
const STEP_SHIFT = 48;

/** Between tones that hang on the line which leaves. */
const LOW_PITCH = 120;

/** From this pitch on the capacitor's value has a place of its own beside it. */
const ROOMY = 150;

function toneNodes(
  { track, capacitor, isNoLoad }: Of<'tone'>,
  x: number,
  line: number,
  live: boolean,
  pitch: number,
  t: Language,
): readonly SvgNode[] {
  const stroke = weight(live);
  const top = line - 80;
  const capacitorAt = top - 29;
  const roof = top - 56;
  const earthX = x + Math.min(56, pitch - 24);
  const wordsX = x + 30;
  const room = Math.max(pitch - 58, 30);
  const words = pitch >= ROOMY ? [track] : [capacitor, track];
  const lines = words.flatMap((each) => wrapText(each, room, { size: 12 }).slice(0, 2));
  return [
    path(
      stroke,
      d`M${x} ${line}V${top + 56}M${x} ${top}V${capacitorAt + 4.5}M${x} ${capacitorAt - 4.5}V${roof}H${earthX}V${roof + 4}`,
    ),
    standingResistor(x, top, live),
    ...adjustment(x, top + 28),
    ...(isNoLoad ? trackEnd(x, top + 10, live) : []),
    plates(x, capacitorAt, live),
    earthAt(earthX, roof + 4, live),
    wordsAt(t('tone'), wordsX, top + 26, { size: 14 }),
    ...lines.map((text, index) => wordsAt(text, wordsX, top + 42 + 15 * index, { quiet: true })),
    ...(pitch >= ROOMY ? [wordsAt(capacitor, x - 22, capacitorAt + 4, { bold: true, anchor: 'end' })] : []),
  ];
}

/** The same hanging down from the line that leaves the volume, its words beside the track. */
function lowToneNodes(
  { track, capacitor, isNoLoad }: Of<'tone'>,
  x: number,
  line: number,
  live: boolean,
  { end }: ControlColumns,
  t: Language,
): readonly SvgNode[] {
  const top = line + 24;
  const capacitorAt = top + 80;
  const lines = [capacitor, ...wrapText(track, Math.max(end - x - 8, 100), { size: 12 }).slice(0, 3)];
  return [
    circle('solid', x, line, live ? 4.5 : 3.5),
    path(weight(live), d`M${x} ${line}V${top}M${x} ${top + 56}V${capacitorAt - 4.5}M${x} ${capacitorAt + 4.5}v20`),
    standingResistor(x, top, live),
    ...adjustment(x, top + 28),
    ...(isNoLoad ? trackEnd(x, top + 46, live) : []),
    plates(x, capacitorAt, live),
    earthAt(x, capacitorAt + 24, live),
    wordsAt(t('tone'), x + 30, top + 26, { size: 14 }),
    ...lines.map((text, index) => wordsAt(text, x + 30, top + 42 + 15 * index, { quiet: true })),
  ];
}

/** Where the way out of a track's top runs down beside it. */
const BESIDE_TRACK = 14;

interface StepPlace {
  readonly x: number;
  readonly top: number;
  /** For its words. */
  readonly room: number;
}

function volumeNodes(step: Step, { x, top: line, room }: StepPlace, live: boolean, t: Language): readonly SvgNode[] {
  const stroke = weight(live);
  const isTurnedRound = isFedAtWiper(step);
  const wiper = line + WIPER_DROP;
  const wires = isTurnedRound
    ? [
        path(stroke, d`M${x} ${line}v14h-22v58h12M${x} ${line + 44}v-16h${BESIDE_TRACK}V${wiper}M${x} ${line + 100}v6`),
        wiperHeadFromLeft(x - 10, line + 72),
      ]
    : [path(stroke, d`M${x} ${line}v44M${x} ${line + 100}v6`), wiperHead(x + 10, wiper)];
  return [
    ...wires,
    standingResistor(x, line + 44, live),
    earthAt(x, line + 106, live),
    ...stepWords(step, x + 19, line + (isTurnedRound ? 48 : 56), room - 19, t),
  ];
}

/** What lies between one end of a shared track and its wiper: a resistor in the way of the signal. */
function blendNodes(step: Step, { x, top: line, room }: StepPlace, live: boolean, t: Language): readonly SvgNode[] {
  const top = line + 18;
  return [
    path(weight(live), d`M${x} ${line}V${top}M${x} ${top + 56}V${line + WIPER_DROP}`),
    standingResistor(x, top, live),
    ...adjustment(x, top + 28),
    ...stepWords(step, x + 30, top + 20, room - 30, t),
  ];
}

const stepWords = ({ kind, track }: Step, x: number, y: number, room: number, t: Language): readonly SvgNode[] => [
  wordsAt(t(kind), x, y, { size: 14 }),
  ...wrapText(track, room, { size: 12 })
    .slice(0, 2)
    .map((text, row) => wordsAt(text, x, y + 16 + 14 * row, { quiet: true })),
];

function bleedNodes(
  { capacitor, resistor, joined }: Of<'bleed'>,
  x: number,
  top: number,
  bottom: number,
  live: boolean,
  t: Language,
): readonly SvgNode[] {
  const stroke = weight(live);
  const dots = [circle('solid', x, bottom, live ? 4.5 : 3.5)];
  if (resistor === undefined || joined === 'parallel') {
    const middle = (top + bottom) / 2;
    const beside =
      resistor === undefined
        ? []
        : [
            path(stroke, d`M${x + 34} ${top}V${middle - 28}M${x + 34} ${middle + 28}V${bottom}`),
            standingResistor(x + 34, middle - 28, live),
            circle('solid', x + 34, bottom, live ? 4.5 : 3.5),
          ];
    const wordsX = x + (resistor === undefined ? 22 : 50);
    return [
      path(stroke, d`M${x} ${top}V${middle - 4.5}M${x} ${middle + 4.5}V${bottom}`),
      plates(x, middle, live),
      ...beside,
      ...dots,
      ...bleedWords(capacitor, resistor, { x: wordsX, middle }, t),
    ];
  }
  const resistorTop = bottom - 66;
  return [
    path(stroke, d`M${x} ${top}V${top + 8}M${x} ${top + 17}V${resistorTop}M${x} ${resistorTop + 56}V${bottom}`),
    plates(x, top + 12.5, live),
    standingResistor(x, resistorTop, live),
    ...dots,
    ...bleedWords(capacitor, resistor, { x: x + 22, middle: (top + bottom) / 2 + 4 }, t),
  ];
}

function bleedWords(
  capacitor: string,
  resistor: string | undefined,
  { x, middle }: { readonly x: number; readonly middle: number },
  t: Language,
): readonly SvgNode[] {
  const lines = [t('bleed'), capacitor, ...(resistor === undefined ? [] : [resistor])];
  return lines.map((text, index) => wordsAt(text, x, middle - 10 + 15 * index, { quiet: index > 0 }));
}
