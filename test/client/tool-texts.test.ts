import assert from 'node:assert/strict';
import type { Range } from 'vscode';
import {
  checkText,
  explanationText,
  listText,
  reportText,
} from '../../client/src/features/language-model/tool-texts.ts';
import { explanationPage } from '../../server/src/features/explanation-page.ts';

describe('what tools for language models answer', () => {
  const at = (line: number): Range => ({ start: { line, character: 0 } }) as Range;

  it('a check: place, severity, code and message in a line each', () => {
    const findings = [{ code: 'unit/missing', severity: 'error', message: 'A unit.', range: at(21) }] as const;
    assert.equal(checkText('a.pickup', { findings }), 'a.pickup: 1 finding.\nline 22: error unit/missing: A unit.');
    assert.equal(checkText('a.pickup', { findings: [] }), 'a.pickup: no findings.');
    assert.equal(
      checkText('a.pickup', { findings: [], problem: 'It is gone.' }),
      'a.pickup was not checked. It is gone.',
    );
  });

  it('a report: each number with its ± and what it rests on', () => {
    const rows = [{ name: 'resistance, kΩ', value: '7.10 ± 0.04', restsOn: 'turns' }];
    const tables = [{ caption: 'Numbers', rows }];
    const subjects = [{ kind: 'pickup', name: 'heron', title: 'Heron', tables }] as const;
    assert.equal(
      reportText('a.pickup', { subjects }),
      'a.pickup:\npickup heron, Heron\nNumbers (± is one standard deviation)\n- resistance, kΩ: 7.10 ± 0.04 (turns)',
    );
    assert.match(reportText('a.pickup', { subjects: [] }), /no pickup and no instrument/);
  });

  it('an explanation: the page as text with its examples; a code that there is not', () => {
    const text = explanationText('unit/missing', explanationPage('unit/missing'));
    assert.match(text, /^unit\/missing\n\n/);
    assert.match(text, /\n\npickup |\n\nwire |\n\ncoil /);
    assert.doesNotMatch(text, /```|undefined/);
    assert.equal(explanationText('no/such', undefined), 'No finding has the code no/such.');
  });

  it('a list: a pickup in a line; a filter that does not read says how they are written', () => {
    const found = [
      { uri: 'file:///s/a.pickup', range: at(0), name: 'heron', title: 'Heron', about: 'RYD-1', reasons: [] },
    ];
    const nothing = { protocol: 3, isFiltered: false, examples: ['needs retest'], cautions: [] };
    assert.equal(
      listText({ ...nothing, found }, () => 'a.pickup'),
      'heron, Heron (a.pickup); RYD-1',
    );
    assert.equal(
      listText({ ...nothing, found: [] }, () => ''),
      'No pickup fits.',
    );
    assert.equal(
      listText({ ...nothing, found, cautions: ['Phantom power off.'] }, () => 'a.pickup'),
      'heron, Heron (a.pickup); RYD-1\nPhantom power off.',
    );
    assert.match(
      listText({ ...nothing, found: [], problem: 'No.' }, () => ''),
      /^No\. .*needs retest\.$/,
    );
  });
});
