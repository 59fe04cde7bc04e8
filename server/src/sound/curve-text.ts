/** A recorded curve as a file that `sweep` in a spec names: columns with their units, what it was made of in comments. */
import type { RecordedCurve } from './recorded-curve.ts';

export function curveText(
  { points, isShapeOnly }: RecordedCurve,
  files: readonly string[],
  lines: readonly string[],
): string {
  const columns = ['frequency Hz', 'level dB', ...(isShapeOnly ? [] : ['phase deg']), 'level sd dB'];
  const rows = points.map(({ hz, levelDb, phaseDeg, levelSdDb }) =>
    [hz.toFixed(3), levelDb.toFixed(4), ...(isShapeOnly ? [] : [phaseDeg.toFixed(3)]), levelSdDb.toFixed(4)].join(','),
  );
  // A name may hold a line's end; a comment ends there.
  const comments = [`made of ${files.join(' and ')}`, ...lines].map((each) => `# ${each.replaceAll(/\p{Cc}+/gu, ' ')}`);
  return [...comments, columns.join(','), ...rows, ''].join('\n');
}
