/** The shop's samples: their texts, and what is known about each, made once for all tests of a process. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { type Analyser, createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';

export const SAMPLES = path.resolve(import.meta.dirname, '../../samples');

export interface SampleFile {
  /** Below `samples/`. */
  readonly path: string;
  readonly text: string;
}

let read: readonly SampleFile[] | undefined;

/** All of them, parts and mistakes included, in order of path. */
export function sampleFiles(): readonly SampleFile[] {
  read ??= readdirSync(SAMPLES, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.pickup'))
    .map((name) => name.split(path.sep).join('/'))
    .sort()
    .map((name) => ({ path: name, text: readFileSync(path.join(SAMPLES, name), 'utf8') }));
  return read;
}

/** Those that are neither parts nor mistakes. */
export const sampleNames: readonly string[] = sampleFiles().flatMap((file) =>
  file.path.includes('/') ? [] : [file.path],
);

export function sampleText(name: string): string {
  const file = sampleFiles().find((each) => each.path === name);
  if (file === undefined) throw new Error(`no sample ${name}`);
  return file.text;
}

/** What it has read of a sample, or of a text that holds the same pieces, it knows for all tests of the process. */
export const analyser: Analyser = createAnalyser();
const analysed = new Map<string, Analysis>();

/** A sample as it stands, the same object each time, or with its text changed. */
export function analysedSample(name: string, edit?: (text: string) => string): Analysis {
  if (edit !== undefined) return analysedText(edit(sampleText(name)), name);
  const known = analysed.get(name) ?? analyser.analyse(uriOf(path.join(SAMPLES, name)), diskHost(SAMPLES));
  analysed.set(name, known);
  return known;
}

/** A spec of its own that may use the shop's parts. */
export function analysedText(text: string, name = 'made-up.pickup'): Analysis {
  const uri = uriOf(path.join(SAMPLES, name));
  return analyser.analyse(uri, diskHost(SAMPLES, new Map([[uri, text]])));
}
