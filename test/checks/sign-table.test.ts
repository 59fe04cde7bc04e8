/**
 * Every series wiring of two coils and every kick of one, written as specs. Whether a pair adds or cancels, and what a kick
 * reads, comes from a flux simulation outside this project that knows no sign rule; method and conventions stand in the file.
 */
import assert from 'node:assert/strict';
import { analyse, findingLines } from '../support/check-fixture.ts';
import { type ReferenceCase, referenceCases } from '../support/reference-cases.ts';

describe('phase and hum of two coils in series, by the flux simulation', () => {
  const cases = referenceCases('sign-table', 'SG-');
  it('has all 64 wirings', () => assert.equal(cases.length, 64));

  for (const each of cases) {
    const { stringSignal, hum } = each.expected;
    const ends = words(each, 'linkJoins').replace(' with ', ' ');
    it(`${each.id}: ${coilWords(each, 'A')}, ${coilWords(each, 'B')}, link ${ends}: string ${stringSignal}, hum ${hum}`, () => {
      const analysis = analyse(pairOf(each));
      const cancels = stringSignal === 'cancels';
      assert.deepEqual(
        analysis.findings.map(({ code }) => code),
        cancels ? ['phase/coils-cancel'] : hum === 'adds' ? ['hum/not-cancelled'] : [],
      );
      const [finding] = analysis.findings;
      if (cancels) assert.equal(/their hum adds/.test(finding?.message ?? ''), hum === 'adds', finding?.message);
      assert.equal(analysis.pickups[0]?.quick.phase, cancels ? 'out' : 'in');
    });
  }
});

describe('a kick, by the flux simulation', () => {
  const cases = referenceCases('sign-table', 'KICK-');
  it('has all 16 kinds', () => assert.equal(cases.length, 16));

  for (const each of cases) {
    const reads = each.expected.reads === 'positive' ? 'positive' : 'negative';
    const other = reads === 'positive' ? 'negative' : 'positive';
    const title = `${words(each, 'wound')}, ${words(each, 'poles')}, red probe on ${words(each, 'redProbeOn')}, ${words(each, 'steel')}`;
    it(`${each.id}: ${title} agrees where it reads ${reads}`, () => {
      assert.deepEqual(findingLines(analyse(kicked(each, reads))), []);
    });
    it(`${each.id}: ${title} contradicts where it reads ${other}`, () => {
      assert.deepEqual(
        analyse(kicked(each, other)).findings.map(({ code, severity }) => `${code} ${severity}`),
        ['reading/contradicts warning'],
      );
    });
  }
});

function words({ inputs }: ReferenceCase, key: string): string {
  const value = inputs[key];
  assert.ok(typeof value === 'string', `no words "${key}"`);
  return value;
}

function coilWords(each: ReferenceCase, name: 'A' | 'B'): string {
  return `${words(each, `coil${name}Wound`)} ${words(each, `coil${name}Poles`)}`;
}

function pairOf(each: ReferenceCase): string {
  const coil = (name: 'A' | 'B') => `
  coil ${name.toLowerCase()} {
    turns 5_000
    wound ${words(each, `coil${name}Wound`)}
    polarity ${words(each, `coil${name}Poles`)}
    start ${name}S
    finish ${name}F
  }`;
  const lead = (end: string) => `${end.charAt(0).toUpperCase()}${end.endsWith('.start') ? 'S' : 'F'}`;
  return `pickup heron {${coil('A')}${coil('B')}
  hookup {
    hot ${lead(words(each, 'hot'))}
    link ${words(each, 'linkJoins').split(' with ').map(lead).join(' ')}
    ground ${lead(words(each, 'ground'))}
  }
}
`;
}

function kicked(each: ReferenceCase, reads: 'positive' | 'negative'): string {
  const red = words(each, 'redProbeOn') === 'finish' ? 'violet' : 'grey';
  return `pickup wren {
  coil main {
    turns 7_700
    wound ${words(each, 'wound')}
    polarity ${words(each, 'poles')}
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  readings "on the bench" 2026-10-02 {
    kick ${red} to ${red === 'violet' ? 'grey' : 'violet'} ${words(each, 'steel')} ${reads}
  }
}
`;
}
