/** Fixes are judged by what their edits touch; here each candidate is judged once more by the whole file. */
import assert from 'node:assert/strict';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import type { Finding, Remedy } from '../../server/src/checks/finding.ts';
import { diskHost, specFiles, uriOf } from '../../server/src/cli/files.ts';

const SAMPLES = path.resolve(import.meta.dirname, '../../samples');
const { files } = specFiles(['samples'], path.dirname(SAMPLES));
const analyser = createAnalyser();
const host = diskHost(SAMPLES);

const isNote = ({ severity }: Finding): boolean => severity === 'information';
const said = (each: Finding): string =>
  JSON.stringify([each.code, each.subject.pickup, each.subject.instrument, each.subject.position, isNote(each)]);
const times = (found: readonly Finding[], what: string): number => found.filter((each) => said(each) === what).length;
const isGrave = ({ severity, code }: Finding): boolean =>
  (severity === 'error' || severity === 'warning') && !code.startsWith('reading/');

/** By analysing the changed file as a whole. */
function holdsInTheFile({ edits, kind }: Remedy, finding: Finding, analysis: Analysis): boolean {
  const after = analysis.edited(edits);
  if (!after) return false;
  const isLate = !analysis.findings.includes(finding);
  const [was, is] = [analysis, after].map((each) => (isLate ? each.allFindings() : each.findings));
  assert.ok(was && is);
  const isGone = times(is, said(finding)) < times(was, said(finding));
  return (
    isGone && (kind === 'text' || is.filter(isGrave).every((each) => times(is, said(each)) <= times(was, said(each))))
  );
}

const changes = ({ title, edits }: Remedy) =>
  JSON.stringify([title, edits.map(({ place: { span }, newText }) => [span, newText])]);

describe('verified fixes', () => {
  it('are exactly those that hold where the whole file is analysed again', () => {
    let held = 0;
    let refused = 0;
    for (const file of files) {
      const analysis = analyser.analyse(uriOf(file), host);
      for (const finding of analysis.allFindings()) {
        const candidates = finding.remedies(analysis.pickupsInSight());
        const expected = new Set(candidates.filter((each) => holdsInTheFile(each, finding, analysis)).map(changes));
        assert.deepEqual(analysis.verifiedFixes(finding).map(changes), [...expected], `${file}: ${finding.code}`);
        held += expected.size;
        refused += candidates.length - expected.size;
      }
    }
    assert.ok(held > 50 && refused > 20, `${held} held, ${refused} did not`);
  });

  it('leave what the file was read as in place', () => {
    const uri = uriOf(path.join(SAMPLES, 'mistakes', 'phase-position-cancels.pickup'));
    const before = analyser.analyse(uri, host);
    assert.ok(before.findings.some((finding) => before.verifiedFixes(finding).length > 1));
    const after = analyser.analyse(uri, host);
    assert.deepEqual(
      after.instruments.map(({ instrument }, index) => instrument === before.instruments[index]?.instrument),
      before.instruments.map(() => true),
    );
    assert.ok(after.instruments.length > 0);
  });
});
