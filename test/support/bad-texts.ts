/** Bad texts made out of a good one, in classes: what a keyboard, an editor, an encoding or an ill will makes of a spec. */
import { uniform } from './chance.ts';

export interface BadText {
  readonly kind: string;
  readonly text: string;
}

const CHARACTERS: Readonly<Record<string, string>> = {
  nothing: '\0',
  'byte order mark': '\uFEFF',
  'zero width space': '\u200B',
  'right to left': '\u202E',
  'line separator': '\u2028',
  'next line': '\u0085',
  'form feed': '\f',
  escape: '\x1b[31m',
  emoji: '😀',
  'joined emoji': '👩‍🔧',
  combining: `a${'\u0300'.repeat(200)}`,
  'ohm sign': '\u2126',
  'full width digits': '１２',
  'first half of a pair': '\uD83D',
  'second half of a pair': '\uDE00',
  'smart quotes': '“x”',
  'letter beyond the first plane': '𝒜',
};

const NUMBERS = [
  '0',
  '-0',
  '-1',
  '1e308',
  '9'.repeat(400),
  '1.',
  '.5',
  '1.2.3',
  '0x10',
  '1,5',
  '1_',
  '--1',
  'NaN',
  '1k5',
  '4.7.k',
  '+1',
];

const NAMES = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'then',
  'null',
  'like',
  'use',
  'x',
  '_',
  '-',
  '变量',
  'a'.repeat(100_000),
];

const HOSTILE = [
  '<script>alert(1)</script>',
  '$(touch x)',
  '{{x}}',
  '../../../../etc/passwd',
  '</text></svg>',
  '\\\\host\\share',
  '%00',
  ']]><x/>',
];

/** Every class; the same text and seed give the same texts. */
export const BAD_TEXTS: Readonly<Record<string, (text: string, seed: number) => Generator<BadText>>> = {
  'other encodings, line ends and characters': wholeTexts,
  'tokens left out or written twice': (text) => changedTokens(text, ({ text: token }) => ['', `${token} ${token}`]),
  'tokens replaced': (text, seed) => {
    const random = uniform(seed);
    const all = tokensOf(text);
    const any = () => all[Math.floor(random() * all.length)]?.text ?? '';
    return changedTokens(text, ({ text: token }) => [any(), `${any()} ${token}`, ...otherMarks(token, random)]);
  },
  'tokens misspelt': (text) => changedTokens(text, ({ text: token }) => [token.slice(0, -1), token.toUpperCase()]),
  'tokens exchanged': exchangedTokens,
  'a beginning or an end of it': partsOfText,
  'lines broken': brokenLines,
  'values replaced': (text, seed) => replacedValues(text, uniform(seed)),
  'deep nesting': nestedTexts,
  size: largeTexts,
  'random edits': (text, seed) => randomEdits(text, uniform(seed)),
};

/** Of all classes every `step`th text: a sample that costs little. */
export function* sampledBadTexts(text: string, seed: number, step: number): Generator<BadText> {
  let count = 0;
  for (const texts of Object.values(BAD_TEXTS)) {
    for (const bad of texts(text, seed)) if (count++ % step === 0) yield bad;
  }
}

function* wholeTexts(text: string): Generator<BadText> {
  yield { kind: 'empty', text: '' };
  yield { kind: 'only line ends', text: '\n'.repeat(10_000) };
  for (const end of ['\r\n', '\r', '\r\r\n', ' ', '\u2028', ' \t \n']) {
    yield { kind: `line ends ${JSON.stringify(end)}`, text: text.replaceAll('\n', end) };
  }
  yield { kind: 'two byte order marks', text: `\uFEFF\uFEFF${text}` };
  yield { kind: 'wrong encoding', text: Buffer.from(text, 'utf16le').toString('latin1') };
  yield {
    kind: 'binary',
    text: Buffer.from(Array.from({ length: 1024 }, (_, index) => (index * 197) % 256)).toString('latin1'),
  };
  yield { kind: 'twice', text: `${text}\n${text}` };
  for (const [name, characters] of Object.entries(CHARACTERS)) {
    for (const part of [0, 0.3, 0.61, 1]) {
      const at = Math.floor(text.length * part);
      yield { kind: name, text: text.slice(0, at) + characters + text.slice(at) };
    }
  }
}

const TOKEN = /"(?:[^"\\\n]|\\.)*"|#[^\n]*|[\p{L}_][\p{L}\p{N}_-]*|\d+(?:\.\d+)?|[^\s]/gu;

interface Token {
  readonly text: string;
  readonly start: number;
}

const tokensOf = (text: string): readonly Token[] =>
  [...text.matchAll(TOKEN)].map((match) => ({ text: match[0], start: match.index }));

/** Each token in turn in other words. */
function* changedTokens(text: string, others: (token: Token) => readonly string[]): Generator<BadText> {
  for (const token of tokensOf(text)) {
    const rest = text.slice(token.start + token.text.length);
    for (const other of others(token)) {
      yield { kind: `${token.text} as ${other}`, text: text.slice(0, token.start) + other + rest };
    }
  }
}

/** Another mark in place of a mark. */
const otherMarks = (token: string, random: () => number): readonly string[] =>
  token.length === 1 ? ['{}()[]<>;:,.=+-*/|&@$%^~`"\'\\?!'.charAt(Math.floor(random() * 31))] : [];

function* exchangedTokens(text: string): Generator<BadText> {
  const tokens = tokensOf(text);
  for (const [index, token] of tokens.entries()) {
    const next = tokens[index + 1];
    if (!next) continue;
    const between = text.slice(token.start + token.text.length, next.start);
    const rest = text.slice(next.start + next.text.length);
    yield { kind: 'tokens exchanged', text: text.slice(0, token.start) + next.text + between + token.text + rest };
  }
}

function* partsOfText(text: string): Generator<BadText> {
  for (const token of tokensOf(text)) {
    yield { kind: 'cut off here', text: text.slice(0, token.start + token.text.length) };
    yield { kind: 'begins here', text: text.slice(token.start) };
  }
}

function* brokenLines(text: string): Generator<BadText> {
  const lines = text.split('\n');
  for (const [index, line] of lines.entries()) {
    yield { kind: 'line missing', text: lines.filter((_, other) => other !== index).join('\n') };
    yield {
      kind: 'line twice',
      text: lines.flatMap((other, at) => (at === index ? [line, line] : [other])).join('\n'),
    };
  }
  yield { kind: 'lines reversed', text: lines.toReversed().join('\n') };
}

function* replacedValues(text: string, random: () => number): Generator<BadText> {
  const all = (pattern: RegExp) => [...text.matchAll(pattern)];
  const replace = (match: RegExpExecArray, replacement: string) =>
    text.slice(0, match.index) + replacement + text.slice(match.index + match[0].length);
  const some = <T>(list: readonly T[], count: number) => list.filter(() => random() < count / list.length);
  for (const match of some(all(/\d+(?:\.\d+)?/g), 6)) {
    for (const number of NUMBERS) yield { kind: `number ${number.slice(0, 12)}`, text: replace(match, number) };
  }
  for (const match of some(all(/[a-z][a-z-]*/g), 6)) {
    for (const name of NAMES) {
      yield { kind: `name ${name.slice(0, 12)}`, text: replace(match, name) };
      if (name.length < 100) yield { kind: `name everywhere ${name}`, text: text.replaceAll(match[0], name) };
    }
  }
  for (const match of some(all(/"[^"\n]*"/g), 4)) {
    for (const hostile of HOSTILE) yield { kind: 'hostile text', text: replace(match, `"${hostile}"`) };
  }
  for (const hostile of HOSTILE) yield { kind: 'hostile line', text: `${text}\n${hostile}\n` };
}

function* nestedTexts(text: string): Generator<BadText> {
  const middle = text.indexOf('\n', text.length / 2) + 1;
  const insert = (inserted: string) => text.slice(0, middle) + inserted + text.slice(middle);
  for (const [open, close] of [
    ['{', '}'],
    ['(', ')'],
    ['pickup p {', '}'],
    ['coil c {\n', '}\n'],
    ['reversed ', 'a'],
  ] as const) {
    for (const depth of [100, 20_000]) {
      yield { kind: `${depth} ${open}${close}`, text: insert(open.repeat(depth) + close.repeat(depth)) };
      yield { kind: `${depth} ${open}`, text: insert(open.repeat(depth)) };
      yield { kind: `${depth} ${close}`, text: insert(close.repeat(depth)) };
    }
  }
}

function* largeTexts(text: string): Generator<BadText> {
  const large: Readonly<Record<string, string>> = {
    'one word': 'x'.repeat(1_000_000),
    'one text': `"${'x'.repeat(1_000_000)}`,
    'one comment': `# ${'y'.repeat(1_000_000)}`,
    digits: '1'.repeat(500_000),
    spaces: `${' '.repeat(500_000)}x`,
    mistakes: '@ '.repeat(20_000),
    backslashes: `"${'\\'.repeat(50_001)}`,
    points: `1${'.1'.repeat(50_000)}`,
    dashes: `a${'-'.repeat(100_000)}!`,
    commas: ','.repeat(50_000),
    operators: 'parallel '.repeat(50_000),
    'line ends behind parallel': 'parallel\n'.repeat(20_000),
    'open parentheses and lines': '(\n'.repeat(20_000),
    'semicolons and braces': '{;}'.repeat(20_000),
  };
  for (const [kind, piece] of Object.entries(large)) yield { kind: `large: ${kind}`, text: `${text}\n${piece}` };
  yield { kind: 'large: on one line', text: text.replaceAll('\n', ' ').repeat(Math.ceil(300_000 / (text.length + 1))) };
  yield { kind: 'large: a hundred times', text: `${text}\n`.repeat(100) };
}

function* randomEdits(text: string, random: () => number): Generator<BadText> {
  for (let count = 0; count < 300; count++) {
    let edited = text;
    for (let edits = 1 + Math.floor(random() * 6); edits > 0; edits--) edited = randomEdit(edited, random);
    yield { kind: 'random edits', text: edited };
  }
}

/** One insertion, deletion, replacement or paste somewhere. */
export function randomEdit(text: string, random: () => number): string {
  const start = Math.floor(random() * (text.length + 1));
  const end = Math.min(text.length, start + Math.floor(random() * 12));
  const from = Math.floor(random() * (text.length + 1));
  const typed = [
    '{',
    '}',
    '"',
    '\n',
    '\r\n',
    ' ',
    ';',
    '(',
    ')',
    ',',
    '#',
    '1',
    'x',
    '±',
    '😀',
    'like ',
    'coil c {\n',
    'use "a"\n',
  ];
  switch (Math.floor(random() * 4)) {
    case 0:
      return text.slice(0, start) + text.slice(end);
    case 1:
      return text.slice(0, start) + text.slice(from, from + Math.floor(random() * 60)) + text.slice(start);
    case 2:
      return text.slice(0, start) + String.fromCharCode(32 + Math.floor(random() * 95)) + text.slice(end);
    default:
      return text.slice(0, start) + (typed[Math.floor(random() * typed.length)] ?? '') + text.slice(start);
  }
}
