/** The sweeps of a spec, the files that they name, and what is wrong with those. */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Curve } from './curve.ts';
import type { FileModel, ModelProblem } from './model.ts';
import type { Pickup } from './pickup.ts';
import type { Stated } from './place.ts';
import type { Readings } from './readings.ts';
import type { CurveAt, Sweep } from './sweep.ts';

/** What is wrong with the file of a sweep, told at its name. `asked`: what its line says that it holds. */
export function curveProblem(
  { value: written, place }: Stated<string>,
  found: CurveAt,
  asked: Curve['quantity'],
): ModelProblem | undefined {
  switch (found.kind) {
    case 'curve':
      return found.quantity === asked
        ? undefined
        : {
            code: 'sweep/file',
            message:
              asked === 'impedance'
                ? `${written} holds a ratio of two voltages, and the line says that it is an impedance.`
                : `${written} holds an impedance, and the line says that it is a ratio of two voltages.`,
            action: 'Say what it was measured through: `impedance`, `through`, `over` or `excited over`.',
            place,
          };
    case 'complaint':
      return {
        code: 'sweep/file',
        message: `${written}${found.row === undefined ? '' : `, row ${found.row}`}: ${found.reason}`,
        action: 'Mend it there, or save the curve once more.',
        place,
      };
    case 'unreadable':
      return {
        code: 'sweep/file',
        message: `${written}: ${found.reason}.`,
        action: 'Save the curve as text (CSV).',
        place,
      };
    case 'missing': {
      const newText = found.meant && `"${written.slice(0, written.lastIndexOf('/') + 1)}${found.meant}"`;
      return {
        code: 'sweep/missing',
        message: `There is no curve ${written}.`,
        action: 'Correct the path, or add the file.',
        place,
        ...(newText && { fixes: [{ title: `Change to ${newText}`, edits: [{ place, newText }] }] }),
      };
    }
    case 'outside':
      return {
        code: 'use/outside',
        message: `${written} leaves the workspace, or is no path relative to this file; it is not opened.`,
        action: 'Name a file of the workspace by its path from here.',
        place,
      };
    default:
      return undefined;
  }
}

/** The files of curves that a file names, each at its place. */
export const curvesIn = ({ benches, pickups, instruments }: FileModel): readonly Stated<string>[] => [
  ...benches.flatMap(({ recorder }) => recorder.alone?.file ?? []),
  ...[...pickups, ...instruments].flatMap(({ readings }) =>
    readings.flatMap(({ sweeps }) => sweeps.map(({ file }) => file)),
  ),
];

/** The sweeps of a pickup, each with the block that it stands in, in the order of the blocks. */
export const sweepsOf = ({ readings }: Pickup): readonly { readonly sweep: Sweep; readonly block: Readings }[] =>
  readings.flatMap((block) => block.sweeps.map((sweep) => ({ sweep, block })));

/** The same pickup as if nothing had been swept. */
export const withoutSweeps = onceFor(
  (pickup: Pickup): Pickup => ({
    ...pickup,
    readings: pickup.readings.map((block) => ({ ...block, sweeps: [] })),
  }),
);
