import type { FactSchema } from '../../../grammar/src/schema/block-schema.ts';
import { schemas } from '../../../grammar/src/schema/index.ts';
import type { NameKind } from '../../../grammar/src/schema/shape.ts';

/** Names that a placeholder of a kind may offer. */
export type NamesOf = (kind: NameKind) => readonly string[];

/** A line of a new block: a fact by its field with what stands behind its word, or an inner block. */
type Line = { readonly fact: string; readonly value?: string } | { readonly block: string };

interface Body {
  /** What stands behind the keyword. */
  readonly head: readonly string[];
  readonly lines: readonly Line[];
}

/** What one would type first in a block of each kind. Lead names agree, so that a new pickup reads without a finding. */
const BODIES: Readonly<Record<string, Body>> = {
  bench: {
    head: [],
    lines: [
      { fact: 'mains', value: '50 Hz' },
      { fact: 'room', value: '21 degC' },
    ],
  },
  wire: { head: ['wire-name'], lines: [{ fact: 'gauge' }, { fact: 'build' }, { fact: 'enamel' }] },
  spool: { head: ['spool-name'], lines: [{ fact: 'wire' }, { fact: 'left' }, { fact: 'measures' }] },
  bobbin: {
    head: ['bobbin-name'],
    lines: [{ fact: 'core' }, { fact: 'window' }, { fact: 'poles' }, { fact: 'pole' }, { fact: 'plastic' }],
  },
  magnet: { head: ['magnet-name'], lines: [{ fact: 'material' }, { fact: 'size' }] },
  switch: { head: ['switch-name'], lines: [{ fact: 'poles', value: 'a0 to a1 a2 a3 a4 a5' }] },
  pickup: {
    head: ['pickup-name', '"Title"'],
    lines: [{ fact: 'strings', value: '6' }, { block: 'coil' }, { block: 'hookup' }],
  },
  coil: {
    head: ['main'],
    lines: [
      { fact: 'bobbin' },
      { fact: 'wire' },
      { fact: 'turns', value: '5_000' },
      { fact: 'wound' },
      { fact: 'polarity' },
      { fact: 'start', value: 'black' },
      { fact: 'finish', value: 'white' },
    ],
  },
  hookup: {
    head: [],
    lines: [
      { fact: 'hot', value: 'white' },
      { fact: 'ground', value: 'black' },
    ],
  },
  readings: { head: ['"after winding"'], lines: [{ fact: 'room', value: '21 degC' }, { fact: 'resistance' }] },
  potting: { head: [], lines: [{ fact: 'wax' }, { fact: 'bath' }, { fact: 'soak' }, { fact: 'batch' }] },
  target: { head: [], lines: [{ fact: 'resistance' }] },
  instrument: {
    head: ['instrument-name', '"Title"'],
    lines: [{ fact: 'scale' }, { fact: 'strings' }, { fact: 'pickup' }, { block: 'controls' }, { block: 'selector' }],
  },
  controls: { head: [], lines: [{ fact: 'volume' }, { fact: 'tone' }] },
  wiring: { head: [], lines: [{ fact: 'hot' }, { fact: 'link' }, { fact: 'ground' }] },
  selector: { head: [], lines: [{ fact: 'position', value: '1 "bridge" bridge' }] },
};

/** A whole block of a kind as a snippet, with a stop for each thing to fill in. */
export function blockSnippet(keyword: string, namesOf: NamesOf): string | undefined {
  if (!Object.hasOwn(BODIES, keyword)) return undefined;
  const stops = { next: 1 };
  return `${blockLines(keyword, namesOf, stops).join('\n')}$0`;
}

/** A fact's line as a snippet: its word, and its example behind it to type over. */
export function factSnippet(schema: FactSchema, namesOf: NamesOf): string {
  return factLine(schema, undefined, namesOf, { next: 1 });
}

interface Stops {
  next: number;
}

function blockLines(keyword: string, namesOf: NamesOf, stops: Stops): readonly string[] {
  const body = BODIES[keyword];
  const facts = schemas.get(keyword)?.facts ?? {};
  const head = (body?.head ?? []).map((part) => ` ${stop(stops, part)}`).join('');
  const lines = (body?.lines ?? []).flatMap((line): readonly string[] => {
    if ('block' in line) return blockLines(line.block, namesOf, stops);
    const schema = facts[line.fact];
    return schema ? [factLine(schema, line.value, namesOf, stops)] : [];
  });
  return [`${keyword}${head} {`, ...lines.map((line) => `  ${line}`), '}'];
}

function factLine(schema: FactSchema, value: string | undefined, namesOf: NamesOf, stops: Stops): string {
  const { word, shape, example } = schema;
  const before = word === undefined ? '' : `${word} `;
  if (shape.kind === 'word') return before + choice(stops, shape.words);
  if (shape.kind === 'name' && shape.declares !== true) {
    const names = namesOf(shape.of);
    if (names.length > 0) return before + choice(stops, names);
  }
  const rest = value ?? (word === undefined ? example : example.slice(word.length).trim());
  return rest === '' ? before.trim() : before + stop(stops, rest);
}

const stop = (stops: Stops, text: string): string => `\${${stops.next++}:${text.replace(/[\\$}]/g, '\\$&')}}`;

function choice(stops: Stops, words: readonly string[]): string {
  return `\${${stops.next++}|${words.map((word) => word.replace(/[\\$},|]/g, '\\$&')).join(',')}|}`;
}
