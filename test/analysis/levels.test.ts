import assert from 'node:assert/strict';
import type { Levels } from '../../server/src/analysis/levels.ts';
import { analyse, analyser, EXAMPLE, expectFindings, hostOf } from '../support/check-fixture.ts';
import { PARTS, SINGLE } from '../support/shop.ts';

const PARTS_FILE = { 'parts.pickup': PARTS };

/** A spec with a bath that is too cold (a hint) and a cover on nothing (a warning), and a bench that says this. */
const spec = (bench: string, more = '') =>
  `${SINGLE.replace('  cover none', '  cover nickel-silver').replace(
    /\}\n$/,
    `  potting {\n    wax paraffin 80 % beeswax 20 %\n    bath 40 degC\n    soak 15 min\n    batch 400 g\n${more}  }\n}\n`,
  )}\nbench {\n  mains 50 Hz\n${bench}}\n`;

const told = (text: string, levels?: Levels) =>
  analyser
    .analyse(EXAMPLE, {
      ...hostOf({ ...PARTS_FILE, 'example.pickup': text }),
      ...(levels ? { levels: () => levels } : {}),
    })
    .findings.map(({ code, severity }) => `${severity} ${code}`);

describe('how findings are told', () => {
  it('is what their checks say, where nobody says otherwise', () =>
    assert.deepEqual(told(spec('')), ['warning ground/metal-floating', 'hint potting/too-cold']));

  it('is what the bench says, in the file and in those that use it', () => {
    const bench = '  severity potting/too-cold error\n  severity ground/metal-floating off\n';
    assert.deepEqual(told(spec(bench)), ['error potting/too-cold']);
    const shop = `use "parts.pickup"\nbench {\n${bench}}\n`;
    const using = spec('')
      .replace('parts.pickup', 'shop.pickup')
      .replace(/\nbench \{[^}]*\}\n$/, '');
    assert.deepEqual(
      analyse(using, { ...PARTS_FILE, 'shop.pickup': shop }).findings.map(({ code, severity }) => [code, severity]),
      [['potting/too-cold', 'error']],
    );
  });

  it('is what the person at the editor wants, before the bench', () =>
    assert.deepEqual(
      told(spec('  severity potting/too-cold error\n'), new Map([['potting/too-cold', 'information']])),
      ['warning ground/metal-floating', 'information potting/too-cold'],
    ));

  it('does not lift what was accepted, and takes no fix away', () => {
    const kept = '    accept potting/too-cold "the wax of this batch is soft"\n';
    assert.deepEqual(told(spec('  severity potting/too-cold error\n', kept)), [
      'warning ground/metal-floating',
      'hint potting/too-cold',
    ]);
    const fixes = (bench: string) => {
      const analysis = analyse(spec(bench).replace('bath 40', 'bath 92'), PARTS_FILE);
      const hot = analysis.findings.find(({ code }) => code === 'potting/too-hot');
      return hot ? analysis.verifiedFixes(hot).map(({ title }) => title) : [];
    };
    assert.notEqual(fixes('').length, 0);
    assert.deepEqual(fixes('  severity potting/too-hot information\n'), fixes(''));
  });

  it('is told by a code that there is', () => {
    const analysis = expectFindings(`bench {
  severity poting/too-cold off
           ^^^^^^^^^^^^^^^ name/unknown error
  severity analysis/incomplete off
           ^^^^^^^^^^^^^^^^^^^ name/unknown error
}
`);
    const [first] = analysis.findings;
    assert.ok(first);
    assert.deepEqual(
      analysis.verifiedFixes(first).map(({ edits }) => edits.map(({ newText }) => newText)),
      [['potting/too-cold']],
    );
  });
});
