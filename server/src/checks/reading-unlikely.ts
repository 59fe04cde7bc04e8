import { type JudgedBlock, type JudgedLine, judgeReadings } from '../estimates/expected-reading.ts';
import { isMagnetic, judgeMagnetic } from '../estimates/magnetic-reading.ts';
import { type Evidence, type Explanation, explainReadings, isResistance } from '../estimates/reading-explanation.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { listIn } from '../words/text.ts';
import type { Found } from './check.ts';
import { replaceWord } from './edits.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { causeWords, expectedWords, probesOf, readWords } from './reading-words.ts';
import { textRemedy } from './remedy.ts';

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
    what: (t) =>
      t(
        'These readings fit the coils before any joint was made, not the pickup as its hookup joins it; they are judged so.',
      ),
    action: (t) => t('Say `readings apart`.'),
    place: block.place,
    severity: 'information',
    remedies: () => edit && textRemedy((t) => t('Read before the leads were joined: `readings apart`'), [edit]),
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
    what: (t) => t('{0}, {1}.', readWords(line, t), reason(line, t)),
    ...causeWords(explanations, line),
    place: line.line.place,
    related: [
      isResistance(line) && line.earlier
        ? { message: (t: Language) => t('The earlier reading'), place: line.earlier.place }
        : undefined,
      ...alike.map((each) => ({
        message: (t: Language) => t('{0}, from the same cause', readWords(each, t)),
        place: each.line.place,
      })),
      ...(!isResistance(line) || line.against === 'turns'
        ? turns.map((place) => ({ message: (t: Language) => t('The turns it is computed from'), place }))
        : []),
    ],
    subject: { coils: line.coils.map(({ name }) => name) },
  };
}

function reason(line: Evidence, t: Language): string {
  const turnsOf = ({ coils }: Evidence) =>
    listIn(
      t,
      coils.map((coil) => turnsWords(coil, t)),
    );
  if (!isResistance(line))
    return line.line.kind === 'inductance'
      ? t('but {0} compute to {1}', turnsOf(line), expectedWords(line, t))
      : t('but winding, metal and cable compute to {0}', expectedWords(line, t));
  const { expected, against, readOhm } = line;
  if (expected === null) return nothingJoins(line, t);
  if (!Number.isFinite(expected.value)) return t('where a coil should read');
  if (readOhm === null) return t('where {0} should read', expectedWords(line, t));
  if (expected.value === 0) return t('though both are joined');
  if (against === 'an earlier reading')
    return t('but was {0} by an earlier reading, more than the meter explains', expectedWords(line, t));
  if (against === 'coil readings') return t('but its own readings make it {0}', expectedWords(line, t));
  return t('but {0} compute to {1}, outside what wire and meter allow', turnsOf(line), expectedWords(line, t));
}

function nothingJoins(line: Evidence, t: Language): string {
  const probed = probesOf(line, t);
  return probed ? t('but nothing stated joins {0} to {1}', ...probed) : t('but nothing stated joins it');
}

function turnsWords(coil: JudgedLine['coils'][number], t: Language): string {
  const turns = (coil.counted ?? coil.turns)?.value.written;
  const count = turns?.replace(/ turns$/, '');
  if (count && coil.spool) return t('{0} turns from spool {1}', count, coil.spool.name);
  return count && coil.wire ? t('{0} turns from wire {1}', count, coil.wire.name) : coilWords(coil, t);
}
