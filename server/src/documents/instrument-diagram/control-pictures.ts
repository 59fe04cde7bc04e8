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
      };
    case 'bleed':
      return {
        kind: 'bleed',
        capacitor: valueText(control.capacitor.si, 'capacitance'),
        resistor: control.resistor && ohms(control.resistor.si),
        joined: control.joined,
      };
  }
}

/** `500 kΩ audio, no-load, in position 1, 2` */
function trackText(control: Extract<Control, { kind: 'volume' | 'tone' }>): string {
  const { track, taper, inPositions } = control;
  const where = inPositions ? [`in position ${inPositions.map(({ value }) => value).join(', ')}`] : [];
  return [`${ohms(track.si)} ${taper.replace('-', ' ')}`, ...wiringWords(control), ...where].join(', ');
}

export const ohms = (value: number): string => valueText(value, 'resistance');

const valueText = (value: number, dimension: Dimension): string => printValue({ value, dimension });
