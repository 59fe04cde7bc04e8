import { nearest } from '../../../grammar/src/nearest.ts';
import type { Position } from '../model/instrument.ts';
import type { SwitchSlot } from '../model/wiring.ts';
import type { Found } from './check.ts';
import { replaceAt } from './edits.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

/** A reading of a position that the selector does not have, a control that is connected in one, a position without a detent. */
export const nameUnknownPosition = defineInstrumentCheck({
  code: 'name/unknown',
  severity: 'error',
  yieldsTo: [],
  run: ({ instrument: { readings, controls, positions, positionsUnread, selectorPlace, switches }, switching }) => {
    const numbers = positions.map(({ key }) => key.value);
    if (numbers.length === 0 || positionsUnread) return [];
    const read = readings.flatMap(({ lines }) => lines.flatMap((line) => (line.kind === 'position' ? [line.key] : [])));
    const named = [...read, ...controls.flatMap(({ inPositions }) => inPositions ?? [])];
    const unknown = named
      .filter(({ value }) => !numbers.includes(value))
      .map(({ value, place }) => {
        const right = nearest(value, numbers);
        return {
          what: say`The selector has no position ${value}.`,
          action: say`Correct the number, or add the position to the selector.`,
          place,
          related: selectorPlace && { message: say`the positions`, place: selectorPlace },
          remedies: () =>
            right === undefined ? undefined : remedy(say`Change to \`${right}\``, replaceAt(place, right)),
        };
      });
    return [...unknown, ...(switching?.without ?? []).map((position) => withoutDetent(position, switches[0]))];
  },
});

/** A detent that is named and not there is told where it is named. */
function withoutDetent({ key, at }: Position, only: SwitchSlot | undefined): Found | undefined {
  if (at.length > 0 || !only?.part) return undefined;
  return {
    what: say`The switch ${only.name} has no detent for position ${key.value}: it has ${only.part.detents.length}.`,
    action: say`Say where it stands, as in \`, at ${only.name} ${only.part.detents[0]?.name ?? '1'}\`, or take another switch.`,
    place: key.place,
    related: { message: say`the switch`, place: only.place },
    subject: { position: key.value },
  };
}
