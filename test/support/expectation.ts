/** What a sample's first comment expects, read from its words. */
export interface ExpectedFinding {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  /** The lines that it must stand at: the first its place, the others related. */
  readonly quotes: readonly string[];
  /** The quoted line of this coil. */
  readonly coil: string | undefined;
  /** The second line that reads like the quote. */
  readonly second: boolean;
  /** A word of the quoted line that the place must hold. */
  readonly word: string | undefined;
  /** What the text must hold once a fix is applied: alternatives of pieces. */
  readonly fixes: readonly (readonly string[])[];
  readonly noFix: boolean;
}

/** The leading comment, its lines joined, from `expect:` on. */
export function stated(text: string): string {
  const lines = text.split('\n');
  const first = lines.findIndex((line) => line.startsWith('# expect:'));
  const end = lines.findIndex(
    (line, index) => index > first && (!line.startsWith('#   ') || line.startsWith('# by hand')),
  );
  return first === -1
    ? ''
    : lines
        .slice(first, end)
        .map((line) => line.replace(/^#\s*(expect:)?\s*/, ''))
        .join(' ');
}

const SEVERITY = '(error|warning|information|hint)';

/** The finding that the comment names first, and those that it says come with it. */
export function expectedFindings(comment: string): readonly ExpectedFinding[] {
  const cause = new RegExp(`^([a-z]+/[a-z-]+)(?: \\(${SEVERITY}\\))? at (.*)$`).exec(comment);
  if (!cause) return [];
  const [, code = '', severity, rest = ''] = cause;
  const [place = ''] = rest.split(/ because |; /);
  const fix = /\b(?:fix|Fix): (.*)$/.exec(rest)?.[1] ?? '';
  return [
    {
      code,
      severity: severityOf(severity),
      quotes: [...place.matchAll(/`([^`]+)`/g)].map(([, quote = '']) => quote),
      coil: /` of coil (\w+)/.exec(place)?.[1],
      second: place.startsWith('the second'),
      word: /\(the (?:word (\S+)|second (x))\)/.exec(place)?.slice(1).find(Boolean),
      fixes: fixesOf(fix),
      noFix: /\b[Nn]o fix\b(?! is| in)|fix: none/.test(comment),
    },
    ...accompanying(comment),
  ];
}

const severityOf = (word: string | undefined): ExpectedFinding['severity'] =>
  word === 'warning' || word === 'information' || word === 'hint' ? word : 'error';

function accompanying(comment: string): readonly ExpectedFinding[] {
  const pattern = new RegExp(`\\b[Ww]ith it ([a-z]+/[a-z-]+) (?:\\(|as )${SEVERITY}`, 'g');
  return [...comment.matchAll(pattern)].map(([, code = '', severity]) => ({
    code,
    severity: severityOf(severity),
    quotes: [],
    coil: undefined,
    second: false,
    word: undefined,
    fixes: [],
    noFix: false,
  }));
}

/** `A` and `B`, or `C`: two alternatives. Only the beginning counts; what follows a full stop or a semicolon explains. */
function fixesOf(words: string): readonly (readonly string[])[] {
  const [told = ''] = words.split(/; (?!or )|\. |\(then|, `[^`]+` \(then/);
  return told
    .split(/; or | or /)
    .map((alternative) => [...alternative.matchAll(/`([^`]+)`/g)].map(([, piece = '']) => piece))
    .filter((pieces) => pieces.length > 0);
}

/** A number that the comment of a clean sample states. */
export type ExpectedClaim = {
  /** As written, in kohm, turns or dB. */
  readonly written: string;
  readonly value: number;
  /** The end of the pickup's name; where there is none, every pickup of the file is meant. */
  readonly pickup: string | undefined;
} & (
  | { readonly of: 'hot to ground'; readonly temperatureC: number }
  | { readonly of: 'leads'; readonly leads: readonly [string, string] }
  | { readonly of: 'position'; readonly index: number }
  | { readonly of: 'turns'; readonly coil: string }
  | { readonly of: 'hum' }
);

const NUMBER = '\\d+(?:\\.\\d+)?';

export function expectedClaims(comment: string): readonly ExpectedClaim[] {
  return [
    ...hotToGround(comment),
    ...betweenLeads(comment),
    ...atTheJack(comment),
    ...turnsOf(comment),
    ...humLeft(comment),
  ];
}

/** What a clean sample raises all the same: `information CODE at …`. */
export function expectedNotes(comment: string): readonly Pick<ExpectedFinding, 'code' | 'severity'>[] {
  return [...comment.matchAll(/\binformation ([a-z]+\/[a-z-]+) at\b/g)].map(([, code = '']) => ({
    code,
    severity: 'information',
  }));
}

/** `hot to ground 8.12 kohm at 21 degC, 8.09 at 20`, `hot to ground at 21 degC: neck 7.69, bridge 8.22 kohm`. */
function hotToGround(comment: string): readonly ExpectedClaim[] {
  const claim = (written: string, temperatureC: number, pickup?: string): ExpectedClaim => ({
    of: 'hot to ground',
    written,
    value: Number(written),
    temperatureC,
    pickup,
  });
  const alone = new RegExp(`hot to ground (${NUMBER}) kohm at (\\d+) degC(?:, (${NUMBER}) at (\\d+))?`).exec(comment);
  const each = /hot to ground at (\d+) degC: ([^;]*?) kohm/.exec(comment);
  const [, value, temperature, second, secondTemperature] = alone ?? [];
  return [
    ...(value === undefined ? [] : [claim(value, Number(temperature))]),
    ...(second === undefined ? [] : [claim(second, Number(secondTemperature))]),
    ...[...(each?.[2] ?? '').matchAll(new RegExp(`(\\w+) (${NUMBER})`, 'g'))].map(([, pickup, written = '']) =>
      claim(written, Number(each?.[1]), pickup),
    ),
  ];
}

/** `pink to violet 8.64, pink to orange 5.99 kohm at 21 degC` */
function betweenLeads(comment: string): readonly ExpectedClaim[] {
  const pattern = new RegExp(`\\b(?!hot )(\\w+) to (?!ground)(\\w+) (${NUMBER})(?=,| kohm)`, 'g');
  return [...comment.matchAll(pattern)].map(([, from = '', to = '', written = '']) => ({
    of: 'leads',
    written,
    value: Number(written),
    leads: [from, to],
    pickup: undefined,
  }));
}

/** `at the jack, 250 k at full: 6.24, 3.08 kohm`: the positions in order. */
function atTheJack(comment: string): readonly ExpectedClaim[] {
  const list = new RegExp(`at the jack(?:[^;:]*:)? ((?:${NUMBER}(?:, | and )?)+) kohm`).exec(comment)?.[1] ?? '';
  return [...list.matchAll(new RegExp(NUMBER, 'g'))].map(([written], index) => ({
    of: 'position',
    written,
    value: Number(written),
    index,
    pickup: undefined,
  }));
}

/** `screw coil: about 4,940 turns`; `turns from the readings: about 5,030 and 4,980`, the coils in order. */
function turnsOf(comment: string): readonly ExpectedClaim[] {
  const claim = (coil: string, digits: string): ExpectedClaim => {
    const written = digits.replaceAll(',', '');
    return { of: 'turns', coil, written, value: Number(written), pickup: undefined };
  };
  const one = /(\w+) coil: about ([\d,]+) turns/.exec(comment);
  const two = /turns from the readings: about ([\d,]+) and ([\d,]+)/.exec(comment);
  return [
    ...(one ? [claim(one[1] ?? '', one[2] ?? '')] : []),
    ...(two ? [claim('screw', two[1] ?? ''), claim('slug', two[2] ?? '')] : []),
  ];
}

/** `hum cancels (about -37 dB left)`: of a pickup. */
function humLeft(comment: string): readonly ExpectedClaim[] {
  const written = /\(about (-\d+) dB(?: left[^)]*)?\)/.exec(comment)?.[1];
  return written === undefined ? [] : [{ of: 'hum', written, value: Number(written), pickup: undefined }];
}
