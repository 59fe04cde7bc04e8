/** The schema's words as a TextMate grammar, for colours before the language server answers and where none runs. */
import { UNITS } from '../values/unit-table.ts';
import { languageWords } from './language-words.ts';

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly include?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly beginCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly endCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Rule[];
}

export interface TextMateGrammar {
  readonly name: string;
  readonly scopeName: string;
  readonly fileTypes: readonly string[];
  readonly patterns: readonly Rule[];
  readonly repository: Readonly<Record<string, Rule>>;
}

const NAME_PART = '[\\p{L}\\p{M}\\p{N}_-]';
const NAME = `\\p{L}${NAME_PART}*`;
const BEFORE = '(?<![\\p{L}\\p{M}\\p{N}_.-])';
const BEHIND = '(?![\\p{L}\\p{M}\\p{N}_-]|\\.\\p{L})';
/** A number begins where no name goes on, or behind the `x` of a size. */
const NUMBER_BEFORE = '(?:(?<![\\p{L}_.])|(?<=\\dx))';
/** Where a line's first word may stand. */
const LINE_START = '(?:^|(?<=[{;}]))\\s*';

export function textMateGrammar(): TextMateGrammar {
  const { blocks, facts, joining, values, operators } = languageWords();
  const unit = alternatives(UNITS.flatMap(({ spellings }) => spellings));
  return {
    name: 'Pickup Spec',
    scopeName: 'source.pickup',
    fileTypes: ['pickup'],
    patterns: [
      { include: '#comment' },
      { include: '#use' },
      { include: '#block' },
      { include: '#fact' },
      { include: '#accept' },
      { include: '#item' },
      { name: 'punctuation.section.block.pickup', match: '[{}]' },
    ],
    repository: {
      comment: { name: 'comment.line.number-sign.pickup', match: '#.*$' },
      use: {
        match: `^\\s*(use)${BEHIND}`,
        captures: { 1: { name: 'keyword.control.import.pickup' } },
      },
      block: {
        begin: `${LINE_START}(${alternatives(blocks)})${BEHIND}(?=(?:[^"#{}]|"(?:[^"\\\\]|\\\\.)*")*\\{)`,
        beginCaptures: { 1: { name: 'storage.type.block.pickup' } },
        end: '\\{|$',
        endCaptures: { 0: { name: 'punctuation.section.block.pickup' } },
        patterns: [
          { include: '#comment' },
          { include: '#string' },
          { include: '#date' },
          {
            match: `${BEFORE}(like|reworks)\\s+(${NAME})`,
            captures: { 1: { name: 'keyword.other.like.pickup' }, 2: { name: 'entity.other.inherited-class.pickup' } },
          },
          { name: 'keyword.other.pickup', match: `${BEFORE}(?:like|reworks|found|apart)${BEHIND}` },
          { name: 'entity.name.type.pickup', match: NAME },
        ],
      },
      fact: {
        match: `${LINE_START}(${alternatives(facts)})${BEHIND}`,
        captures: { 1: { name: 'support.type.property-name.pickup' } },
      },
      accept: { name: 'constant.other.finding.pickup', match: `${BEFORE}[a-z]+/[a-z-]+${BEHIND}` },
      item: {
        patterns: [
          { include: '#string' },
          { include: '#date' },
          { name: 'invalid.illegal.number.pickup', match: `${BEFORE}\\d[\\d_]*,\\d[\\d_,]*` },
          {
            match: `${NUMBER_BEFORE}([+\\-−]?\\d[\\d_]*(?:\\.\\d+)?)\\s*(${unit})(?![\\p{L}\\p{M}\\p{N}_/-])`,
            captures: { 1: { name: 'constant.numeric.pickup' }, 2: { name: 'keyword.other.unit.pickup' } },
          },
          {
            name: 'constant.numeric.code.pickup',
            match: `${BEFORE}[+\\-−]?\\d[\\d_]*(?:\\.\\d+)?[RKkMpnuµμm]\\d*(?![\\p{L}\\p{N}_/-])`,
          },
          { name: 'constant.numeric.pickup', match: `${NUMBER_BEFORE}[+\\-−]?\\d[\\d_]*(?:\\.\\d+)?` },
          { name: 'variable.other.path.pickup', match: `${BEFORE}${NAME}(?:\\.${NAME})+` },
          { name: 'keyword.operator.word.pickup', match: `${BEFORE}(?:${alternatives(operators)})${BEHIND}` },
          { name: 'keyword.other.pickup', match: `${BEFORE}(?:${alternatives(joining)})${BEHIND}` },
          { name: 'constant.language.pickup', match: `${BEFORE}(?:${alternatives(values)})${BEHIND}` },
          { name: 'keyword.operator.size.pickup', match: '(?<=[\\d\\s])x(?=[\\d\\s.])|×' },
          { name: 'keyword.operator.uncertainty.pickup', match: '±|\\+/?-' },
          { name: 'punctuation.separator.pickup', match: '[,;]' },
          { name: 'punctuation.section.group.pickup', match: '[()]' },
          { name: 'variable.other.pickup', match: NAME },
        ],
      },
      date: { name: 'constant.numeric.date.pickup', match: `${BEFORE}\\d{4}-\\d{1,2}-\\d{1,2}${BEHIND}` },
      string: {
        name: 'string.quoted.double.pickup',
        begin: '"',
        end: '"|$',
        patterns: [{ name: 'constant.character.escape.pickup', match: '\\\\["\\\\]' }],
      },
    },
  };
}

/** Longest first, so that `ohm/m` is not taken for `ohm`. */
function alternatives(words: readonly string[]): string {
  return [...words]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'))
    .join('|');
}
