import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import type { FileMentions } from '../../server/src/analysis/file-mentions.ts';
import { FOLDER, hostOf } from '../support/check-fixture.ts';
import { readCursor } from '../support/marked-text.ts';

/** A shop with one of each part, so that a test writes only what it is about. */
export const PARTS = `wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
  enamel plain
}
spool RYD-W7 {
  wire plain-42
  measures 5.52 ohm/m at 20 degC
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
  poles 6 spread 50.0 mm
  pole rod alnico-5 4.8 x 16.5 mm
  plastic fibre
}
magnet bar-5 {
  material alnico-5
  size 63.5 x 12.7 x 3.2 mm
}
`;

/** One coil, its two leads as hot and ground: reads without a finding. */
export const SINGLE = `use "parts.pickup"

pickup wren "Wren" {
  strings 6
  coil main {
    bobbin rod-six
    wire plain-42
    turns 7_700
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  cover none
  hookup {
    hot violet
    ground grey
  }
}
`;

export const MAIN = `${FOLDER}main.pickup`;
const FILES: Readonly<Record<string, string>> = { 'parts.pickup': PARTS };

export interface AtCursor {
  readonly analysis: Analysis;
  readonly offset: number;
  readonly text: string;
}

/** Analyses a text in the shop; `‸` marks the cursor and is taken out. */
export function atCursor(marked: string, files: Readonly<Record<string, string>> = {}): AtCursor {
  const { text, offset } = readCursor(marked);
  return { analysis: analysed(text, files), offset, text };
}

export function analysed(text: string, files: Readonly<Record<string, string>> = {}): Analysis {
  return createAnalyser().analyse(MAIN, hostOf({ ...FILES, ...files, 'main.pickup': text }));
}

/** Several files of the shop by one analyser, as a server has them. */
export function analysedAll(files: Readonly<Record<string, string>>): Readonly<Record<string, Analysis>> {
  const analyser = createAnalyser();
  const all = { ...FILES, ...files };
  const host = hostOf(all);
  return Object.fromEntries(Object.keys(all).map((name) => [name, analyser.analyse(FOLDER + name, host)]));
}

/** What each file of the shop says of its names. */
export function mentionsOfAll(files: Readonly<Record<string, string>> = {}): readonly FileMentions[] {
  const analyser = createAnalyser();
  const all = { ...FILES, ...files };
  return Object.keys(all).map((name) => analyser.mentions(FOLDER + name, hostOf(all)));
}

/** Every prefix of a text, and the text without each of its lines: what a writer's file looks like on the way. */
export function* halfTyped(text: string): Generator<string> {
  for (let end = 0; end <= text.length; end += 1) yield text.slice(0, end);
  const lines = text.split('\n');
  for (const [index] of lines.entries()) yield lines.filter((_, each) => each !== index).join('\n');
}
