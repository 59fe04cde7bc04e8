import assert from 'node:assert/strict';
import { commands } from '../../server/src/cli/commands.ts';
import { noAnalyser } from './no-analyser.ts';
import { Shell } from './shell.ts';

describe('the table of commands', () => {
  const shell = new Shell(commands, noAnalyser);
  after(() => shell.remove());

  it('names each once and lists each in the help', async () => {
    const names = commands.map(({ name }) => name);
    assert.equal(new Set(names).size, names.length);
    const { stdout } = await shell.run(['--help']);
    for (const { name, summary } of commands) assert.ok(stdout.includes(`  ${name}`) && stdout.includes(summary));
    assert.ok(stdout.split('\n').every((line) => line.length <= 120));
  });

  for (const command of commands) {
    it(`${command.name} --help shows usage, every option and an example of its own`, async () => {
      const { code, stdout, stderr } = await shell.run([command.name, '--help']);
      assert.deepEqual([code, stderr], [0, '']);
      assert.ok(stdout.startsWith(`usage: pickup-spec ${command.name}`));
      for (const option of Object.keys(command.options)) assert.ok(stdout.includes(`--${option}`));
      assert.ok(command.example.line.includes(`pickup-spec ${command.name}`));
      assert.ok(stdout.includes(`  ${command.example.line}\n`));
    });
    it(`${command.name} names the nearest option`, async () => {
      const { code, stdout, stderr } = await shell.run([command.name, '--hlep']);
      assert.deepEqual([code, stdout], [2, '']);
      assert.match(stderr, /has no option --hlep: did you mean --help\?/);
    });
  }
});
