/** Samples and made-up specs, analysed from memory. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';

const SAMPLES = path.resolve(import.meta.dirname, '../../samples');
const analyser = createAnalyser();

export const sampleNames: readonly string[] = readdirSync(SAMPLES).filter((name) => name.endsWith('.pickup'));

/** A sample as it stands, or with its text changed. */
export function analysedSample(name: string, edit: (text: string) => string = (text) => text): Analysis {
  const file = path.join(SAMPLES, name);
  const text = edit(readFileSync(file, 'utf8'));
  const uri = uriOf(file);
  const disk = diskHost(SAMPLES);
  return analyser.analyse(uri, {
    ...disk,
    isInside: (other) => disk.isInside(other),
    content: (other) => (other === uri ? { kind: 'text', text } : disk.content(other)),
  });
}

/** A spec of its own that may use the shop's parts. */
export function analysedText(text: string): Analysis {
  const uri = uriOf(path.join(SAMPLES, 'made-up.pickup'));
  const disk = diskHost(SAMPLES);
  return analyser.analyse(uri, {
    ...disk,
    isInside: (other) => disk.isInside(other),
    content: (other) => (other === uri ? { kind: 'text', text } : disk.content(other)),
  });
}
