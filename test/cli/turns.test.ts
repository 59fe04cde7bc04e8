import assert from 'node:assert/strict';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';

/** A made-up pair whose geometry a hand can check. */
const SPEC = `
wire own-42 {
  gauge 42 AWG
  overall 0.070 mm
}
spool own-reel {
  wire own-42
  measures 5.50 ohm/m at 20 degC
  left 25 g
}
bobbin own-six {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
}
pickup two "Two" {
  coil a {
    bobbin own-six
    spool own-reel
    turns 5_000
    packing 0.66
  }
  coil b like a {
    turns 4_000
  }
}
`;

/** Wire in the first n turns of that coil by the closed form of a scatter winding: N (2 s + π (2 r + b)), b = N π D²/4 / (p h). */
function lengthM(turns: number): number {
  const build = (turns * Math.PI * 0.25 * 0.07 ** 2) / (0.66 * 7.2);
  return (turns * (2 * (63 - 5.6) + Math.PI * (5.6 + build))) / 1000;
}

describe('turns', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    shell.write('two.pickup', SPEC);
  });
  after(() => shell.remove());

  const run = (...words: readonly string[]) => shell.run(['turns', 'two.pickup', ...words]);
  const firstNumber = (text: string) =>
    Number(/\n {2}([\d\u202F ]+?) (?:± [\d\u202F]+ )?turns/.exec(text)?.[1]?.replace(/[\u202F ]/g, ''));

  it('for a resistance, brought to 20 degC with 0.393 % per kelvin (IEC 60028)', async () => {
    const { stdout, code } = await run('--coil', 'a', '--resistance', '4k1', '--room', '31degC');
    assert.equal(code, 0);
    const turns = firstNumber(stdout);
    const reads = lengthM(turns) * 5.5 * (1 + 0.00393 * 11);
    // Told in tens, since the ± is some forty turns: five of them are 4 ohm.
    assert.ok(Math.abs(reads - 4100) < 4.5, `${turns} turns read ${reads}`);
    assert.match(stdout, /% of the window/);
    assert.match(
      stdout,
      /\n {2}take off [\d\u202F]+ ± \d+ turns, \d+ ± \d+\u202Fm\n {2}wire \d+ ± \d+\u202Fm, [\d.]+ ± [\d.]+\u202Fg; spool own-reel has 25\u202Fg left, enough\n/,
    );
  });

  it('that do not fit are told so', async () => {
    assert.match(
      (await run('--coil', 'a', '--resistance', '9kohm')).stdout,
      /does not fit, \d+.% of the window\n.*\n.*not enough: it runs out before the last turn/,
    );
  });

  it('that match another coil on the same bobbin are its turns', async () => {
    assert.equal(firstNumber((await run('--coil', 'b', '--match', 'a')).stdout), 5000);
  });

  it('left and gone after a break', async () => {
    const rest = lengthM(3000) * 5.5;
    const { stdout } = await run('--coil', 'a', '--rest', `${rest.toFixed(1)}ohm`, '--room', '20degC');
    assert.match(stdout.replaceAll('\u202F', ''), /3000 ± \d+ turns left\n {2}gone: 2000 ± \d+ turns, 305 ± \dm\n/);
  });

  it('gone with wire peeled off the outside', async () => {
    const peeled = lengthM(5000) - lengthM(4900);
    assert.equal(firstNumber((await run('--coil', 'a', '--peeled', `${peeled.toFixed(3)}m`)).stdout), 100);
  });

  it('asks for one question and one coil, in one line', async () => {
    for (const words of [
      [],
      ['--coil', 'a'],
      ['--resistance', '4k1'],
      ['--coil', 'a', '--resistance', '4k1', '--match', 'b'],
      ['--coil', 'a', '--resistance', '4'],
      ['--coil', 'c', '--match', 'a'],
    ]) {
      const { stderr, code } = await run(...words);
      assert.equal(code, 2, words.join(' '));
      assert.equal(stderr.trim().split('\n').length, 1, stderr);
    }
  });
});
