import type { Analysis } from '../analysis/analysis-types.ts';
import { insertReadings } from './insert-lines.ts';
import { ownPickups } from './own-blocks.ts';
import { locateEdits, type TextEdit } from './text-edits.ts';

export interface SweepLine {
  /** Of the curve, as it is written in the spec. */
  readonly path: string;
  /** As `over 10 kohm`. */
  readonly setUp: string;
}

/** A line that names a curve, in the newest readings of the pickup at the offset, else of the last one; none where it would not be read. */
export function sweepLine(
  analysis: Analysis,
  offset: number,
  { path, setUp }: SweepLine,
): readonly TextEdit[] | undefined {
  const own = ownPickups(analysis);
  const around = own.find(({ placed }) => placed.offset <= offset && offset < placed.offset + placed.chunk.text.length);
  const pickup = around ?? own.at(-1);
  const written = `"${path.replace(/[\\"]/g, '\\$&')}"`;
  const edit = pickup && insertReadings(pickup, [`sweep hot to ground ${written} ${setUp}`]);
  const after = edit && analysis.edited([edit]);
  // What the curve itself holds is told at the line.
  const wrong = ({ code }: { readonly code: string }) => !code.startsWith('sweep/') && !code.startsWith('use/');
  const isRead = after?.findings.filter(wrong).length === analysis.findings.filter(wrong).length;
  return edit && isRead ? locateEdits(analysis, [edit]) : undefined;
}
