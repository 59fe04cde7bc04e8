/** Lines for the sweep that would tell what one could not: their file is still to be recorded, and is asked for until it is there. */
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Edit, Finding } from '../checks/finding.ts';
import { sweepPlace } from '../checks/sweep-place.ts';
import { nextMeasurement, untoldOf } from '../estimates/sweep-advice.ts';
import type { SweptCoil } from '../estimates/sweeps-measured.ts';
import { sweptOf } from '../estimates/sweeps-together.ts';
import { samePlace } from '../model/place.ts';
import { cautionsOf } from '../words/cautions.ts';
import type { Language } from '../words/languages/language.ts';
import type { QuickFix } from './code-actions.ts';
import { insertLines, insertReadings } from './insert-lines.ts';
import { type OwnPickup, ownPickups } from './own-blocks.ts';
import { locateEdits } from './text-edits.ts';

const CODES: readonly Finding['code'][] = ['sweep/too-weak', 'sweep/circuit-differs'];

export function sweepFixes(finding: Finding, analysis: Analysis, t: Language): readonly QuickFix[] {
  const own = CODES.includes(finding.code) ? ownPickups(analysis).find(isOf(finding)) : undefined;
  const swept = own && sweptAt(finding, own, analysis);
  if (!own || !swept) return [];
  return sweepsFor(finding, swept, own).flatMap(({ lines, isOfBench }) => {
    const edit = (written: readonly string[]) =>
      isOfBench ? insertInBench(analysis, own, written) : insertReadings(own, written);
    const made = edit(lines.map(({ line }) => line));
    const edits = made && isRead(made, analysis) ? locateEdits(analysis, [made]) : undefined;
    const gaps = lines.map(({ line, file }, index) => line.replace(file, `\${${index + 1}:${file}}`));
    const snippet = edit(gaps)?.newText;
    if (!edits || snippet === undefined) return [];
    const told = lines.map(({ line }) => line).join('; ');
    return [
      {
        title: `Insert the ${lines.length === 1 ? 'sweep' : 'sweeps'} that would tell it: ${told}`,
        preferred: false,
        cautions: cautionsOf('sweep').map((each) => t(each)),
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
}

/** Lines that are inserted together. */
interface SweepLines {
  readonly lines: readonly SweepLine[];
  readonly isOfBench: boolean;
}

function sweepsFor({ code }: Finding, swept: SweptCoil, own: OwnPickup): readonly SweepLines[] {
  if (code === 'sweep/too-weak') return tellingMore(swept, own);
  const { netlist, pickup } = own.analysed;
  switch (nextMeasurement(swept, netlist)) {
    case 'coils apart':
      return [{ lines: pickup.coils.map(({ name }) => coilApart(pickup.name, name)), isOfBench: false }];
    case 'all at once': {
      const file = `sweeps/${pickup.name}.csv`;
      return [{ lines: [{ line: `sweep hot to ground "${file}" over 10 kohm`, file }], isOfBench: false }];
    }
    default:
      return [];
  }
}

function coilApart(pickup: string, coil: string): SweepLine {
  const file = `sweeps/${pickup}-${coil}.csv`;
  return { line: `sweep ${coil}.start to ${coil}.finish "${file}" over 10 kohm`, file };
}

/** The recorder alone first, which tells it of every pickup; of an exciter the same once more with a capacitor. */
function tellingMore(swept: SweptCoil, { analysed: { pickup } }: OwnPickup): readonly SweepLines[] {
  const [first] = swept.group.sweeps;
  if (!first) return [];
  const { probes, setUp } = first;
  const ohms = setUp.kind === 'impedance' ? '' : setUp.seriesOhm.written;
  const because = new Set(untoldOf(swept).map((each) => each.because));
  const sweep = (name: string, measured: string): SweepLines => {
    const file = `sweeps/${pickup.name}-${name}.csv`;
    const line = `sweep ${probes.red.text} to ${probes.black.text} "${file}" ${measured}`;
    return { lines: [{ line, file }], isOfBench: false };
  };
  const file = 'sweeps/recorder.csv';
  return [
    ...(because.has('input capacitance')
      ? [{ lines: [{ line: `recorder alone "${file}" through ${ohms}`, file }], isOfBench: true }]
      : []),
    ...(because.has('one exciter') ? [sweep('1-nf', `excited over ${ohms} with 1 nF`)] : []),
    sweep('over', 'over 10 kohm'),
  ];
}

/** In the bench of this file; in one of its own where no bench is in force. A bench of another file is that file's. */
function insertInBench(analysis: Analysis, { placed }: OwnPickup, lines: readonly string[]): Edit | undefined {
  const bench = analysis.tree.chunks
    .map(({ chunk }) => chunk)
    .find(({ content }) => content?.kind === 'block' && content.keyword.text === 'bench');
  if (bench?.content?.kind === 'block') return insertLines(bench, bench.content, lines);
  if (analysis.bench) return undefined;
  const { chunk } = placed;
  const start = chunk.content?.span.start ?? 0;
  return {
    place: { chunk, span: { start, end: start } },
    newText: `bench {\n${lines.map((line) => `  ${line}\n`).join('')}}\n\n`,
  };
}

/** What the file itself holds is told at its line. */
function isRead(edit: Edit, analysis: Analysis): boolean {
  const wrong = ({ code }: Finding) => !code.startsWith('sweep/');
  const after = analysis.edited([edit]);
  return after?.findings.filter(wrong).length === analysis.findings.filter(wrong).length;
}
