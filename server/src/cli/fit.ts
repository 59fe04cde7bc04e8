import type { PickupAnalysis } from '../analysis/analysis-types.ts';
import { type NextMeasurement, nextMeasurement, untoldOf } from '../estimates/sweep-advice.ts';
import { changesOf, computedBeside, type SweptPair, sweptPairs } from '../estimates/sweep-comparison.ts';
import type { Swept } from '../estimates/sweeps-measured.ts';
import { sweptOf, sweptTogether } from '../estimates/sweeps-together.ts';
import type { Bench } from '../model/bench.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { cautionsOf } from '../words/cautions.ts';
import { differenceText, isToldApart, TOO_SMALL } from '../words/number-text.ts';
import { keysOf } from '../words/numbers.ts';
import {
  allUntold,
  CHANGED_NUMBERS,
  changeWords,
  filesWords,
  nextWords,
  SWEPT_NUMBERS,
  sweptBetween,
  sweptWords,
} from '../words/sweep-words.ts';
import { chooseOrAll } from './choose.ts';
import { defineCommand } from './command.ts';
import { analysed, SOURCE_OPTIONS } from './source.ts';
import type { Styles } from './styles.ts';
import { jsonText, visible } from './visible.ts';

export const fit = defineCommand({
  name: 'fit',
  summary: 'what measured sweeps say of a pickup, how well, and what to measure next',
  positionals: 'FILE',
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the numbers are written' },
    pickup: { type: 'text', value: 'NAME', meaning: 'only this pickup' },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'Told is what the sweep alone says, nothing computed is in it: resistance, inductance, capacitance, what metal takes. A ± is one\n' +
      'standard deviation, with the errors of the resistor, the recorder and the meter in it. Between two sweeps by one set-up these\n' +
      'cancel, so a change is known better than either.',
  ],
  example: {
    line: 'pickup-spec fit samples/yarrow-bridge.pickup',
    meaning: 'before and after potting, by an audio interface and one resistor',
  },
  async run(values, [file = ''], context) {
    const { analysis, shown } = await analysed(file, values, context);
    const { pickups, bench } = analysis;
    const asked = chooseOrAll(pickups, (each) => each.pickup.name, { what: 'pickup', name: values.pickup, shown });
    const fitted = asked.flatMap((each) => {
      context.progress.step(`${shown}: ${each.pickup.name}`);
      const swept = sweptOf(each.netlist, bench);
      return swept.length > 0 || values.pickup !== undefined ? [{ analysed: each, swept }] : [];
    });
    context.progress.clear();
    context.stdout.write(
      values.format === 'json'
        ? jsonText({ schema: 'fit/1', pickups: fitted.map((each) => fittedData(each, bench)) })
        : [fitted.map((each) => fittedText(each, bench, context.styles)).join('\n'), ...careFor(fitted)].join('\n') ||
            `${visible(shown)} names no sweep that can be read\n`,
    );
    return 0;
  },
});

/** Where the next measurement is a sweep. */
function careFor(fitted: readonly Fitted[]): readonly string[] {
  const isProposed = fitted.some(({ analysed: { netlist }, swept }) =>
    swept.some((each) => isSweep(nextMeasurement(each, netlist))),
  );
  return isProposed ? [`${cautionsOf('sweep').join('\n')}\n`] : [];
}

const isSweep = (next: NextMeasurement | undefined): boolean =>
  next !== undefined && next !== 'resistance' && next !== 'set-up' && next !== 'rejoin';

interface Fitted {
  readonly analysed: PickupAnalysis;
  readonly swept: readonly Swept[];
}

function fittedText(
  { analysed: { pickup, netlist }, swept }: Fitted,
  bench: Bench | undefined,
  styles: Styles,
): string {
  const lines = [
    styles.strong(visible(`pickup ${pickup.name}${pickup.title === undefined ? '' : ` "${pickup.title}"`}`)),
  ];
  if (swept.length === 0) lines.push('  no sweep');
  for (const each of swept) {
    lines.push('', `  ${visible(`${sweptBetween(each)}, ${filesWords(each)}${blockWords(each)}`)}`);
    lines.push(...sweptLines(each, netlist, bench, styles));
    const next = nextWords(each, netlist);
    if (next !== undefined) lines.push(`    ${styles.strong('next:')} ${visible(next)}`);
  }
  for (const { coils, mutualH } of sweptTogether(netlist, bench).coupled)
    lines.push(
      '',
      `  ${visible(`${coils.map(({ name }) => name).join(' and ')} together`)}`,
      `    mutual inductance, from start to finish of both  ${mutualText(mutualH)}`,
    );
  for (const pair of sweptPairs({ netlist, bench })) lines.push('', ...changeLines(pair, styles));
  return `${lines.join('\n')}\n`;
}

const mutualText = (mutualH: Estimate): string => differenceText(mutualH, SWEPT_NUMBERS.inductanceH);

const blockWords = ({ group: { block } }: Swept): string =>
  [block.title === undefined ? undefined : `, "${block.title}"`, block.date && `, ${block.date}`].join('');

function sweptLines(
  swept: Swept,
  netlist: PickupAnalysis['netlist'],
  bench: Bench | undefined,
  styles: Styles,
): readonly string[] {
  const { rows, sentences } = sweptWords(swept, netlist, bench);
  return [
    ...columns(rows.map(({ what, measured, beside }) => [what, measured, beside])).map((line) => `    ${line}`),
    ...sentences.map((each) => `    ${styles.faint(visible(each))}`),
  ];
}

function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = [0, 1].map((column) => Math.max(...rows.map((row) => (row[column] ?? '').length)));
  return rows.map((row) =>
    row
      .map((cell, index) => cell.padEnd(widths[index] ?? 0))
      .join('  ')
      .trimEnd(),
  );
}

function changeLines(pair: SweptPair, styles: Styles): readonly string[] {
  const { before, after } = pair.swept;
  const changes = changesOf(pair);
  const heading = `  from ${filesWords(before)} to ${filesWords(after)}`;
  const rows = keysOf(CHANGED_NUMBERS).map((key) => [
    CHANGED_NUMBERS[key].what,
    isToldApart(changes[key]) ? differenceText(changes[key], CHANGED_NUMBERS[key]) : TOO_SMALL,
  ]);
  return [
    visible(heading),
    ...columns(rows).map((line) => `    ${line}`),
    `    ${styles.faint(visible(changeWords(pair)))}`,
  ];
}

function fittedData({ analysed: { pickup, netlist }, swept }: Fitted, bench: Bench | undefined) {
  return {
    pickup: pickup.name,
    sweeps: swept.map((each) => ({
      files: each.group.sweeps.map(({ file }) => file.value),
      between: [each.group.sweeps[0]?.probes.red.text, each.group.sweeps[0]?.probes.black.text],
      readings: { title: each.group.block.title, date: each.group.block.date, found: each.group.block.found },
      ...sweptData(each, netlist, bench),
      next: nextMeasurement(each, netlist) && {
        measurement: nextMeasurement(each, netlist),
        text: nextWords(each, netlist),
      },
    })),
    couplings: sweptTogether(netlist, bench).coupled.map(({ coils, mutualH }) => ({
      coils: coils.map(({ name }) => name),
      mutualH: plainNumber(mutualH),
    })),
    changes: sweptPairs({ netlist, bench }).map((pair) => ({
      before: pair.swept.before.group.sweeps.map(({ file }) => file.value),
      after: pair.swept.after.group.sweeps.map(({ file }) => file.value),
      numbers: Object.fromEntries(Object.entries(changesOf(pair)).map(([key, change]) => [key, plainNumber(change)])),
    })),
  };
}

function sweptData(swept: Swept, netlist: PickupAnalysis['netlist'], bench: Bench | undefined) {
  switch (swept.kind) {
    case 'open':
      return { verdict: 'open', numbers: { capacitanceF: plainNumber(swept.capacitanceF) } };
    case 'set-up':
      return { verdict: 'set-up', seenOhm: swept.seenOhm, readOhm: swept.readOhm };
    case 'no coil':
      return { verdict: 'no coil' };
    case 'coil': {
      const { losses, acrossOhm, fit: found } = swept;
      const computed = computedBeside(swept, netlist, bench);
      const numbers = (of: Partial<Record<keyof typeof SWEPT_NUMBERS, Estimate>>) =>
        Object.fromEntries(keysOf(SWEPT_NUMBERS).map((key) => [key, of[key] && plainNumber(of[key])]));
      return {
        verdict: swept.verdict,
        left: { rest: found.rest, scatter: found.scatter, reducedChiSquared: found.reducedChiSquared },
        form: found.form,
        numbers: {
          ...numbers(swept),
          lossShare: losses && plainNumber(losses.share),
          lossCornerHz: losses && plainNumber(losses.cornerHz),
          acrossOhm: acrossOhm && plainNumber(acrossOhm),
        },
        computed: numbers(computed),
        untold: untoldOf(swept).map((untold) => ({
          ...untold,
          text: allUntold({ ...swept, tooWeak: [untold.number] }, bench)[0],
        })),
      };
    }
  }
}

const plainNumber = ({ value, sd, basis, sources }: Estimate) => ({ value, sd, basis, sources });
