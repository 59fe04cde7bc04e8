/**
 * What a sample says of itself, a line each, so that a line that means nothing is an error and not a test that never runs:
 *
 *     # expect: error phase/coils-cancel at `link orange grey`; fix `polarity south-up`
 *     # expect: error lead/reused at second `finish brown`; related `finish brown`; no fix
 *     # expect: error lead/floating at `violet` in `conductors orange grey violet`; fix `free violet`
 *     # expect: clean
 *     # expect: hot to ground of neck 7.69 kohm at 21 degC
 *     # expect: pink to violet 8.64 kohm
 *     # expect: at the jack 7.58, 3.94 kohm
 *     # expect: screw coil 4940 turns
 *     # expect: hum -50 dB
 *
 * A finding is at exactly the quoted text (of a block, at its first line), in the line that is quoted after `in`. A fix is told by
 * the lines that are new after it, all of them in order; one that only removes is told by the lines that are gone: fix without
 * `turns 7_900`. Several results are parted by `or`; each must be offered. A file without a finding says so: `clean`.
 */

export const SEVERITIES = ['error', 'warning', 'information', 'hint'] as const;

export interface ExpectedPlace {
  readonly text: string;
  /** Which of the places that read like the text, counted from 1: whole lines of the file, or words of the line. */
  readonly occurrence: number;
  /** The whole line, where the text is not the whole of it. */
  readonly line: string | undefined;
}

export interface ExpectedFix {
  readonly kind: 'new lines' | 'lines gone';
  readonly lines: readonly string[];
}

export interface ExpectedFinding {
  readonly severity: (typeof SEVERITIES)[number];
  readonly code: string;
  readonly place: ExpectedPlace;
  readonly related: readonly string[];
  /** Results of fixes that must be offered; without any, no fix may be. */
  readonly fixes: readonly ExpectedFix[];
}

/** A number that is computed, as written: kohm, turns or dB. */
export type ExpectedNumber = { readonly written: string } & (
  | { readonly of: 'hot to ground'; readonly pickup: string | undefined; readonly temperatureC: number }
  | { readonly of: 'leads'; readonly leads: readonly [string, string] }
  | { readonly of: 'position'; readonly index: number }
  | { readonly of: 'turns'; readonly coil: string }
  | { readonly of: 'hum' }
);

export interface Expected {
  readonly isClean: boolean;
  readonly findings: readonly ExpectedFinding[];
  readonly numbers: readonly ExpectedNumber[];
}

const MARK = /^#\s*expect/;
const QUOTED = '`[^`]+`';
const NUMBER = '-?\\d+(?:\\.\\d+)?';
const FINDING = new RegExp(
  `^(?<severity>${SEVERITIES.join('|')}) (?<code>[a-z]+/[a-z-]+) at (?<nth>second |third )?(?<text>${QUOTED})(?: in (?<line>${QUOTED}))?` +
    `(?<related>(?:; related ${QUOTED})*); (?:no fix|fix (?<fixes>${oneOrMore(' or ', `(?:without )?${oneOrMore(' and ', QUOTED)}`)}))$`,
);

/** Reads the lines `# expect: …` of a file. Throws at one that says nothing. */
export function expectedOf(text: string): Expected {
  const lines = text.split('\n').filter((line) => MARK.test(line));
  const said = lines.map(readLine);
  const isClean = said.some((each) => each === 'clean');
  const parts = said.filter((each) => each !== 'clean');
  const findings = parts.flatMap((each) => each.findings ?? []);
  if (isClean === findings.length > 0) throw new Error('a file is either clean or says what is found in it');
  return { isClean, findings, numbers: parts.flatMap((each) => each.numbers ?? []) };
}

function readLine(line: string): 'clean' | Partial<Pick<Expected, 'findings' | 'numbers'>> {
  const said = line.startsWith('# expect: ') ? line.slice('# expect: '.length) : '';
  if (said === 'clean') return said;
  const finding = findingIn(said);
  if (finding) return { findings: [finding] };
  const numbers = numbersIn(said);
  if (numbers) return { numbers };
  throw new Error(`this line says nothing that can be tested: ${line}`);
}

function findingIn(said: string): ExpectedFinding | undefined {
  const groups = FINDING.exec(said)?.groups;
  const severity = SEVERITIES.find((each) => each === groups?.severity);
  if (!groups || !severity) return undefined;
  const { code = '', nth = '', text = '', line, related = '', fixes = '' } = groups;
  return {
    severity,
    code,
    place: {
      text: text.slice(1, -1),
      occurrence: ['', 'second ', 'third '].indexOf(nth) + 1,
      line: line?.slice(1, -1),
    },
    related: quotedIn(related),
    fixes: [...fixes.matchAll(new RegExp(`(without )?(${oneOrMore(' and ', QUOTED)})`, 'g'))].map(
      ([, without, lines = '']) => ({
        kind: without === undefined ? 'new lines' : 'lines gone',
        lines: quotedIn(lines),
      }),
    ),
  };
}

function numbersIn(said: string): readonly ExpectedNumber[] | undefined {
  const [, pickup, ofPickup, temperature] =
    new RegExp(`^hot to ground (?:of (\\S+) )?(${NUMBER}) kohm at (\\d+) degC$`).exec(said) ?? [];
  if (ofPickup !== undefined) {
    return [{ of: 'hot to ground', pickup, written: ofPickup, temperatureC: Number(temperature) }];
  }
  const [, list] = new RegExp(`^at the jack (${oneOrMore(', ', NUMBER)}) kohm$`).exec(said) ?? [];
  if (list !== undefined) return list.split(', ').map((written, index) => ({ of: 'position', index, written }));
  const [, from = '', to = '', between] = new RegExp(`^(\\w+) to (\\w+) (${NUMBER}) kohm$`).exec(said) ?? [];
  if (between !== undefined) return [{ of: 'leads', leads: [from, to], written: between }];
  const [, coil = '', turns] = /^(\w+) coil (\d+) turns$/.exec(said) ?? [];
  if (turns !== undefined) return [{ of: 'turns', coil, written: turns }];
  const [, level] = new RegExp(`^hum (${NUMBER}) dB$`).exec(said) ?? [];
  return level === undefined ? undefined : [{ of: 'hum', written: level }];
}

const quotedIn = (words: string): readonly string[] =>
  [...words.matchAll(/`([^`]+)`/g)].map(([, quoted = '']) => quoted);

function oneOrMore(separator: string, pattern: string): string {
  return `${pattern}(?:${separator}${pattern})*`;
}

/** What is found in a file, as far as an expectation can tell it. */
export interface Found {
  readonly severity: string;
  readonly code: string;
  /** Where its place begins and what stands there. */
  readonly start: number;
  readonly text: string;
  readonly related: readonly string[];
  /** The file after each of its fixes. */
  readonly fixed: readonly string[];
}

/** What keeps findings from being those that are expected, as sentences; none where they are. */
export function differences(
  file: string,
  expected: readonly ExpectedFinding[],
  found: readonly Found[],
): readonly string[] {
  const unused = [...found];
  const wrong = expected.flatMap((each) => {
    const start = offsetOf(file, each.place);
    if (start === undefined) return [`no line of the file reads ${quote(each.place.line ?? each.place.text)}`];
    const index = unused.findIndex(
      (one) =>
        one.severity === each.severity && one.code === each.code && one.start === start && isText(one, each.place),
    );
    const [match] = index < 0 ? [] : unused.splice(index, 1);
    if (!match) return [`not found: ${each.severity} ${each.code} at ${quote(each.place.text)}`];
    return [...relatedDifferences(each, match), ...fixDifferences(file, each, match)];
  });
  const beyond = unused.map(({ severity, code, text }) => `not expected: ${severity} ${code} at ${quote(text)}`);
  return [...wrong, ...beyond];
}

const quote = (text: string): string => `\`${text.split('\n')[0]}\``;

/** Of a block only its first line is quoted. */
const isText = ({ text }: Found, place: ExpectedPlace): boolean => text.split('\n')[0] === place.text;

function relatedDifferences({ code, related }: ExpectedFinding, found: Found): readonly string[] {
  return related
    .filter((each) => !found.related.includes(each))
    .map((each) => `${quote(each)} is not among the related lines of ${code}: ${found.related.map(quote).join(', ')}`);
}

function fixDifferences(file: string, { code, fixes }: ExpectedFinding, { fixed }: Found): readonly string[] {
  const offered = fixed.map((after) => resultOf(file, after));
  if (fixes.length === 0) return offered.map((each) => `${code} offers a fix: ${resultText(each)}`);
  return fixes
    .filter((each) => !offered.some((one) => resultText(one) === resultText(each)))
    .map(
      (each) =>
        `no fix of ${code} gives: ${resultText(each)}; they give: ${offered.map(resultText).join(' or ') || '–'}`,
    );
}

function resultOf(before: string, after: string): ExpectedFix {
  const lines = linesBeyond(after, before);
  return lines.length > 0 ? { kind: 'new lines', lines } : { kind: 'lines gone', lines: linesBeyond(before, after) };
}

const resultText = ({ kind, lines }: ExpectedFix): string =>
  `${kind === 'lines gone' ? 'without ' : ''}${lines.map(quote).join(' and ')}`;

/** The lines of a text that another does not hold as often, in order. */
function linesBeyond(text: string, other: string): readonly string[] {
  const rest = other.split('\n').map((line) => line.trim());
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => {
      const at = rest.indexOf(line);
      if (at >= 0) rest.splice(at, 1);
      return at < 0;
    });
}

function offsetOf(file: string, { text, occurrence, line }: ExpectedPlace): number | undefined {
  const words = new RegExp(`(?<![\\w.-])${text.replace(/\W/g, '\\$&')}(?![\\w.-])`, 'g');
  const starts: number[] = [];
  let offset = 0;
  for (const each of file.split('\n')) {
    const indent = each.length - each.trimStart().length;
    if (each.trim() === text) starts.push(offset + indent);
    if (each.trim() === line) starts.push(...[...each.matchAll(words)].map(({ index }) => offset + index));
    offset += each.length + 1;
  }
  return starts[occurrence - 1];
}
