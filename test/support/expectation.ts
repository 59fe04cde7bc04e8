/** What a sample's first comment expects, read from its words. */
export interface ExpectedFinding {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'information';
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

const SEVERITY = '(error|warning|information)';

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
  word === 'warning' || word === 'information' ? word : 'error';

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
