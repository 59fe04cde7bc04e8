/** Lines for the sweep that would tell what one could not: their file is still to be recorded, and is asked for until it is there. */
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Edit, Finding } from '../checks/finding.ts';
import { sweepPlace } from '../checks/sweep-place.ts';
import { untoldOf } from '../estimates/sweep-advice.ts';
import type { SweptCoil } from '../estimates/sweeps-measured.ts';
import { sweptOf } from '../estimates/sweeps-together.ts';
import { samePlace } from '../model/place.ts';
import type { QuickFix } from './code-actions.ts';
import { insertLines, insertReadings } from './insert-lines.ts';
import { type OwnPickup, ownPickups } from './own-blocks.ts';
import { locateEdits } from './text-edits.ts';

const CODE = 'sweep/too-weak';

export function sweepFixes(finding: Finding, analysis: Analysis): readonly QuickFix[] {
  const own = finding.code === CODE ? ownPickups(analysis).find(isOf(finding)) : undefined;
  const swept = own && sweptAt(finding, own, analysis);
  if (!own || !swept) return [];
  return linesFor(swept, own).flatMap(({ line, file, isOfBench }) => {
    const edit = (written: string) =>
      isOfBench ? insertInBench(analysis, own, written) : insertReadings(own, [written]);
    const made = edit(line);
    const edits = made && isRead(made, analysis) ? locateEdits(analysis, [made]) : undefined;
    const snippet = edit(line.replace(file, `\${1:${file}}`))?.newText;
    if (!edits || snippet === undefined) return [];
    return [
      {
        title: `Insert the sweep that would tell it: ${line}`,
        preferred: false,
        cautions: [],
        edits: edits.map((each) => ({ ...each, snippet })),
        finding,
      },
    ];
  });
}

const isOf =
  ({ subject }: Finding) =>
  ({ analysed: { pickup } }: OwnPickup): boolean =>
    pickup.name === subject.pickup;

function sweptAt({ place }: Finding, { analysed }: OwnPickup, { bench }: Analysis): SweptCoil | undefined {
  return sweptOf(analysed.netlist, bench).find(
    (each): each is SweptCoil => each.kind === 'coil' && samePlace(sweepPlace(each), place),
  );
}

interface SweepLine {
  readonly line: string;
  readonly file: string;
  readonly isOfBench: boolean;
}

/** The recorder alone first, which tells it of every pickup; of an exciter the same once more with a capacitor. */
function linesFor(swept: SweptCoil, { analysed: { pickup } }: OwnPickup): readonly SweepLine[] {
  const [first] = swept.group.sweeps;
  if (!first) return [];
  const { probes, setUp } = first;
  const ohms = setUp.kind === 'impedance' ? '' : setUp.seriesOhm.written;
  const because = new Set(untoldOf(swept).map((each) => each.because));
  const sweep = (name: string, measured: string): SweepLine => {
    const file = `sweeps/${pickup.name}-${name}.csv`;
    return {
      line: `sweep ${probes.red.text} to ${probes.black.text} "${file}" ${measured}`,
      file,
      isOfBench: false,
    };
  };
  const file = 'sweeps/recorder.csv';
  return [
    ...(because.has('input capacitance')
      ? [{ line: `recorder alone "${file}" through ${ohms}`, file, isOfBench: true }]
      : []),
    ...(because.has('one exciter') ? [sweep('1-nf', `excited over ${ohms} with 1 nF`)] : []),
    sweep('over', 'over 10 kohm'),
  ];
}

/** In the bench of this file; in one of its own where no bench is in force. A bench of another file is that file's. */
function insertInBench(analysis: Analysis, { placed }: OwnPickup, line: string): Edit | undefined {
  const bench = analysis.tree.chunks
    .map(({ chunk }) => chunk)
    .find(({ content }) => content?.kind === 'block' && content.keyword.text === 'bench');
  if (bench?.content?.kind === 'block') return insertLines(bench, bench.content, [line]);
  if (analysis.bench) return undefined;
  const { chunk } = placed;
  const start = chunk.content?.span.start ?? 0;
  return { place: { chunk, span: { start, end: start } }, newText: `bench {\n  ${line}\n}\n\n` };
}

/** What the file itself holds is told at its line. */
function isRead(edit: Edit, analysis: Analysis): boolean {
  const wrong = ({ code }: Finding) => !code.startsWith('sweep/');
  const after = analysis.edited([edit]);
  return after?.findings.filter(wrong).length === analysis.findings.filter(wrong).length;
}
