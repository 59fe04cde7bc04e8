/** Heights of the schematic: pickups in file order, each coil from hot down to ground. They do not depend on the live position. */
import type { Metrics } from './metrics.ts';
import type { CoilBlock, ControlPicture, Exit, PickupBlock, Schematic } from './schematic-picture.ts';
import { COIL_LENGTH } from './schematic-symbols.ts';

export interface CoilPlace {
  readonly coil: CoilBlock;
  readonly top: number;
}

/** A height at which a node is led out. */
export interface Row {
  readonly node: string;
  readonly y: number;
  /** Under the coil, where an earth may hang. */
  readonly foot: boolean;
  /** The first row of its node; the others are joined to it. */
  readonly main: boolean;
}

export interface PickupPlace {
  readonly block: PickupBlock;
  /** Where its name stands. */
  readonly y: number;
  readonly coils: readonly CoilPlace[];
  readonly rows: readonly Row[];
  /** Height of the line that feeds its own controls. */
  readonly ownLine: number | undefined;
}

export interface Layout {
  readonly pickups: readonly PickupPlace[];
  readonly bottom: number;
}

/** Between two coils that share a node, and between two that do not. */
const LINKED_GAP = 20;
const APART_GAP = 60;
const LEAD = 10;
const BETWEEN_PICKUPS = 62;
/** A second contact of a row stands so much lower. */
export const SECOND_CONTACT = 40;
export const TONE_HEIGHT = 140;
export const WIPER_DROP = 92;
/** From the line that leaves down to the end of a volume's earth, and of a tone's that hangs on the wiper. */
const VOLUME_DEPTH = 42;
const LOW_TONE_DEPTH = 154;

/** `ownBeside`: a pickup's own controls stand beside its coils. */
export function layOut({ pickups, keys }: Schematic, top: number, ownBeside: boolean): Layout {
  // Where each position is drawn by itself, a link of one is a gap in another: all coils keep the wider distance.
  const always = keys.length === 0;
  let y = top;
  const places = pickups.map((block): PickupPlace => {
    const place = pickupPlace(block, y, { always, ownBeside });
    y = bottomOf(place) + BETWEEN_PICKUPS;
    return place;
  });
  return { pickups: places, bottom: y - BETWEEN_PICKUPS + 30 };
}

function pickupPlace(
  block: PickupBlock,
  y: number,
  { always, ownBeside }: { readonly always: boolean; readonly ownBeside: boolean },
): PickupPlace {
  const coils: CoilPlace[] = [];
  const rows: Row[] = [];
  const seen = new Set<string>();
  const addRow = (node: string, at: number, foot: boolean) => {
    rows.push({ node, y: at, foot, main: !seen.has(node) });
    seen.add(node);
  };
  let at = y + LEAD;
  block.coils.forEach((coil, index) => {
    const before = block.coils[index - 1];
    if (before?.bottom !== coil.top) addRow(coil.top, at - LEAD, false);
    coils.push({ coil, top: at });
    const next = block.coils[index + 1];
    addRow(coil.bottom, at + COIL_LENGTH + LEAD, true);
    at += COIL_LENGTH + (next !== undefined && next.top === coil.bottom && !always ? LINKED_GAP : APART_GAP);
  });
  const end = block.coils.length === 0 ? y + 30 : at - APART_GAP + LEAD;
  const own = block.own;
  const ownTop = ownBeside ? y : end + 40;
  const ownLine = own === undefined ? undefined : ownTop + (hasHighTone(own.controls) ? TONE_HEIGHT : 0);
  if (own !== undefined && ownLine !== undefined)
    rows.push({ node: own.to, y: ownLine + stepHeights(own.controls).out, foot: false, main: true });
  return { block, y, coils, rows, ownLine };
}

/** What the signal goes through, each hanging from the one before: volumes, then blends. */
export const stepsOf = (controls: readonly ControlPicture[]) => {
  const of = <K extends 'volume' | 'blend'>(kind: K) =>
    controls.filter((each): each is Extract<ControlPicture, { kind: K }> => each.kind === kind);
  return [...of('volume'), ...of('blend')];
};

const hasVolume = (controls: readonly ControlPicture[]): boolean => controls.some(({ kind }) => kind === 'volume');

/** Hangs below, on the line that leaves the volume; without a volume there is one line only. */
export const isLowTone = (control: ControlPicture, controls: readonly ControlPicture[]): boolean =>
  control.kind === 'tone' && control.isAtWiper && hasVolume(controls);

export const hasHighTone = (controls: readonly ControlPicture[]): boolean =>
  controls.some((each) => each.kind === 'tone' && !isLowTone(each, controls));

export interface StepHeights {
  /** Below the line that feeds the controls, of each step. */
  readonly tops: readonly number[];
  /** Where the tones on the wiper of the volumes hang. */
  readonly lowTones: number;
  /** Where the signal leaves. */
  readonly out: number;
  readonly bottom: number;
}

/** Tones on the wiper of a volume hang before a blend, which then stands below them. */
export function stepHeights(controls: readonly ControlPicture[]): StepHeights {
  const steps = stepsOf(controls);
  const lowTones = WIPER_DROP * steps.filter(({ kind }) => kind === 'volume').length;
  const hasLow = controls.some((each) => isLowTone(each, controls));
  const hasBlend = steps.some(({ kind }) => kind === 'blend');
  const gap = (index: number) => (hasLow && WIPER_DROP * index >= lowTones ? LOW_TONE_DEPTH : 0);
  const tops = steps.map((_, index) => WIPER_DROP * index + gap(index));
  const out = WIPER_DROP * steps.length + (hasBlend && hasLow ? LOW_TONE_DEPTH : 0);
  return { tops, lowTones, out, bottom: Math.max(out + VOLUME_DEPTH, hasLow ? lowTones + LOW_TONE_DEPTH : 0) };
}

function bottomOf({ y, coils, ownLine, block }: PickupPlace): number {
  const last = coils.at(-1);
  const coilEnd = last === undefined ? y + 20 : last.top + COIL_LENGTH + 2;
  if (ownLine === undefined) return coilEnd;
  const own = block.own?.controls ?? [];
  return Math.max(coilEnd, ownLine + (stepsOf(own).length > 0 ? stepHeights(own).bottom : 20));
}

export const contactsIn = (exits: readonly Exit[]): readonly Exit[] =>
  exits.filter(({ contact }) => contact !== undefined);

export const columnsRight = (
  { cellsRight, cell, cellsLeft }: Metrics,
  count: number,
): { readonly left: number; readonly pitch: number } => {
  const pitch = Math.min(cell, (cellsRight - cellsLeft) / Math.max(count, 1));
  return { left: cellsRight - pitch * count + (pitch - Math.min(12, pitch - 2)), pitch };
};
