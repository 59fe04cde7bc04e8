import type { Dimension } from '../../../../grammar/values/unit-table.ts';
import type { Control, Instrument, Slot } from '../../model/instrument.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import { printValue } from '../../quantities/print.ts';
import { wiringWords } from '../../words/control-words.ts';
import type { ControlPicture } from './schematic-picture.ts';
import type { Shop } from './shop.ts';

export const masters = ({ controls }: Instrument): readonly ControlPicture[] =>
  controls.filter(({ forSlot }) => forSlot === undefined).map(controlPicture);

export function ownControls(
  { instrument }: Shop,
  { name }: Slot,
  { hot }: PickupNetlist,
  sounding: ReadonlySet<string>,
) {
  const controls = instrument.controls.filter(({ forSlot }) => forSlot?.value === name).map(controlPicture);
  const live = [...sounding].some((id) => id.startsWith(`${name}.`));
  return controls.length === 0 || hot === undefined ? undefined : { controls, live };
}

function controlPicture(control: Control): ControlPicture {
  switch (control.kind) {
    case 'volume':
      return {
        kind: 'volume',
        track: trackText(control),
        isTurnedRound: control.wiperToPickup,
      };
    case 'tone':
      return {
        kind: 'tone',
        track: trackText(control),
        capacitor: valueText(control.capacitor.si, 'capacitance'),
        isAtWiper: control.atWiper,
        isNoLoad: control.noLoad,
      };
    case 'blend':
      return { kind: 'blend', track: `with ${control.other.value}, ${trackText(control)}`, isTwoGang: control.twoGang };
    case 'bleed':
      return {
        kind: 'bleed',
        capacitor: valueText(control.capacitor.si, 'capacitance'),
        resistor: control.resistor && ohms(control.resistor.si),
        joined: control.joined,
      };
  }
}

/** A control in words: `tone, 500 kΩ audio, no-load, with 22 nF`. */
export function controlWords(control: ControlPicture): string {
  if (control.kind !== 'bleed')
    return `${control.kind}, ${control.track}${control.kind === 'tone' ? `, with ${control.capacitor}` : ''}`;
  const { capacitor, resistor, joined } = control;
  return `bleed, ${capacitor}${resistor === undefined ? '' : ` in ${joined} with ${resistor}`}`;
}

/** `500 kΩ audio, no-load, in position 1, 2` */
function trackText(control: Extract<Control, { kind: 'volume' | 'tone' | 'blend' }>): string {
  const { track, taper, inPositions } = control;
  const where = inPositions ? [`in position ${inPositions.map(({ value }) => value).join(', ')}`] : [];
  return [`${ohms(track.si)} ${taper.replace('-', ' ')}`, ...wiringWords(control), ...where].join(', ');
}

export const ohms = (value: number): string => valueText(value, 'resistance');

const valueText = (value: number, dimension: Dimension): string => printValue({ value, dimension });
