/**
 * Long runs of what the tests do in small: bad texts, edits against fresh readings, sessions, and hours of typing, by seed.
 *
 *     npm run soak -- [--scale 0.01] [--seed 1] [--only inputs,edits,hands,sessions,typing]
 *
 * At scale 1: 100,000 texts, 2,500 sequences of edits in one process, 2,500 on a live server over several files, 1,000 sessions, and an
 * hour of typing. Each kind runs in a process of its own, which is ended where it says nothing for too long.
 */
import { fork } from 'node:child_process';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { root } from '../steps.ts';
import { KINDS, type Message } from './kinds.ts';

const { values } = parseArgs({
  options: {
    scale: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', default: Object.keys(KINDS).join(',') },
  },
});

/** One step of any kind takes a second or two; on a busy machine ten times that. */
const LONGEST_SILENCE_MS = 180_000;

let faults = 0;
for (const kind of values.only.split(',')) {
  if (!Object.hasOwn(KINDS, kind)) {
    console.error(`no kind '${kind}'; there are ${Object.keys(KINDS).join(', ')}`);
    process.exit(2);
  }
  const began = performance.now();
  const found = await run(kind);
  faults += found;
  console.log(
    `${kind}: ${found === 0 ? 'no fault' : `${found} faults`}, ${Math.round((performance.now() - began) / 1000)} s`,
  );
}
process.exitCode = faults === 0 ? 0 : 1;

/** How many faults were found. */
function run(kind: string): Promise<number> {
  const child = fork(path.join(root, 'test/scripts/soak/run-kind.ts'), [kind, values.scale, values.seed], {
    cwd: root,
    execArgv: ['--import', 'tsx'],
  });
  let found = 0;
  let last = 'nothing yet';
  let timer: NodeJS.Timeout | undefined;
  const watch = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      tell(`silence behind ${last}`);
      child.kill('SIGKILL');
    }, LONGEST_SILENCE_MS);
  };
  const tell = (what: string): void => {
    found++;
    console.error(`${kind}: ${what}`);
  };
  watch();
  child.on('message', (message: Message) => {
    watch();
    if (message.kind === 'fault') tell(message.words);
    else if (message.kind === 'summary') console.log(`${kind}: ${message.words}`);
    else last = message.words;
  });
  return new Promise((resolve) => {
    child.once('exit', (code) => {
      clearTimeout(timer);
      if (code !== 0) tell(`ended with ${code ?? 'a signal'} behind ${last}`);
      resolve(found);
    });
  });
}
