/**
 * Builds, does the main job on the samples in the terminal (findings, reports, drawings), and on a terminal goes on to
 * open the editor on them.
 */
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { openEditor } from './open-editor.ts';
import { root, runStep } from './steps.ts';

const commandLine = 'dist/cli/pickup-spec.cjs';
const drawings = path.join('out', 'drawings');

process.exitCode = await start();

async function start(): Promise<number> {
  const built = await runStep({ name: 'build', script: 'test/scripts/build.ts' });
  if (built.exitCode !== 0) return built.exitCode;

  heading('check samples');
  // samples/mistakes is there to have findings: 1 means that some were found, 2 and more that the command failed.
  if ((await pickupSpec('check', 'samples')) > 1) return 1;

  let failed = 0;
  mkdirSync(path.join(root, drawings), { recursive: true });
  for (const { file, parts } of samplesWithPickups()) {
    heading(`report ${file}`);
    if ((await pickupSpec('report', file)) > 1) failed += 1;
    for (const { kind, name, views } of parts) {
      for (const view of views) {
        const drawing = path.join(drawings, `${name}-${view}.svg`);
        const drawn = await pickupSpec('draw', file, `--${kind}`, name, '--view', view, '-o', drawing, '--force');
        if (drawn > 1) failed += 1;
      }
    }
  }
  heading(`drawings: ${path.join(root, drawings)}`);
  if (failed > 0) {
    console.error(`${failed} commands failed`);
    return 1;
  }
  return process.stdout.isTTY ? await openEditor() : 0;
}

async function pickupSpec(...args: readonly string[]): Promise<number> {
  const { exitCode } = await runStep({ name: args.join(' '), script: commandLine, args });
  return exitCode;
}

interface Sample {
  readonly file: string;
  /** `pickup` or `instrument`, and the name, as they are declared; what there is to draw of it. */
  readonly parts: readonly { readonly kind: string; readonly name: string; readonly views: readonly string[] }[];
}

/** The specs at the top of the samples; parts and the shop's own conditions have nothing to report or to draw. */
function samplesWithPickups(): readonly Sample[] {
  return readdirSync(path.join(root, 'samples'))
    .filter((name) => name.endsWith('.pickup'))
    .sort()
    .map((name) => path.join('samples', name))
    .map((file) => ({ file, parts: declaredIn(readFileSync(path.join(root, file), 'utf8')) }))
    .filter(({ parts }) => parts.length > 0);
}

function declaredIn(text: string): Sample['parts'] {
  return [...text.matchAll(/^(pickup|instrument)\s+(\S+).*\n((?:.*\n)*?)\}$/gm)].map(
    ([, kind = '', name = '', body = '']) => ({ kind, name, views: viewsOf(kind, body) }),
  );
}

/** Of a pickup that is still to be wound for its target there is no response yet. */
function viewsOf(kind: string, body: string): readonly string[] {
  if (kind === 'instrument') return ['schematic', 'positions'];
  const isToBeWound = /^ {2}target /m.test(body) && !/^ +(?:turns|counted|readings) /m.test(body);
  return isToBeWound ? ['wiring'] : ['wiring', 'response'];
}

function heading(text: string): void {
  console.log(`\n== ${text}`);
}
