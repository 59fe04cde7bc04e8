import assert from 'node:assert/strict';
import { type Command, CommandError, defineCommand } from '../../server/src/cli/command.ts';
import { noAnalyser } from './no-analyser.ts';
import { type Outcome, Shell } from './shell.ts';

const measure: Command = defineCommand({
  name: 'measure',
  summary: 'reads a meter',
  positionals: 'LEAD [LEAD]',
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how it is written' },
    volume: { type: 'number', value: '0..10', min: 0, max: 10, meaning: 'where the pot stands' },
    output: { type: 'text', value: 'FILE', short: 'o', meaning: 'where to' },
    where: { type: 'list', value: 'FILTER', meaning: 'which' },
    loud: { type: 'flag', meaning: 'beeps' },
  },
  example: { line: 'pickup-spec measure violet', meaning: 'one lead' },
  async run(values, positionals, context) {
    context.stdout.write(JSON.stringify({ ...values, leads: positionals }));
    return 0;
  },
});
const melt: Command = { ...measure, name: 'melt', summary: 'melts wax' };
const fault: Command = {
  ...measure,
  name: 'break',
  run: async () => {
    throw new TypeError('\u001b[31mred');
  },
};

describe('the words of a command line', () => {
  const shell = new Shell([measure, melt, fault], noAnalyser);
  after(() => shell.remove());
  const run = (line: string): Promise<Outcome> => shell.run(line.split(' ').filter((word) => word !== ''));

  it('come to the command as values of their kind, choices with their first where none is given', async () => {
    const { code, stdout } = await run('measure violet --volume 2.5 -o out.json --where a --where b --loud grey');
    assert.equal(code, 0);
    assert.deepEqual(JSON.parse(stdout), {
      format: 'text',
      volume: 2.5,
      output: 'out.json',
      where: ['a', 'b'],
      loud: true,
      leads: ['violet', 'grey'],
    });
  });

  const wrong: readonly (readonly [line: string, says: RegExp])[] = [
    ['mesure violet', /no command "mesure": did you mean measure\?/],
    ['meas violet', /did you mean measure\?/],
    ['solder violet', /no command "solder": see pickup-spec --help/],
    ['measure violet --fromat json', /no option --fromat: did you mean --format\?/],
    ['measure violet -x', /no option -x: see pickup-spec measure --help/],
    ['measure violet --format jsno', /--format jsno: did you mean json\?/],
    ['measure violet --format picture', /--format picture: one of text, json/],
    ['measure violet --volume 11', /--volume 11: a number from 0 to 10 is needed/],
    ['measure violet --volume -3', /--volume -3: a number from 0 to 10/],
    ['measure violet --volume NaN', /--volume NaN: a number/],
    ['measure violet --output', /--output needs a value: -o, --output FILE/],
    ['measure violet --output --loud', /--output needs a value/],
    ['measure violet --loud=yes', /--loud takes no value/],
    ['measure', /measure needs more: usage: pickup-spec measure LEAD \[LEAD\]/],
    ['measure a b c', /no use for "c": usage/],
    ['--formt', /no option "--formt"/],
    ['measure violet --__proto__ x', /no option --__proto__/],
    ['measure violet --constructor x', /no option --constructor/],
  ];
  for (const [line, says] of wrong) {
    it(`are told in one line on standard error, exit code 2: ${line}`, async () => {
      const { code, stdout, stderr } = await run(line);
      assert.equal(code, 2);
      assert.equal(stdout, '');
      assert.match(stderr, says);
      assert.equal(stderr.trimEnd().split('\n').length, 1);
    });
  }

  it('without any, help comes on standard error with exit code 2; asked for, on standard output with 0', async () => {
    const bare = await run('');
    assert.deepEqual([bare.code, bare.stdout], [2, '']);
    assert.match(bare.stderr, /usage: pickup-spec COMMAND/);
    for (const line of ['--help', '-h', 'help']) {
      const { code, stdout, stderr } = await run(line);
      assert.deepEqual([code, stderr], [0, '']);
      assert.match(stdout, /measure +reads a meter/);
    }
  });

  it('help of a command shows its usage, every option and an example, and needs no arguments', async () => {
    for (const line of ['measure --help', 'help measure']) {
      const { code, stdout } = await run(line);
      assert.equal(code, 0);
      assert.match(stdout, /^usage: pickup-spec measure LEAD \[LEAD\] \[OPTIONS\]/);
      assert.match(stdout, /--format text\|json\n +how it is written \(text unless given\)/);
      assert.match(stdout, /-o, --output FILE/);
      assert.match(stdout, /example: one lead\n {2}pickup-spec measure violet/);
    }
  });

  it('a fault of the program is one line without a stack trace, its text harmless', async () => {
    const { code, stderr } = await run('break violet');
    assert.equal(code, 2);
    assert.equal(stderr, 'pickup-spec: a fault of the program itself, please report it: ␛[31mred\n');
  });

  it('the version is that of the manifest', async () => {
    assert.match((await run('--version')).stdout, /^\d+\.\d+\.\d+\n$/);
  });

  it('an error of usage is one of the known kind', () => {
    assert.equal(new CommandError('x').exitCode, 2);
  });
});
