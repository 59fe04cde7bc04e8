/** The pictures of the lesson's walkthrough, drawn by the tool itself from the lesson's spec, one for each theme: `npm run pictures`. */
import { readFileSync } from 'node:fs';
import { LESSON_READINGS } from '../../client/src/features/lesson/lesson-steps.ts';
import { type Colour, colouredRuns, type Run } from '../../grammar/src/coloured-text.ts';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis, PickupAnalysis } from '../../server/src/analysis/analysis-types.ts';
import { pickupResponsePicture } from '../../server/src/documents/response-plot/from-model.ts';
import { responsePlot } from '../../server/src/documents/response-plot/response-plot.ts';
import { escapeText } from '../../server/src/documents/svg.ts';
import { PALETTES, type Palette, type ThemeName } from '../../server/src/documents/theme.ts';
import { pickupPicture } from '../../server/src/documents/wiring-diagram/from-model.ts';
import { drawPickup } from '../../server/src/documents/wiring-diagram/wiring-diagram.ts';
import { MENDED } from '../support/lesson.ts';

const LESSON = 'client/walkthrough/lesson.pickup';

/** How the manifest calls a theme, what the file of it ends in, and what marks the page in which the drawings take it. */
const THEMES = [
  { theme: 'light', ending: 'light', mark: 'vscode-light' },
  { theme: 'dark', ending: 'dark', mark: 'vscode-dark' },
  { theme: 'hc dark', ending: 'hc', mark: 'vscode-high-contrast' },
  { theme: 'hc light', ending: 'hcLight', mark: 'vscode-high-contrast-light' },
] as const satisfies readonly { readonly theme: ThemeName; readonly ending: string; readonly mark: string }[];

/** Paths from the repository's root. */
export function lessonPictures(): readonly { readonly path: string; readonly text: string }[] {
  const found = readFileSync(LESSON, 'utf8');
  const mended = MENDED.reduce((text, [was, is]) => text.replace(was, is), found);
  const [before, now] = [analysed(found), analysed(mended)];
  const wiring = ({ analysis, pickup }: Analysed): string => drawPickup(pickupPicture(analysis, pickup), 'narrow').svg;
  const plot = responsePlot(
    required(pickupResponsePicture(now, before, { names: { before: 'as it came in', now: 'now' } })),
    'narrow',
  );
  const hookup = linesOf(found, '  hookup {', '  }');
  const excerpts = {
    open: { lines: hookup, wrong: 'link turquoise grey', says: 'The two coils work against each other.' },
    read: { lines: LESSON_READINGS },
    why: {
      lines: LESSON_READINGS,
      wrong: 'hot to ground 4.15 kohm',
      says: 'Both coils together should read 8.27 kΩ.',
    },
    keep: { lines: MENDED.flatMap(([was, is]) => [`- ${was}`, `+ ${is}`]), says: 'The pickup of the lesson, mended' },
  };
  const drawings = { look: wiring(before), mend: wiring(now), compare: plot };
  return THEMES.flatMap(({ theme, ending, mark }) => [
    ...Object.entries(excerpts).map(([step, excerpt]) => ({
      path: pathOf(step, ending),
      text: drawExcerpt(excerpt, PALETTES[theme]),
    })),
    ...Object.entries(drawings).map(([step, svg]) => ({ path: pathOf(step, ending), text: inTheme(svg, mark) })),
  ]);
}

const pathOf = (step: string, ending: string): string => `client/walkthrough/${step}-${ending}.svg`;

interface Analysed {
  readonly analysis: Analysis;
  readonly pickup: PickupAnalysis;
}

function analysed(text: string): Analysed {
  const uri = 'file:///lesson/lesson.pickup';
  const analysis = createAnalyser().analyse(uri, {
    content: () => ({ kind: 'text', text }),
    isInside: () => true,
    photo: () => ({ kind: 'missing' }),
  });
  return { analysis, pickup: required(analysis.pickups[0]) };
}

function required<T>(value: T | undefined): T {
  if (value === undefined) throw new Error(`${LESSON} no longer holds what its pictures show`);
  return value;
}

function linesOf(text: string, from: string, to: string): readonly string[] {
  const lines = text.split('\n');
  const start = lines.indexOf(from);
  return lines.slice(start, lines.indexOf(to, start) + 1).map((line) => line.slice(2));
}

/** The drawing within something that is marked as the editor marks its pages: standing alone, it would follow the reader's system. */
function inTheme(svg: string, mark: string): string {
  const size = /viewBox="([^"]+)"/.exec(svg)?.[1] ?? '';
  const [, , width, height] = size.split(' ');
  return `<svg xmlns="http://www.w3.org/2000/svg" class="${mark}" width="${width}" height="${height}" viewBox="${size}">${svg}</svg>\n`;
}

interface Excerpt {
  readonly lines: readonly string[];
  /** What is underlined as wrong. */
  readonly wrong?: string;
  readonly says?: string;
}

const WIDTH = 520;
const LINE_HEIGHT = 24;
const CHARACTER = 9;
const LEFT = 22;

const COLOURS: Readonly<Record<Colour, keyof Palette>> = {
  keyword: 'live',
  name: 'ink',
  number: 'ink',
  string: 'ink2',
  comment: 'ink2',
};

/** Lines of a spec as the editor shows them, with what is said of them below. */
function drawExcerpt({ lines, wrong, says }: Excerpt, palette: Palette): string {
  const top = 40;
  const bottom = top + lines.length * LINE_HEIGHT;
  const height = bottom + (says === undefined ? 8 : 62);
  const at = (line: number): number => top + line * LINE_HEIGHT;
  const text = lineRuns(lines).map((line, index) => {
    const runs = line.map(({ text: run, colour }) => {
      const weight = colour === 'keyword' ? ' font-weight="600"' : '';
      return `<tspan fill="${palette[colour === undefined ? 'ink' : COLOURS[colour]]}"${weight}>${escapeText(run)}</tspan>`;
    });
    return `<text x="${LEFT}" y="${at(index)}" xml:space="preserve">${runs.join('')}</text>`;
  });
  const row = wrong === undefined ? -1 : lines.findIndex((line) => line.includes(wrong));
  const from = LEFT + (lines[row]?.indexOf(wrong ?? '') ?? 0) * CHARACTER;
  const wave = row < 0 ? '' : waveFrom(from, at(row) + 5, (wrong ?? '').length * CHARACTER, palette.find);
  const words =
    says === undefined
      ? ''
      : `<rect x="${LEFT}" y="${bottom - 2}" width="${WIDTH - 2 * LEFT}" height="42" fill="none" stroke="${palette[wrong === undefined ? 'line' : 'find']}"/>` +
        `<text x="${LEFT + 14}" y="${bottom + 24}" font-family="sans-serif" fill="${palette.ink}">${escapeText(says)}</text>`;
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" font-family="monospace" font-size="15">`,
    `<rect x="6" y="6" width="${WIDTH - 12}" height="${height - 12}" fill="${palette.paper}" stroke="${palette.line}"/>`,
    ...text,
    wave,
    words,
    '</svg>',
  ].join('\n')}\n`;
}

/** Coloured as one text, since what a word is depends on the block around it. */
function lineRuns(lines: readonly string[]): readonly (readonly Run[])[] {
  const runs: Run[][] = [[]];
  for (const { text, ...rest } of colouredRuns(lines.join('\n')))
    for (const [index, piece] of text.split('\n').entries()) {
      if (index > 0) runs.push([]);
      runs.at(-1)?.push({ ...rest, text: piece });
    }
  return runs;
}

function waveFrom(x: number, y: number, length: number, colour: string): string {
  const waves = 't 4.5 0 '.repeat(Math.max(0, Math.round(length / 4.5) - 1)).trim();
  return `<path d="M${x} ${y} q 2.25 -5 4.5 0 ${waves}" fill="none" stroke="${colour}" stroke-width="1.5"/>`;
}
