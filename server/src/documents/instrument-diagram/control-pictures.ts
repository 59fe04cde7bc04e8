import type { Dimension } from '../../../../grammar/values/unit-table.ts';
import type { Control, Slot } from '../../model/instrument.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import { isPlaced, leavesByWire } from '../../model/soldered.ts';
import { printValue } from '../../quantities/print.ts';
import { wiringWords } from '../../words/control-words.ts';
import type { Language } from '../../words/languages/language.ts';
import type { ControlPicture } from './schematic-picture.ts';
import type { Shop } from './shop.ts';

/** Those between hot and the jack that the wiring leaves where they usually stand. */
export const masters = ({ instrument, t }: Shop): readonly ControlPicture[] =>
  leavesByWire(instrument)
    ? []
    : instrument.controls
        .filter((each) => each.forSlot === undefined && !isPlaced(each, instrument.wiring))
        .map((each) => controlPicture(each, t));

/** Of a control by its lugs. */
export function controlTexts(control: Control, t: Language): { readonly track: string; readonly capacitor?: string } {
  const picture = controlPicture(control, t);
  const track = picture.kind === 'bleed' ? '' : picture.track;
  return picture.kind === 'tone' ? { track, capacitor: picture.capacitor } : { track };
}

export function ownControls(
  { instrument, t }: Shop,
  { name }: Slot,
  { hot }: PickupNetlist,
  sounding: ReadonlySet<string>,
) {
  const controls = instrument.controls
    .filter((each) => each.forSlot?.value === name && !isPlaced(each, instrument.wiring))
    .map((each) => controlPicture(each, t));
  const live = [...sounding].some((id) => id.startsWith(`${name}.`));
  return controls.length === 0 || hot === undefined ? undefined : { controls, live };
}

function controlPicture(control: Control, t: Language): ControlPicture {
  switch (control.kind) {
    case 'volume':
      return {
        kind: 'volume',
        track: trackText(control, t),
        isTurnedRound: control.wiperToPickup,
      };
    case 'tone':
      return {
        kind: 'tone',
        track: trackText(control, t),
        capacitor: valueText(control.capacitor.si, 'capacitance', t),
        isAtWiper: control.atWiper,
        isNoLoad: control.noLoad,
      };
    case 'blend':
      return {
        kind: 'blend',
        track: `${t('with {0}', control.other.value)}, ${trackText(control, t)}`,
        isTwoGang: control.twoGang,
      };
    case 'bleed':
      return {
        kind: 'bleed',
        capacitor: valueText(control.capacitor.si, 'capacitance', t),
        resistor: control.resistor && ohms(control.resistor.si, t),
        joined: control.joined,
      };
  }
}

/** A control in words: `tone, 500 kΩ audio, no-load, with 22 nF`. */
export function controlWords(control: ControlPicture, t: Language): string {
  if (control.kind !== 'bleed')
    return `${t(control.kind)}, ${control.track}${control.kind === 'tone' ? `, ${t('with {0}', control.capacitor)}` : ''}`;
  const { capacitor, resistor, joined } = control;
  const value =
    resistor === undefined
      ? capacitor
      : t(joined === 'series' ? '{0} in series with {1}' : '{0} in parallel with {1}', capacitor, resistor);
  return `${t('bleed')}, ${value}`;
}

/** `500 kΩ audio, no-load, in position 1, 2` */
function trackText(control: Extract<Control, { kind: 'volume' | 'tone' | 'blend' }>, t: Language): string {
  const { track, taper, inPositions } = control;
  const where = inPositions ? [t('in position {0}', inPositions.map(({ value }) => value).join(', '))] : [];
  const wiring = wiringWords(control).map((each) => t(each));
  return [`${ohms(track.si, t)} ${t.word(taper).replace('-', ' ')}`, ...wiring, ...where].join(', ');
}

export const ohms = (value: number, t: Language): string => valueText(value, 'resistance', t);

const valueText = (value: number, dimension: Dimension, t: Language): string =>
  printValue({ value, dimension, style: t.numbers });
