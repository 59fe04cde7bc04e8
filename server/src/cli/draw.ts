import { execFileSync } from 'node:child_process';
import path from 'node:path';
import type { Analysis, PickupAnalysis } from '../analysis-types.ts';
import { pickupPicture } from '../documents/wiring-diagram/from-model.ts';
import { drawPickup } from '../documents/wiring-diagram/wiring-diagram.ts';
import { CommandError, defineCommand } from './command.ts';
import { shownPath } from './files.ts';
import { meant } from './meant.ts';
import { analyseSource, requireSource, SOURCE_OPTIONS } from './source.ts';
import { errorCode } from './text-file.ts';
import { visible } from './visible.ts';
import { writeFile } from './write-file.ts';

export const draw = defineCommand({
  name: 'draw',
  summary: 'the wiring of a pickup as a picture',
  positionals: 'FILE',
  least: 1,
  most: 1,
  options: {
    view: { type: 'choice', choices: ['wiring'], meaning: 'what is drawn' },
    output: {
      type: 'text',
      value: 'OUT.svg',
      short: 'o',
      meaning:
        'the file to write, standard output unless given; a name in .png makes a PNG where rsvg-convert is at hand',
    },
    pickup: { type: 'text', value: 'NAME', meaning: 'which pickup, where the file holds several' },
    width: { type: 'choice', choices: ['wide', 'narrow'], meaning: 'laid out for a page or for a narrow column' },
    force: { type: 'flag', meaning: 'replaces the file where it is already there' },
    ...SOURCE_OPTIONS,
  },
  example: {
    line: 'pickup-spec draw samples/hesk-neck.pickup -o hesk-neck.svg',
    meaning: 'coils seen from the strings, every lead named, findings on the drawing',
  },
  async run(values, [file = ''], context) {
    const source = await requireSource(file, values, context);
    const analysis = analyseSource(source, context);
    const pickup = chosenPickup(analysis, values.pickup, source.shown);
    const { svg } = drawPickup(pickupPicture(analysis, pickup), values.width);
    context.progress.clear();
    if (values.output === undefined) {
      context.stdout.write(svg);
      return 0;
    }
    const target = path.resolve(context.cwd, values.output);
    const picture = path.extname(target).toLowerCase() === '.png' ? png(svg, values.output) : svg;
    writeFile(target, picture, { replace: values.force });
    context.stdout.write(`${visible(shownPath(target, context.cwd))}\n`);
    return 0;
  },
});

function chosenPickup({ pickups }: Analysis, name: string | undefined, shown: string): PickupAnalysis {
  const names = pickups.map(({ pickup }) => pickup.name);
  const [only, another] = pickups;
  if (only === undefined) throw new CommandError(`${shown} holds no pickup to draw`);
  if (name === undefined) {
    if (another === undefined) return only;
    throw new CommandError(
      `${shown} holds several pickups; --pickup NAME says which: ${names.slice(0, 20).join(', ')}`,
    );
  }
  const chosen = pickups.find(({ pickup }) => pickup.name === name);
  if (chosen !== undefined) return chosen;
  const likely = meant(name, names);
  const hint = likely === undefined ? `only ${names.slice(0, 20).join(', ')}` : `did you mean ${likely}?`;
  throw new CommandError(`${shown} has no pickup ${name}: ${hint}`);
}

/** Twice the size of the SVG, for screens with small pixels. */
const PNG_ZOOM = '2';

function png(svg: string, output: string): Uint8Array {
  try {
    return execFileSync('rsvg-convert', ['--zoom', PNG_ZOOM, '--format', 'png'], {
      input: svg,
      stdio: ['pipe', 'pipe', 'ignore'],
      maxBuffer: 256 * 1024 * 1024,
    });
  } catch (error) {
    const reason =
      errorCode(error) === 'ENOENT'
        ? 'a PNG needs rsvg-convert (Debian package librsvg2-bin); a name in .svg needs nothing'
        : 'rsvg-convert could not make a PNG of the drawing';
    throw new CommandError(`${output}: ${reason}`);
  }
}
