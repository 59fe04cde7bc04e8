import type { InstrumentAnalysis } from '../analysis/analysis-types.ts';
import { finished } from '../physics/switching/steps.ts';
import { proposeWiring, SEARCHES, type WiringAnswer } from '../repair/wiring-proposal.ts';
import { cautionsOf } from '../words/cautions.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { clashWords, otherWords, SEARCH_ENDED, takenWords, wiresWords } from '../words/wiring-words.ts';
import { chooseOrAll } from './choose.ts';
import { defineCommand } from './command.ts';
import { analysed, SOURCE_OPTIONS } from './source.ts';
import type { Styles } from './styles.ts';
import { jsonText, visible } from './visible.ts';

export const wire = defineCommand({
  name: 'wire',
  summary: 'what to solder to a switch so that each position does what it asks for, with the fewest wires',
  positionals: 'FILE',
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the wiring is written' },
    instrument: { type: 'text', value: 'NAME', meaning: 'only this instrument' },
    loose: { type: 'flag', meaning: 'coils that are not heard may hang on hot by one end: fewer wires, more hum' },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'On the switches that the instrument names; where it names none, on the smallest switch that the files in use declare.',
    'One switch takes a second at most. Several together are searched for some ten seconds; what is found by then is told as\n' +
      'not proven to be the fewest.',
    'Every wiring was written into the spec and solved again in every position before it is told. The file itself is not changed. Exit\n' +
      'code 1 where an instrument has none.',
  ],
  example: {
    line: 'pickup-spec wire samples/yarrowby.pickup',
    meaning: 'leads, lugs and jumpers for the five positions of its selector',
  },
  async run(values, [file = ''], context) {
    const { analysis, shown } = await analysed(file, values, context);
    const { instruments } = analysis;
    const wanted = chooseOrAll(instruments, ({ written }) => written.name, {
      what: 'instrument',
      name: values.instrument,
      shown,
    });
    const answers = wanted.map((each): Answered => {
      context.progress.step(`${shown}: ${each.written.name}`);
      const wish = { isQuiet: !values.loose, searches: SEARCHES };
      return { instrument: each, answer: finished(proposeWiring(analysis, each, wish)) };
    });
    context.progress.clear();
    const text = answers.map((each) => answerText(each, context.styles));
    const isSoldered = answers.some(({ answer }) => answer.kind === 'proposal');
    context.stdout.write(
      values.format === 'json'
        ? jsonText({ schema: 'wire/1', instruments: answers.map(answerData) })
        : `${[...text, ...(isSoldered ? cautionsOf('solder').map((each) => `${visible(each)}\n`) : [])].join('\n')}` ||
            `${visible(shown)} holds no instrument\n`,
    );
    return answers.every(({ answer }) => answer.kind === 'proposal') ? 0 : 1;
  },
});

interface Answered {
  readonly instrument: InstrumentAnalysis;
  readonly answer: WiringAnswer;
}

function answerText({ instrument, answer }: Answered, styles: Styles): string {
  const heading = styles.strong(visible(`instrument ${instrument.written.name}`));
  const lines = linesOf(answer, instrument.written.switches.length > 1).map((line) => `  ${visible(line)}`);
  return `${[heading, ...lines].join('\n')}\n`;
}

/** `areSeveral`: each of the shelf was tried in the place of one of them, for a short while. */
function linesOf(answer: WiringAnswer, areSeveral: boolean): readonly string[] {
  switch (answer.kind) {
    case 'proposal': {
      const { plan, taken, lines } = answer.proposal;
      return [
        ...(taken ? [takenWords(taken)] : []),
        wiresWords(plan),
        'wiring {',
        ...lines.map((line) => `  ${line}`),
        '}',
      ];
    }
    case 'impossible':
      return [
        `no wiring does it: ${clashWords(answer.why)}`,
        ...answer.others.map((each) => otherWords(each)),
        ...(answer.others.length > 0
          ? []
          : [
              areSeveral
                ? 'in the place of one of them no other switch of the files in use was found that does it'
                : 'no other switch of the files in use does it',
            ]),
        ...(answer.looseWires === undefined
          ? []
          : [
              `with --loose it does it with ${answer.looseWires} wires: coils that are not heard then hang on hot by one end`,
            ]),
      ];
    case 'ended':
    case 'not planned':
      return [`nothing is planned: ${reasonOf(answer)}`];
  }
}

function answerData({ instrument, answer }: Answered): object {
  const { name } = instrument.written;
  switch (answer.kind) {
    case 'proposal': {
      const { plan, taken, lines } = answer.proposal;
      const { wires, isProven } = plan;
      return { name, outcome: 'wiring', ...(taken && { switch: taken.name }), wires, isProven, lines };
    }
    case 'impossible':
      return {
        name,
        outcome: 'impossible',
        clashes: answer.why.clashes.map((positions) => positions.map(({ key }) => key.value)),
        ...(answer.why.polesNeeded !== undefined && { polesNeeded: answer.why.polesNeeded }),
        others: answer.others.map(({ part, slot, wires }) => ({
          switch: part.name,
          ...(slot !== undefined && { inPlaceOf: slot }),
          wires,
        })),
        ...(answer.looseWires !== undefined && { looseWires: answer.looseWires }),
      };
    case 'ended':
    case 'not planned':
      return { name, outcome: 'not planned', reason: reasonOf(answer) };
  }
}

const reasonOf = (answer: Extract<WiringAnswer, { kind: 'ended' | 'not planned' }>): string =>
  answer.kind === 'ended' ? ENGLISH(SEARCH_ENDED) : answer.reason;
