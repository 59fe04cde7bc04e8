/**
 * Volume, tone and bleed along one line: tones above it, volume and bleed below, the signal leaving at the wiper. A tone at the wiper
 * hangs below the line that leaves; a volume that is turned round is fed at its wiper.
 */
import { part } from '../drawing-sheet.ts';
import { wordsAt } from '../labels.ts';
import { circle, d, path, type SvgNode } from '../svg.ts';
import { wrapText } from '../text-width.ts';
import { depthBelow, isLowTone, WIPER_DROP } from './layout.ts';
import type { ControlColumns } from './metrics.ts';
import type { ControlPicture } from './schematic-picture.ts';
import {
  adjustment,
  earthAt,
  plates,
  standingResistor,
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
  }: { columns: ControlColumns; line: number; feed: number; live: boolean; owner?: string },
): ControlsDrawn {
  const of = <K extends ControlPicture['kind']>(kind: K) =>
    controls.filter((each): each is Of<K> => each.kind === kind);
  const [volumes, tones] = [of('volume'), of('tone')];
  // Without a volume both ends of a bleed are one point.
  const bleeds = volumes.length === 0 ? [] : of('bleed');
  const id = (kind: string, index: number) =>
    `control:${owner === undefined ? '' : `${owner}.`}${kind}${index === 0 ? '' : ` ${index + 1}`}`;
  const stroke = weight(live);
  // Without a volume the jack hangs where the volume would stand; a pickup's own line goes straight on to the selector.
  const straightDown = volumes.length === 0 && owner === undefined;
  const outY = line + WIPER_DROP * (straightDown ? 1 : volumes.length);
  const room = (bleeds.length > 0 ? columns.bleed - 36 : columns.end - 24) - columns.volume;
  const nodes: SvgNode[] = [];
  const low = tones.map((tone) => isLowTone(tone, controls));
  const pitch = columns.toneRoom / Math.max(low.filter((is) => !is).length, 1);
  const toneX = tones.map((_, index) => {
    const before = low.slice(0, index).filter((is) => is === low[index]).length;
    return columns.tone + before * (low[index] ? LOW_PITCH : pitch);
  });
  const bleedX = bleeds.map((_, index) => columns.bleed + index * 44);
  const onLine = [
    ...(volumes.length > 0 || straightDown ? [columns.volume] : [columns.end]),
    ...toneX.filter((_, index) => !low[index]),
    ...bleedX.flatMap((x, index) => [x, ...(isParallel(bleeds[index]) ? [x + 34] : [])]),
  ];
  nodes.push(path(stroke, d`M${Math.min(feed, ...onLine)} ${line}H${Math.max(feed, ...onLine)}`));
  tones.forEach((tone, index) => {
    const x = toneX[index] ?? columns.tone;
    nodes.push(
      part(
        id('tone', index),
        `Tone, ${tone.track}, with ${tone.capacitor}`,
        ...(low[index] ? lowToneNodes(tone, x, outY, live, columns) : toneNodes(tone, x, line, live, pitch)),
      ),
    );
  });
  volumes.forEach((volume, index) => {
    const top = line + WIPER_DROP * index;
    nodes.push(
      part(id('volume', index), `Volume, ${volume.track}`, ...volumeNodes(volume, columns, top, live, { index, room })),
    );
  });
  bleeds.forEach((bleed, index) => {
    const x = bleedX[index] ?? columns.bleed;
    const words = `Bleed, ${bleed.capacitor}${bleed.resistor === undefined ? '' : ` in ${bleed.joined} with ${bleed.resistor}`}`;
    nodes.push(part(id('bleed', index), words, ...bleedNodes(bleed, x, line, outY, live)));
  });
  if (straightDown) nodes.push(path(stroke, d`M${columns.volume} ${line}V${outY}H${columns.end}`));
  else if (volumes.length === 0 && tones.length > 0) nodes.push(circle('solid', feed, line, live ? 4.5 : 3.5));
  if (volumes.length > 0)
    nodes.push(
      path(stroke, d`M${columns.volume + (volumes.at(-1)?.isTurnedRound ? BESIDE_TRACK : 11)} ${outY}H${columns.end}`),
    );
  // Where three lines meet.
  const inner = onLine.filter((x) => x > Math.min(feed, ...onLine) && x < Math.max(feed, ...onLine));
  nodes.push(...[...new Set(inner)].map((x) => circle('solid', x, line, live ? 4.5 : 3.5)));
  return {
    nodes,
    outY,
    bottom: volumes.length > 0 ? line + depthBelow(controls) + WIPER_DROP * (volumes.length - 1) : outY + 44,
  };
}

const isParallel = (bleed: Of<'bleed'> | undefined): boolean =>
  bleed?.resistor !== undefined && bleed.joined === 'parallel';

/** Between tones that hang on the line which leaves. */
const LOW_PITCH = 120;

/** From this pitch on the capacitor's value has a place of its own beside it. */
const ROOMY = 150;

function toneNodes(
  { track, capacitor }: Of<'tone'>,
  x: number,
  line: number,
  live: boolean,
  pitch: number,
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
    plates(x, capacitorAt, live),
    earthAt(earthX, roof + 4, live),
    wordsAt('tone', wordsX, top + 26, { size: 14 }),
    ...lines.map((text, index) => wordsAt(text, wordsX, top + 42 + 15 * index, { quiet: true })),
    ...(pitch >= ROOMY ? [wordsAt(capacitor, x - 22, capacitorAt + 4, { bold: true, anchor: 'end' })] : []),
  ];
}

/** The same hanging down from the line that leaves the volume, its words beside the track. */
function lowToneNodes(
  { track, capacitor }: Of<'tone'>,
  x: number,
  line: number,
  live: boolean,
  { end }: ControlColumns,
): readonly SvgNode[] {
  const top = line + 24;
  const capacitorAt = top + 80;
  const lines = [capacitor, ...wrapText(track, Math.max(end - x - 8, 100), { size: 12 }).slice(0, 3)];
  return [
    circle('solid', x, line, live ? 4.5 : 3.5),
    path(weight(live), d`M${x} ${line}V${top}M${x} ${top + 56}V${capacitorAt - 4.5}M${x} ${capacitorAt + 4.5}v20`),
    standingResistor(x, top, live),
    ...adjustment(x, top + 28),
    plates(x, capacitorAt, live),
    earthAt(x, capacitorAt + 24, live),
    wordsAt('tone', x + 30, top + 26, { size: 14 }),
    ...lines.map((text, index) => wordsAt(text, x + 30, top + 42 + 15 * index, { quiet: true })),
  ];
}

/** Where the way out of a track's top runs down beside it. */
const BESIDE_TRACK = 14;

function volumeNodes(
  { track, isTurnedRound }: Of<'volume'>,
  { volume: x }: ControlColumns,
  line: number,
  live: boolean,
  { index, room }: { index: number; room: number },
): readonly SvgNode[] {
  const stroke = weight(live);
  const wiper = line + WIPER_DROP;
  const wires = isTurnedRound
    ? [
        path(stroke, d`M${x} ${line}v14h-22v58h12M${x} ${line + 44}v-16h${BESIDE_TRACK}V${wiper}M${x} ${line + 100}v6`),
        wiperHeadFromLeft(x - 10, line + 72),
      ]
    : [path(stroke, d`M${x} ${line}v44M${x} ${line + 100}v6`), wiperHead(x + 10, wiper)];
  const wordsX = x + 19;
  const wordsY = line + (isTurnedRound ? 48 : 56);
  return [
    ...wires,
    standingResistor(x, line + 44, live),
    earthAt(x, line + 106, live),
    // A second volume hangs from the wiper of the first.
    ...(index === 0 ? [] : [path(stroke, d`M${x} ${line}h11`)]),
    wordsAt('volume', wordsX, wordsY, { size: 14 }),
    ...wrapText(track, room - (wordsX - x), { size: 12 })
      .slice(0, 2)
      .map((text, row) => wordsAt(text, wordsX, wordsY + 16 + 14 * row, { quiet: true })),
  ];
}

function bleedNodes(
  { capacitor, resistor, joined }: Of<'bleed'>,
  x: number,
  top: number,
  bottom: number,
  live: boolean,
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
      ...bleedWords(capacitor, resistor, wordsX, middle),
    ];
  }
  const resistorTop = bottom - 66;
  return [
    path(stroke, d`M${x} ${top}V${top + 8}M${x} ${top + 17}V${resistorTop}M${x} ${resistorTop + 56}V${bottom}`),
    plates(x, top + 12.5, live),
    standingResistor(x, resistorTop, live),
    ...dots,
    ...bleedWords(capacitor, resistor, x + 22, (top + bottom) / 2 + 4),
  ];
}

function bleedWords(capacitor: string, resistor: string | undefined, x: number, middle: number): readonly SvgNode[] {
  const lines = ['bleed', capacitor, ...(resistor === undefined ? [] : [resistor])];
  return lines.map((text, index) => wordsAt(text, x, middle - 10 + 15 * index, { quiet: index > 0 }));
}
