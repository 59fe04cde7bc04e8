import type { Analysis, InstrumentAnalysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { reworkOf } from '../comparison/reworks.ts';
import { highestHz, lowestHz } from '../physics/circuit/response.ts';
import { measureNext } from '../proposal/measure-next.ts';
import { measureNextIn } from '../proposal/measure-next-instrument.ts';
import { CABLE_MEANING, cableFarads } from './cable-option.ts';
import { choose } from './choose.ts';
import { CommandError, defineCommand } from './command.ts';
import { POT_OPTIONS, playedBy } from './pot-options.ts';
import { positionData, reportData } from './report-data.ts';
import { instrumentText, pickupText, responseText } from './report-text.ts';
import { analysed, SOURCE_OPTIONS, WITHOUT_OPTION } from './source.ts';
import { jsonText } from './visible.ts';

export const report = defineCommand({
  name: 'report',
  summary: 'every computed value with its uncertainty and what it rests on',
  positionals: 'FILE',
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the values are written' },
    pickup: { type: 'text', value: 'NAME', meaning: 'only this pickup, and no instrument' },
    position: { type: 'text', value: 'N', meaning: 'only this position of the selector, and no pickup' },
    ...POT_OPTIONS,
    cable: { type: 'text', value: 'CABLE', meaning: CABLE_MEANING },
    frequencies: {
      type: 'text',
      value: 'HZ,…',
      meaning: 'the response of each position at these frequencies, 20 to 20000',
    },
    ...WITHOUT_OPTION,
    ...SOURCE_OPTIONS,
  },
  notes: [
    'Uncertainties are one standard deviation. A value that the spec does not settle is left out. Findings are not part\n' +
      'of the report: check tells them.',
    'Two coils of unequal turn-area are told with matched ones beside them, a bar magnet with the other magnets in scope.',
  ],
  example: {
    line: 'pickup-spec report samples/larkspit.pickup --position 2 --tone 5 --cable "6 m of 100 pF/m" --frequencies 100,3000',
    meaning: 'one position with the tone half down and a longer cable',
  },
  async run(values, [file = ''], context) {
    const frequenciesHz = frequencies(values.frequencies);
    const cableF = cableFarads(values.cable);
    const { analysis, shown } = await analysed(file, values, context);
    const { pickups, instruments } = chosen(analysis, values.pickup, values.position, shown);
    const pots = { ...playedBy(values, { analysis, shown }), cableF };
    const options = {
      magnets: analysis.namesInScope('magnet'),
      rework: ({ pickup }: PickupAnalysis) => reworkOf(analysis, [pickup]),
      next: (pickup: PickupAnalysis) => measureNext(pickup, analysis),
      // Of one position alone the whole instrument is not asked.
      nextIn: (each: InstrumentAnalysis) => (values.position === undefined ? measureNextIn(each, analysis) : undefined),
      cableF,
    };
    const positions = instruments.map((each) => {
      context.progress.step(`${shown}: ${each.instrument.name}`);
      const all = each
        .positions(pots)
        .filter(({ key }) => values.position === undefined || key === values.position)
        .map((estimates) =>
          frequenciesHz === undefined || estimates.response === undefined
            ? estimates
            : { ...estimates, response: each.response(estimates.key, frequenciesHz, pots) },
        );
      return [each, all] as const;
    });
    context.progress.clear();
    if (values.format === 'json') {
      context.stdout.write(jsonText(reportData(pickups, positions, options)));
      return 0;
    }
    const parts = [
      ...pickups.map((each) => pickupText(each, options, context.styles)),
      ...positions.map(([each, estimates]) => {
        const text = instrumentText(each, estimates, options.nextIn(each), context.styles);
        return frequenciesHz === undefined
          ? text
          : `${text}\n${responseText(estimates.map(positionData), frequenciesHz)}\n`;
      }),
    ];
    context.stdout.write(parts.length === 0 ? `${shown} holds no pickup and no instrument\n` : parts.join('\n'));
    return 0;
  },
});

function chosen(
  analysis: Analysis,
  pickup: string | undefined,
  position: string | undefined,
  shown: string,
): { readonly pickups: readonly PickupAnalysis[]; readonly instruments: readonly InstrumentAnalysis[] } {
  const { pickups, instruments } = analysis;
  if (pickup !== undefined && position !== undefined) {
    throw new CommandError('--pickup and --position exclude each other: a position belongs to an instrument');
  }
  if (pickup !== undefined) {
    const named = choose(pickups, (each) => each.pickup.name, { what: 'pickup', name: pickup, shown });
    return { pickups: [named], instruments: [] };
  }
  if (position === undefined) return { pickups, instruments };
  const positions = instruments.flatMap((each) => each.instrument.positions);
  choose(positions, ({ key }) => key.value, { what: 'position', name: position, shown });
  return { pickups: [], instruments };
}

const MOST_FREQUENCIES = 10_000;

function frequencies(list: string | undefined): readonly number[] | undefined {
  if (list === undefined) return undefined;
  const numbers = list.split(',').map((each) => (/^\s*(\d+\.?\d*|\.\d+)\s*$/.test(each) ? Number(each) : Number.NaN));
  const [odd, outside] = [
    numbers.some(Number.isNaN) || numbers.length > MOST_FREQUENCIES,
    numbers.filter((each) => each < lowestHz || each > highestHz),
  ];
  const range = `in Hz from ${lowestHz} to ${highestHz}`;
  if (odd) throw new CommandError(`--frequencies ${list.slice(0, 60)}: numbers ${range}, with commas between`);
  if (outside.length > 0) {
    const shown = outside.slice(0, 5).map((each) => `${each} Hz`);
    throw new CommandError(`--frequencies: responses are computed ${range}; outside it: ${shown.join(', ')}`);
  }
  return numbers;
}
