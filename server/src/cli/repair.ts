import type { Analysis } from '../analysis/analysis-types.ts';
import { figureOf } from '../quantities/figure.ts';
import { planRepairs, type RepairOutcome, type RepairPlan, type RepairSubject } from '../repair/plan-repairs.ts';
import { type Heard, heardWords, noLongerWords } from '../words/heard.ts';
import { changedLines } from './changed-lines.ts';
import { choose } from './choose.ts';
import { CommandError, defineCommand } from './command.ts';
import { editsJson, type Locate, locateEdits, locator } from './located-finding.ts';
import { analysed, SOURCE_OPTIONS } from './source.ts';
import type { Styles } from './styles.ts';
import { jsonText, visible } from './visible.ts';

export const repair = defineCommand({
  name: 'repair',
  summary: 'the smallest sets of changes that put everything in phase and quiet, with the work each takes',
  positionals: 'FILE',
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the plans are written' },
    pickup: { type: 'text', value: 'NAME', meaning: 'only this pickup' },
    instrument: { type: 'text', value: 'NAME', meaning: 'only this instrument, with the pickups in it' },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'Every plan was written into the spec, analysed again, and is told only if the faults were gone and none had come.\n' +
      'The file itself is not changed. Exit code 1 where there is an error to repair.',
  ],
  example: {
    line: 'pickup-spec repair samples/mistakes/phase-position-cancels.pickup',
    meaning: 'what to do at the bench, the least work first',
  },
  async run(values, [file = ''], context) {
    const { analysis, shown } = await analysed(file, values, context);
    const outcomes = subjectsOf(analysis, values, shown).map((subject) => {
      context.progress.step(`${shown}: ${subjectName(subject)}`);
      return { subject, outcome: planRepairs(analysis, asked(subject)) };
    });
    context.progress.clear();
    const locate = locator(analysis, context.cwd);
    context.stdout.write(
      values.format === 'json'
        ? repairJson(outcomes, locate)
        : outcomes.map((each) => outcomeText(each, shown, locate, context.styles)).join('\n') ||
            `${visible(shown)} holds no pickup and no instrument\n`,
    );
    const errors = outcomes.some(({ outcome }) => outcome.faults.some(({ severity }) => severity === 'error'));
    return errors ? 1 : 0;
  },
});

interface Subject {
  readonly kind: 'pickup' | 'instrument';
  readonly name: string;
}

interface Planned {
  readonly subject: Subject;
  readonly outcome: RepairOutcome;
}

const asked = ({ kind, name }: Subject): RepairSubject => (kind === 'pickup' ? { pickup: name } : { instrument: name });
const subjectName = ({ kind, name }: Subject): string => `${kind} ${name}`;

/** Every instrument, with all that is in it, and every pickup that sits in none. */
function subjectsOf(
  { pickups, instruments }: Analysis,
  { pickup, instrument }: { readonly pickup: string | undefined; readonly instrument: string | undefined },
  shown: string,
): readonly Subject[] {
  if (pickup !== undefined && instrument !== undefined) {
    throw new CommandError('--pickup and --instrument exclude each other');
  }
  if (pickup !== undefined) {
    choose(pickups, (each) => each.pickup.name, { what: 'pickup', name: pickup, shown });
    return [{ kind: 'pickup', name: pickup }];
  }
  if (instrument !== undefined) {
    choose(instruments, (each) => each.instrument.name, { what: 'instrument', name: instrument, shown });
    return [{ kind: 'instrument', name: instrument }];
  }
  const fitted = new Set(instruments.flatMap((each) => each.instrument.slots.map((slot) => slot.pickup)));
  return [
    ...pickups
      .filter((each) => !fitted.has(each.pickup))
      .map((each) => ({ kind: 'pickup', name: each.pickup.name }) as const),
    ...instruments.map((each) => ({ kind: 'instrument', name: each.instrument.name }) as const),
  ];
}

function outcomeText({ subject, outcome }: Planned, path: string, locate: Locate, styles: Styles): string {
  const heading = styles.strong(visible(subjectName(subject)));
  const { faults, plans, questions, impossible, onlyRewinding } = outcome;
  if (faults.length === 0) return `${heading}: ${visible(impossible ?? 'nothing to repair')}\n`;
  const shown = plans.map((plan, index) =>
    planText(plan, index, styles, changedLines(locateEdits(editsOf(plan), locate) ?? [], path, styles)),
  );
  return [
    `${heading}:`,
    ...faults.map(({ severity, code, message }) => `  ${styles[severity](severity)} ${code}: ${visible(message)}`),
    ...questions().flatMap((each) => ['', `  ${visible(each)}`]),
    ...(onlyRewinding === undefined ? [] : ['', `  ${visible(onlyRewinding)}`]),
    ...(impossible === undefined ? [] : ['', `  ${visible(impossible)}`]),
    ...shown.flat(),
    '',
  ].join('\n');
}

function planText(plan: RepairPlan, index: number, styles: Styles, lines: readonly string[]): readonly string[] {
  const { minutes, steps, cautions, leaves, against } = plan;
  return [
    '',
    `  ${styles.strong(`plan ${index + 1}`)}, about ${minutes} min of work`,
    ...steps.flatMap(({ text, why }, step) => [
      `    ${step + 1}. ${visible(text)}`,
      ...(why === '' ? [] : [`       ${styles.faint(visible(why))}`]),
    ]),
    '    mind',
    ...cautions.map((each) => `      ${each}`),
    '    then',
    ...plan.outlook().map((heard) => `      ${visible(heardWords(heard))}`),
    ...against.map(({ what }) => `      ${visible(noLongerWords(what))}`),
    ...leaves.map(({ code, what, subject }) => `      leaves ${code}${at(subject)}: ${visible(what)}`),
    '    to write',
    ...lines,
  ];
}

const at = ({ pickup, position }: RepairPlan['leaves'][number]['subject']): string =>
  position === undefined ? (pickup === undefined ? '' : ` at ${pickup}`) : ` in position ${position}`;

const editsOf = ({ steps }: RepairPlan) => steps.flatMap(({ edits }) => edits);

function repairJson(planned: readonly Planned[], locate: Locate): string {
  return jsonText({
    schema: 'repair/1',
    subjects: planned.map(({ subject, outcome }) => ({
      ...asked(subject),
      faults: outcome.faults.map(finding),
      plans: outcome.plans.map(({ minutes, steps, cautions, leaves, against, outlook }) => ({
        minutes,
        steps: steps.map(({ text, why, minutes: work, edits }) => ({
          text,
          why,
          minutes: work,
          edits: editsJson(edits, locate),
        })),
        cautions,
        leaves: leaves.map(finding),
        readingsAgainst: against.map(finding),
        heard: outlook().map(heardJson),
      })),
      questions: outcome.questions().length === 0 ? undefined : outcome.questions(),
      impossible: outcome.impossible,
      onlyRewinding: outcome.onlyRewinding,
    })),
  });
}

/** Keys are named one by one, so that nothing internal becomes part of a published output. */
const heardJson = ({ pickup, position, title, phase, hum, signalDb, humDb }: Heard) => ({
  pickup,
  position,
  title,
  phase,
  hum,
  signalDb: signalDb && figureOf(signalDb),
  humDb: humDb && figureOf(humDb),
});

const finding = ({ code, severity, message }: RepairOutcome['faults'][number]) => ({ code, severity, message });
