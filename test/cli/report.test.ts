import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';
import { validate } from './validate.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

describe('report', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    for (const file of readdirSync(SAMPLES).filter((name) => name.endsWith('.pickup'))) {
      shell.write(file, readFileSync(path.join(SAMPLES, file)));
    }
    shell.write('parts/stock.pickup', readFileSync(path.join(SAMPLES, 'parts/stock.pickup')));
    shell.write('empty.pickup', '');
    shell.write('odd.pickup', 'pickup constructor "\u001b[2J\u202E" {\n  coil prototype {\n    turns 5_000\n  }\n}\n');
  });
  after(() => shell.remove());

  const json = async (...words: readonly string[]) =>
    validate('report-1', (await shell.run(['report', ...words, '--format', 'json'])).stdout);

  it('as JSON keeps to the published schema for every sample', async () => {
    for (const file of readdirSync(SAMPLES).filter((name) => name.endsWith('.pickup'))) await json(file);
  });

  it('holds each number with its uncertainty and what it rests on', async () => {
    const data = await json('hesk-neck.pickup');
    const pickup = data.pickups['hesk-neck'];
    const { turns, resistance20COhm } = pickup?.coils.screw ?? {};
    assert.ok(turns && resistance20COhm);
    // Counted in the sample; the reading of 4.05 kohm at 21 degC is 4.034 kohm at 20 degC with copper's 0.393 % per kelvin (IEC 60028).
    assert.deepEqual([turns.value, turns.basis], [5040, 'stated']);
    assert.ok(Math.abs(resistance20COhm.value - 4050 / 1.00393) < 0.005 * 4034);
    assert.ok((resistance20COhm.uncertainty ?? 0) > 0 && resistance20COhm.restsOn.length > 0);
    assert.equal(pickup?.phase, 'in');
  });

  it('as text names values, uncertainties and what they rest on by number', async () => {
    const { code, stdout } = await shell.run(['report', 'hesk-neck.pickup']);
    assert.equal(code, 0);
    assert.match(stdout, /^pickup hesk-neck, "Hesk, neck", serial RYD-014\n/);
    assert.match(stdout, /\n {4}turns +5 040 turns +stated +\[\d+\]\n/);
    assert.match(stdout, /\n {2}rests on\n {4}1 {2}\S/);
    assert.match(stdout, /\n {2}in phase\n/);
  });

  it('of a pickup that was reworked tells what the work changed', async () => {
    const { rework } = (await json('pipkin-neck.pickup', '--pickup', 'pipkin-heavier')).pickups['pipkin-heavier'] ?? {};
    assert.equal(rework?.before, 'pipkin-made');
    // 6,100 turns counted in place of 5,030.
    assert.equal(rework.numbers.find(({ key }) => key === 'turns')?.difference?.value, 1070);
    const { stdout } = await shell.run(['report', 'pipkin-neck.pickup', '--pickup', 'pipkin-heavier']);
    assert.match(stdout, /\n {2}what the work did, beside pipkin-made\n +before +now +change\n/);
    assert.match(stdout, /\n {4}slug coil, turns +5 030 +6 100 +\+1 070\n/);
  });

  it('tells what is best measured next, and nothing of that where nothing is open', async () => {
    const next = (await json('foundling.pickup')).pickups.foundling?.measureNext;
    assert.deepEqual(next, {
      line: 'inductance hot to ground … H at 1 kHz',
      minutes: 2,
      settles: [{ of: 'inductanceH' }],
    });
    const { stdout } = await shell.run(['report', 'foundling.pickup']);
    assert.match(
      stdout,
      /\n {2}measure next\n {4}for inductance, about 2 min of handling\n {4}Inductance meter .*\n {4}write: inductance hot/,
    );
    assert.equal((await json('hesk-neck.pickup')).pickups['hesk-neck']?.measureNext, undefined);
  });

  it('of one pickup leaves out the others, and a misspelt name brings the nearest', async () => {
    assert.deepEqual(Object.keys((await json('tansy-bridge.pickup', '--pickup', 'tansy-before')).pickups), [
      'tansy-before',
    ]);
    const { code, stderr } = await shell.run(['report', 'tansy-bridge.pickup', '--pickup', 'tansy-befor']);
    assert.equal(code, 2);
    assert.match(stderr, /tansy-bridge\.pickup has no pickup tansy-befor: did you mean tansy-before\?/);
  });

  it('of one position leaves out the rest', async () => {
    const data = await json('larkspit.pickup', '--position', '2');
    assert.deepEqual(data.pickups, {});
    assert.deepEqual(
      data.instruments.larkspit?.positions.map(({ key }) => key),
      ['2'],
    );
    const { code, stderr } = await shell.run(['report', 'larkspit.pickup', '--position', '9']);
    assert.equal(code, 2);
    assert.match(stderr, /has no position 9, only 1, 2, 3, 4, 5/);
  });

  it('tells what unequal coils cost beside matched ones, and only of unequal coils', async () => {
    assert.equal((await json('hesk-neck.pickup')).pickups['hesk-neck']?.mismatch, undefined);
    const { mismatch } = (await json('ottlewick-neck.pickup')).pickups['ottlewick-neck'] ?? {};
    assert.deepEqual([mismatch?.coil, mismatch?.other], ['screw', 'slug']);
    const { built, matched, difference } = mismatch?.levelDb ?? {};
    assert.ok(built && matched && difference);
    assert.ok(Math.abs(built.value - matched.value - difference.value) < 1e-9);
    // A null has no number, and so no difference.
    assert.ok(mismatch?.humDb && mismatch.humDb.difference === undefined);
    const { stdout } = await shell.run(['report', 'ottlewick-neck.pickup']);
    assert.match(stdout, /\n {2}matched beside it: screw with 5 \d{3} turns instead of 8 200\n/);
    assert.match(stdout, /\n {4}hum against one coil +−6 ± 1 dB +−\d+ dB or lower\n/);
    assert.match(stdout, /\n {4}level at 100 Hz +\+7\.\d ± 0\.\d dB +\+5\.\d ± 0\.\d+ dB +\+2\.\d+ ± 0\.\d+ dB\n/);
    assert.doesNotMatch((await shell.run(['report', 'hesk-neck.pickup'])).stdout, /matched beside/);
  });

  it('tells of a bar magnet what each other in scope would change', async () => {
    const { magnets } = (await json('ottlewick-neck.pickup')).pickups['ottlewick-neck'] ?? {};
    assert.deepEqual(Object.keys(magnets ?? {}).sort(), ['bar-2', 'bar-3', 'bar-5', 'bar-8']);
    const { fieldRatio, outputDb, pullRatio } = magnets?.['bar-5'] ?? {};
    assert.ok(fieldRatio && outputDb && pullRatio);
    // The signal goes with the field, the pull with its square.
    assert.ok(Math.abs(outputDb.value - 20 * Math.log10(fieldRatio.value)) < 1e-9);
    assert.ok(Math.abs(pullRatio.value - fieldRatio.value ** 2) < 1e-9);
    assert.match(
      (await shell.run(['report', 'ottlewick-neck.pickup'])).stdout,
      /\n {2}another magnet instead\n {4}bar-\d +output [+−]\d\.\d ± \d\.\d dB +field x /,
    );
    assert.equal((await json('larkspit-neck.pickup')).pickups['larkspit-neck']?.magnets, undefined);
  });

  it('computes positions and pickups with another cable, however it is written', async () => {
    const at = async (...words: readonly string[]) => (await json('larkspit.pickup', ...words)).instruments.larkspit;
    const all = [await at(), await at('--cable', '7 m of 100 pF/m'), await at('--cable', '700pF')];
    const [own, longer, same] = all.map((each) => each?.positions[0]?.resonanceHz);
    assert.ok(longer && same && Math.abs(longer.value / same.value - 1) < 1e-9);
    // f = 1 / 2π√(LC): 700 pF in place of the sample's 3 m of 100 pF/m would lower it to √(300/700), were there no other capacitance.
    assert.ok(own && longer && longer.value < own.value && longer.value > own.value * Math.sqrt(300 / 700));
    assert.match(longer.restsOn.join(), /cable 700 pF, as chosen/);
    const pickup = (await json('hesk-neck.pickup', '--cable', '700pF')).pickups['hesk-neck'];
    assert.match(pickup?.resonanceHz?.restsOn.join() ?? '', /700 pF of cable/);
  });

  it('solves the response at the very frequency that is asked for', async () => {
    // The top of the peak is found by search and refinement, and lies between the points of a plot.
    const one = async (...words: readonly string[]) =>
      (await json('larkspit.pickup', '--position', '1', ...words)).instruments.larkspit?.positions[0];
    const resonance = (await one())?.resonanceHz?.value;
    assert.ok(resonance);
    const near = [0.999, 1, 1.001].map((factor) => factor * resonance);
    const [below, top, above] = (await one('--frequencies', near.join(',')))?.response?.levelDb ?? [];
    assert.ok(below && top && above && top > below && top > above, `${below}, ${top}, ${above}`);
  });

  it('tells silence in a word, in text and in JSON', async () => {
    const words = ['--volume', '0', '--frequencies', '100,3000'];
    const { stdout } = await shell.run(['report', 'larkspit.pickup', ...words]);
    assert.match(stdout, /\n {4}level at 100\sHz +silent\b/);
    assert.match(stdout, /\n {4}3000 Hz +silent/);
    assert.doesNotMatch(stdout, /[-−][123]\d\d(?:\.\d)? dB/);
    const [position] = (await json('larkspit.pickup', ...words)).instruments.larkspit?.positions ?? [];
    assert.deepEqual([position?.levelDb, position?.response?.levelDb], [null, [null, null]]);
  });

  const wrong: readonly (readonly [words: readonly string[], says: RegExp])[] = [
    [['--frequencies', '100,x'], /numbers in Hz from 20 to 20000/],
    [['--frequencies', '0,100'], /computed in Hz from 20 to 20000; outside it: 0 Hz\n/],
    [['--frequencies', '19.9,20,20000,20001'], /outside it: 19\.9 Hz, 20001 Hz\n/],
    [['--frequencies', '1,'.repeat(20_000)], /numbers in Hz/],
    [['--cable', '6 m'], /--cable 6 m: a capacitance up to 1 uF such as 700pF/],
    [['--cable', '6 m of 100 pF'], /--cable/],
    [['--cable', '2 F'], /--cable/],
    [['--volume', '11'], /--volume 11: a number from 0 to 10/],
    [['--blend', 'neck=3'], /--blend neck=3: a number from 0 to 10$/m],
    [['--pickup', 'a', '--position', '1'], /exclude each other/],
  ];
  for (const [words, says] of wrong) {
    it(`refuses ${words.join(' ').slice(0, 40)}`, async () => {
      const { code, stdout, stderr } = await shell.run(['report', 'larkspit.pickup', ...words]);
      assert.deepEqual([code, stdout], [2, '']);
      assert.match(stderr, says);
    });
  }

  it('of a spec without pickups says so; of a file that is not there, one line', async () => {
    assert.match(
      (await shell.run(['report', 'empty.pickup'])).stdout,
      /^empty\.pickup holds no pickup and no instrument\n$/,
    );
    const { code, stderr } = await shell.run(['report', 'gone.pickup']);
    assert.deepEqual([code, stderr], [2, 'pickup-spec: gone.pickup: no such file or folder\n']);
  });

  it('takes names such as constructor for names, and shows hidden characters', async () => {
    const data = await json('odd.pickup');
    assert.deepEqual(Object.keys(data.pickups), ['constructor']);
    const { stdout } = await shell.run(['report', 'odd.pickup']);
    assert.match(stdout, /^pickup constructor, "␛\[2J<U\+202E>"\n/);
  });
});
