/** The schema as readable pages. */

import { UNITS } from '../values/unit-table.ts';
import { capital } from './capital.ts';
import { describePattern } from './describe-shape.ts';
import type { BlockSchema, FactSchema, History } from './schema/block-schema.ts';
import { schemas } from './schema/index.ts';
import type { Shape } from './schema/shape.ts';

/** Markdown; `introduction` is what comes before the blocks. */
export function languageReference(introduction: string): string {
  const pages = [
    introduction.trimEnd(),
    '## Units',
    unitList(),
    '## Blocks',
    contents(),
    ...[...schemas.values()].map(blockPage),
  ];
  return `${pages.join('\n\n')}\n`;
}

function unitList(): string {
  return [...new Set(UNITS.map(({ dimension }) => dimension))]
    .map((dimension) => {
      const symbols = UNITS.filter((unit) => unit.dimension === dimension).flatMap(({ symbol, printed }) => [
        ...new Set([symbol, printed]),
      ]);
      return `- ${dimension}: ${symbols.map((symbol) => `\`${symbol}\``).join(' ')}`;
    })
    .join('\n');
}

function contents(): string {
  return [...schemas.values()].map(({ keyword, meaning }) => `- [\`${keyword}\`](#${keyword}): ${meaning}`).join('\n');
}

function blockPage(schema: BlockSchema): string {
  const { keyword, head, meaning, example, topLevel, blocks, like, reworks, history } = schema;
  const holders = [...schemas.values()]
    .filter((other) => other.blocks.includes(keyword))
    .map((other) => `\`${other.keyword}\``);
  const pattern = describePattern(head, keyword).text;
  const sentences = [
    topLevel ? 'Stands at the top of a file.' : `Stands in ${holders.join(' or ')}.`,
    blocks.length > 0 ? `Holds ${blocks.map((inner) => `\`${inner}\``).join(', ')}.` : '',
    like ? 'May be made `like` another.' : '',
    reworks ? 'May be a later state of another, which it `reworks`.' : '',
    historyNote(history),
  ];
  return [
    `### ${keyword}`,
    `${capital(meaning)}.`,
    `\`${pattern}${like ? ` [like${reworks ? '|reworks' : ''} <name>]` : ''} { … }\``,
    sentences.filter((sentence) => sentence !== '').join(' '),
    `\`\`\`pickup\n${example}\n\`\`\``,
    ...Object.values(schema.facts).map(factEntry),
  ].join('\n\n');
}

/** What is not taken over, and by which of the two ways to make a block from another. */
function historyNote(history: History | undefined): string {
  if (history === undefined) return '';
  return history === 'of the piece'
    ? 'Belongs to one piece: `like` does not take it over.'
    : 'Belongs to one state of one piece: neither `like` nor `reworks` takes it over.';
}

function factEntry(fact: FactSchema): string {
  const { word, shape, meaning, assumed, repeats, insteadOf, history, example } = fact;
  const notes = [
    assumed === undefined ? '' : `Left out: ${assumed}.`,
    repeats ? 'May stand more than once.' : '',
    insteadOf ? `Instead of ${insteadOf.map((other) => `\`${other}\``).join(' or ')}.` : '',
    historyNote(history),
    limitsOf(shape),
  ].filter((note) => note !== '');
  return [
    `**\`${describePattern(shape, word).text}\`** — ${meaning}.`,
    ...(notes.length > 0 ? [notes.join(' ')] : []),
    `Example: \`${example}\``,
  ].join('  \n');
}

/** Limits of a fact that is one number. */
function limitsOf(shape: Shape): string {
  if (shape.kind !== 'quantity' && shape.kind !== 'count' && shape.kind !== 'number') return '';
  const { min, max } = shape;
  const isAbove = 'exclusiveMin' in shape && shape.exclusiveMin;
  const isBelow = 'exclusiveMax' in shape && shape.exclusiveMax;
  const limits = [
    min === undefined ? '' : `${isAbove ? 'above' : 'from'} ${min}`,
    max === undefined ? '' : `${isBelow ? 'below' : 'to'} ${max}`,
  ].filter((limit) => limit !== '');
  return limits.length > 0 ? `Value: ${limits.join(isAbove || isBelow ? ' and ' : ' ')}.` : '';
}
