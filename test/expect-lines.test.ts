/** The lines that samples are tested by: what they say is read whole, and what is otherwise than they say is seen. */
import assert from 'node:assert/strict';
import { differences, expectedOf, type Found } from './support/expect-lines.ts';

const FILE = `# expect: error lead/floating at \`violet\` in \`conductors pink violet\`; related \`start pink\`; fix \`free violet\`
pickup wren {
  conductors pink violet
  coil main {
    start pink
  }
}
`;
const FOUND: Found = {
  severity: 'error',
  code: 'lead/floating',
  start: FILE.indexOf('violet\n'),
  text: 'violet',
  related: ['start pink'],
  fixed: [FILE.replace('  coil', '  free violet\n  coil'), FILE.replace('pink violet\n', 'pink\n')],
};
const among = (...found: readonly Found[]) => differences(FILE, expectedOf(FILE).findings, found);

describe('a line `# expect:`', () => {
  it('is met by its finding', () => assert.deepEqual(among(FOUND), []));

  const others: Readonly<Record<string, readonly Found[]>> = {
    'no finding': [],
    'the finding twice': [FOUND, FOUND],
    'another one': [{ ...FOUND, code: 'lead/reused' }],
    'another severity': [{ ...FOUND, severity: 'warning' }],
    'another place': [{ ...FOUND, start: FOUND.start - 1 }],
    'a longer place': [{ ...FOUND, text: 'violet pink' }],
    'no related line': [{ ...FOUND, related: [] }],
    'no fix': [{ ...FOUND, fixed: [] }],
    'a fix that gives less': [{ ...FOUND, fixed: [FILE.replace('  coil', '  free\n  coil')] }],
    'a fix that gives more': [{ ...FOUND, fixed: FOUND.fixed.map((each) => `${each}free grey\n`) }],
  };
  for (const [name, found] of Object.entries(others)) {
    it(`is not met by ${name}`, () => assert.notDeepEqual(among(...found), []));
  }

  it('that says `no fix` is not met by a finding with one', () => {
    const file = FILE.replace('fix `free violet`', 'no fix');
    assert.equal(
      differences(file, expectedOf(file).findings, [{ ...FOUND, start: file.indexOf('violet\n') }]).length,
      2,
    );
  });

  const meaningless: readonly string[] = [
    '# expect:',
    '# expect clean',
    '#expect: clean',
    '# expect: cleanish',
    '# expect: error lead/floating',
    '# expect: error lead/floating at `violet`',
    '# expect: fault lead/floating at `violet`; no fix',
    '# expect: error lead/floating at violet; no fix',
    '# expect: error lead/floating at `violet`; no fix, measure again',
    '# expect: error lead/floating at `violet`; fix: `free violet`',
    '# expect: error lead/floating at `violet`; fix `free violet` or',
    '# expect: hot to ground about 7.9 kohm at 21 degC',
    '# expect: hot to ground 7.9 kohm',
    '# expect: at the jack 7.58; 3.94 kohm',
    '# expect: clean\n# expect: error lead/floating at `violet`; no fix',
    'pickup wren {',
  ];
  for (const line of meaningless) {
    it(`is refused: ${line.replace('\n', ' and ')}`, () => assert.throws(() => expectedOf(`${line}\n`)));
  }

  it('may state numbers', () => {
    const numbers = [
      'hot to ground of neck 7.69 kohm at 21 degC',
      'pink to violet 8.64 kohm',
      'at the jack 7.58, 3.94 kohm',
      'screw coil 4940 turns',
      'hum -50 dB',
    ];
    const text = ['clean', ...numbers].map((line) => `# expect: ${line}\n`).join('');
    assert.deepEqual(
      expectedOf(text).numbers.map(({ of, written }) => `${of} ${written}`),
      ['hot to ground 7.69', 'leads 8.64', 'position 7.58', 'position 3.94', 'turns 4940', 'hum -50'],
    );
  });
});
