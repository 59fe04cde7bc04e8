import assert from 'node:assert/strict';
import { explanationOf } from '../../server/src/checks/explanation.ts';
import { codes } from '../../server/src/checks/pages.ts';
import { analyse, findingLines, leftAlone } from '../support/check-fixture.ts';

describe('explanation pages', () => {
  it('have none for a code that does not exist', () => {
    assert.equal(explanationOf('phase/of-the-moon'), undefined);
  });

  for (const code of codes)
    describe(code, () => {
      const page = explanationOf(code) ?? '';

      it('is headed by it', () => assert.equal(page.split('\n')[0], `# ${code}`));

      it('shows the fault in its faulty example, and nothing else than it says', () => {
        const found = foundIn(example(page, 'Faulty example'));
        const also = [...(/^With it: (.*)\.$/m.exec(page)?.[1] ?? '').matchAll(/`([^`]+)`/g)].map(([, each]) => each);
        assert.deepEqual([...new Set(found.codes)].sort(), [code, ...also].sort(), found.lines.join('\n'));
        const severity = /^(Error|Warning|Information|Hint)\./m.exec(page)?.[1]?.toLowerCase();
        assert.ok(
          found.lines.some((line) => line.startsWith(`${code} ${severity} `)),
          found.lines.join('\n'),
        );
      });

      it('says in its faulty example what to do about every error and warning', () => {
        const analysis = analyse(example(page, 'Faulty example'));
        assert.deepEqual(leftAlone(analysis), []);
      });

      it('shows no fault in its corrected example', () => {
        assert.deepEqual(foundIn(example(page, 'Corrected example')).lines, []);
      });
    });
});

/** What is told only after the others, and for itself: a fit, a search. */
const ONLY_LATE = /^sweep\/|^switch\/cannot$/;

function foundIn(text: string): { readonly codes: readonly string[]; readonly lines: readonly string[] } {
  const analysis = analyse(text);
  const late = { ...analysis, findings: analysis.allFindings() };
  const told = late.findings.some(({ code }) => ONLY_LATE.test(code)) ? late : analysis;
  return { codes: told.findings.map(({ code }) => code), lines: findingLines(told) };
}

function example(page: string, heading: string): string {
  const section = page.slice(page.indexOf(`## ${heading}`));
  const text = /```pickup\n([\s\S]*?)```/.exec(section)?.[1];
  assert.ok(text, `no example under '${heading}'`);
  return text;
}
