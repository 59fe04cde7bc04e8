/** Wires, spools, bobbins, magnets and the bench from their blocks: what the trade makes of the facts that are not as they read. */
import type { language } from '../../../grammar/src/schema/index.ts';
import { type Bench, celsius, type Recorder } from './bench.ts';
import type { Bobbin, Pole } from './bobbin.ts';
import type { Magnet } from './magnet.ts';
import { factsOf, type MergedBlock } from './merged-block.ts';
import type { FactsRead } from './reading.ts';
import type { Resolver } from './resolver.ts';
import { curveProblem } from './sweeps.ts';
import type { Spool, Wire } from './wire.ts';

export function wireFrom(block: MergedBlock<typeof language.wire>): Wire {
  const { gauge, accept, ...plain } = factsOf(block);
  return { ...named(block), ...plain, gaugeAwg: gauge && { value: gauge.value.si, place: gauge.place } };
}

export function spoolFrom(block: MergedBlock<typeof language.spool>, resolver: Resolver): Spool {
  const { wire, measures, accept, ...plain } = factsOf(block);
  return {
    ...named(block),
    ...plain,
    wire: resolver.thing('wire', wire?.value),
    measured: measures && {
      value: {
        resistancePerLength: measures.value.resistance,
        temperatureC: measures.value.at && celsius(measures.value.at),
      },
      place: measures.place,
    },
  };
}

export function bobbinFrom(block: MergedBlock<typeof language.bobbin>): Bobbin {
  const { core, corner, pole, accept, ...plain } = factsOf(block);
  return {
    ...named(block),
    ...plain,
    core: core && {
      value: { ...core.value.size, corner: core.value.corner ?? corner?.value },
      place: core.place,
    },
    pole: pole && { value: poleOf(pole.value), place: pole.place },
  };
}

type PoleRead = NonNullable<FactsRead<typeof language.bobbin.facts>['pole']>['value'];

/** A blade's thickness and height stand for diameter and length. */
function poleOf(pole: PoleRead): Pole | 'none' {
  if (pole === 'none') return 'none';
  const { form, material, size } = pole;
  return 'thickness' in size
    ? { form, material, diameter: size.thickness, length: size.height }
    : { form, material, diameter: size.diameter, length: size.length };
}

export function magnetFrom(block: MergedBlock<typeof language.magnet>): Magnet {
  const { accept, ...plain } = factsOf(block);
  return { ...named(block), ...plain };
}

export function benchFrom(block: MergedBlock<typeof language.bench>, resolver: Resolver): Bench {
  const { meter, recorder, accept, ...plain } = factsOf(block);
  return {
    place: block.place,
    ...plain,
    recorder: recorderFrom(recorder, resolver),
    meter: meter && {
      value: {
        accuracyPercent: meter.value.ofReading.si * 100,
        digits: meter.value.digits ?? 0,
        resolutionOhm: meter.value.resolution?.si ?? 10,
      },
      place: meter.place,
    },
  };
}

const named = ({ name, place }: Pick<MergedBlock<typeof language.wire>, 'name' | 'place'>) => ({
  name: name ?? '',
  place,
});

type RecorderLines = FactsRead<typeof language.bench.facts>['recorder'];

/** The last line of each kind counts. */
function recorderFrom(lines: RecorderLines, resolver: Resolver): Recorder {
  let input: Recorder['input'];
  let alone: Recorder['alone'];
  for (const { value, place } of lines)
    if ('file' in value) {
      const { file, through: seriesOhm } = value;
      const found = resolver.curve(file);
      const problem = curveProblem(file, found, 'ratio');
      if (problem) resolver.report(problem);
      alone = { place, file, curve: found.kind === 'curve' && !problem ? found : undefined, seriesOhm };
    } else input = value;
  return { input, alone };
}
