import assert from 'node:assert/strict';
import { cpSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { applyEdits } from '../support/text-edits.ts';
import { Shell } from './shell.ts';
import { editsIn, validate } from './validate.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

describe('repair', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
  });
  after(() => shell.remove());

  it('of a clean pickup has nothing to do, exit code 0', async () => {
    assert.deepEqual(await shell.run(['repair', 'hesk-neck.pickup']), {
      code: 0,
      stdout: 'pickup hesk-neck: nothing to repair\n',
      stderr: '',
    });
  });

  it('tells plans with their work, the least first, exit code 1', async () => {
    const { code, stdout } = await shell.run(['repair', 'mistakes/phase-coil-wound-wrong-way.pickup']);
    assert.equal(code, 1);
    assert.match(stdout, /^pickup wrong:\n {2}error phase\/coils-cancel: /);
    const minutes = [...stdout.matchAll(/plan \d+, about (\d+) min of work/g)].map(([, each]) => Number(each));
    assert.ok(minutes.length > 0);
    assert.deepEqual(
      minutes,
      minutes.toSorted((a, b) => a - b),
    );
  });

  it('says beside each plan what its work can do to a person', async () => {
    const { stdout } = await shell.run(['repair', 'mistakes/phase-coils-cancel.pickup']);
    assert.match(stdout, /\n {4}mind\n {6}Magnets pinch [^\n]*\n {6}Magnetising: /);
    assert.match(
      (await shell.run(['repair', 'mistakes/phase-coil-wound-wrong-way.pickup'])).stdout,
      /\n {4}mind\n {6}Solder and iron/,
    );
  });

  it('as JSON keeps to the published schema, and a plan written into the file clears it', async () => {
    const file = 'mistakes/phase-coil-wound-wrong-way.pickup';
    const { stdout } = await shell.run(['repair', file, '--format', 'json']);
    const [plan] = validate('repair-1', stdout).subjects[0]?.plans ?? [];
    assert.ok(plan);
    const edits = plan.steps.flatMap((step) => step.edits);
    const text = readFileSync(shell.path(file), 'utf8');
    shell.write('mistakes/repaired.pickup', applyEdits(text, editsIn(text, edits)));
    assert.equal((await shell.run(['check', 'mistakes/repaired.pickup'])).stdout, 'nothing found in 1 file\n');
  });

  it('tells what each plan leaves, position by position, and the lines to write; check offers the best at the finding', async () => {
    const file = 'mistakes/phase-position-cancels.pickup';
    const { stdout } = await shell.run(['repair', file]);
    const [, ...plans] = stdout.split(/\n {2}plan \d+/);
    assert.ok(plans.length > 1);
    for (const plan of plans) {
      assert.match(plan, /\n {4}then\n {6}position 1[^\n]*: /);
      assert.match(plan, /in phase, hum (?:cancels|cancels in part|adds|does not cancel)/);
      assert.match(plan, /\n {4}to write\n[\s\S]*\n {7}\+ /);
    }
    const checked = (await shell.run(['check', file])).stdout;
    const [, minutes] = /, about (\d+) min of work/.exec(plans[0] ?? '') ?? [];
    const offered = checked.match(/ {2}plan, about (\d+) min/g) ?? [];
    assert.deepEqual(offered, [`  plan, about ${minutes} min`]);
  });

  it('plans for an instrument with all its pickups, or for the one that is named', async () => {
    const file = 'mistakes/phase-position-cancels.pickup';
    assert.match((await shell.run(['repair', file])).stdout, /^instrument wrong-guitar:\n/);
    assert.match((await shell.run(['repair', file, '--pickup', 'neck-pickup'])).stdout, /^pickup neck-pickup/);
    const { code, stderr } = await shell.run(['repair', file, '--pickup', 'nek-pickup']);
    assert.equal(code, 2);
    assert.match(stderr, /has no pickup nek-pickup: did you mean neck-pickup\?/);
  });
});
