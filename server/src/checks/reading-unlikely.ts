import { type JudgedBlock, type JudgedLine, judgeReadings } from '../estimates/expected-reading.ts';
import { isMagnetic, judgeMagnetic } from '../estimates/magnetic-reading.ts';
import { type Evidence, type Explanation, explainReadings, isResistance } from '../estimates/reading-explanation.ts';
import { coilWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import type { Found } from './check.ts';
import { replaceWord } from './edits.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { causeWords, expectedWords, probesWords, readWords } from './reading-words.ts';
import { say } from './say.ts';

const CODE = { code: 'reading/unlikely', severity: 'warning', yieldsTo: [] } as const;

export const readingUnlikely = definePickupCheck({
  ...CODE,
  run: (context) => {
    const judged = judgeReadings(context.quick, context.bench);
    return [
      ...judged.map(readApart),
      ...judged.filter(({ block }) => !block.lines.some(isMagnetic)).flatMap((block) => findingsOf(block, context)),
    ];
  },
});

/** A block that fits the loose leads better than the joined pickup is judged as such, and told how to say so. */
function readApart({ block, lines }: JudgedBlock): Found | undefined {
  if (block.apart || !lines.some(({ state }) => state === 'loose') || lines.some(({ fits }) => !fits)) return undefined;
  const edit = replaceWord(block.place, 'readings', 'readings apart');
  return {
    what: say`These readings fit the coils before any joint was made, not the pickup as its hookup joins it; they are judged so.`,
    action: say`Say \`readings apart\`.`,
    place: block.place,
    severity: 'information',
    remedies: () =>
      edit && { title: say`Read before the leads were joined: \`readings apart\``, edits: [edit], kind: 'text' },
  };
}

/** What is read of inductance or capacitance is weighed together with the resistances beside it. */
export const readingUnlikelyMagnetic = definePickupCheck({
  ...CODE,
  late: true,
  run: (context) => {
    const judged = judgeReadings(context.quick, context.bench);
    return context.pickup.readings
      .filter(({ found, lines }) => !found && lines.some(isMagnetic))
      .flatMap((block) => findingsOf(judged.find((each) => each.block === block) ?? { block, lines: [] }, context));
  },
});

/** One finding a cause: the lines that the likeliest cause of a line explains too are told with it. */
function findingsOf({ block, lines }: JudgedBlock, { quick }: PickupContext): readonly Found[] {
  const magnetic = judgeMagnetic(block, quick);
  const explanations = explainReadings({ lines }, quick, magnetic);
  const order = ({ line }: Evidence) => block.lines.indexOf(line);
  const all = [...lines, ...magnetic].sort((a, b) => order(a) - order(b));
  const left = new Set(all.filter((line) => !line.fits && !(isResistance(line) && isSum(line))));
  const found: Found[] = [];
  for (const line of all) {
    if (!left.has(line)) continue;
    const likeliest = explanations.find(({ explains }) => explains.includes(line));
    const alike = likeliest ? likeliest.explains.filter((each) => each !== line && left.has(each)) : [];
    for (const each of [line, ...alike]) left.delete(each);
    found.push(findingOf(line, alike, explanations));
  }
  return found;
}

/** A reading through coils that were each read by themselves: `reading/sum` judges it. */
export const isSum = ({ against, coils }: JudgedLine): boolean => against === 'coil readings' && coils.length > 1;

function findingOf(line: Evidence, alike: readonly Evidence[], explanations: readonly Explanation[]): Found {
  const turns = line.coils.flatMap(({ counted, turns: planned }) => (counted ?? planned)?.place ?? []);
  return {
    what: say`${readWords(line)}, ${reason(line)}.`,
    ...causeWords(explanations, line),
    place: line.line.place,
    related: [
      isResistance(line) && line.earlier ? { message: say`The earlier reading`, place: line.earlier.place } : undefined,
      ...alike.map((each) => ({ message: say`${readWords(each)}, from the same cause`, place: each.line.place })),
      ...(!isResistance(line) || line.against === 'turns'
        ? turns.map((place) => ({ message: say`The turns it is computed from`, place }))
        : []),
    ],
    subject: { coils: line.coils.map(({ name }) => name) },
  };
}

function reason(line: Evidence): string {
  if (!isResistance(line))
    return line.line.kind === 'inductance'
      ? say`but ${list(line.coils.map(turnsWords))} compute to ${expectedWords(line)}`
      : say`but winding, metal and cable compute to ${expectedWords(line)}`;
  const { expected, against, coils, readOhm } = line;
  if (expected === null) return say`but nothing stated joins ${probesWords(line)}`;
  if (!Number.isFinite(expected.value)) return 'where a coil should read';
  if (readOhm === null) return say`where ${expectedWords(line)} should read`;
  if (expected.value === 0) return 'though both are joined';
  if (against === 'an earlier reading')
    return say`but was ${expectedWords(line)} by an earlier reading, more than the meter explains`;
  if (against === 'coil readings') return say`but its own readings make it ${expectedWords(line)}`;
  return say`but ${list(coils.map(turnsWords))} compute to ${expectedWords(line)}, outside what wire and meter allow`;
}

function turnsWords(coil: JudgedLine['coils'][number]): string {
  const turns = (coil.counted ?? coil.turns)?.value.written;
  const from = coil.spool ? say`spool ${coil.spool.name}` : coil.wire ? say`wire ${coil.wire.name}` : undefined;
  return turns && from ? say`${turns.replace(/ turns$/, '')} turns from ${from}` : coilWords(coil);
}
