/** Wires, spools, bobbins, magnets and the bench from their blocks. */
import type { language } from '../../../grammar/src/schema/index.ts';
import type { Bench } from './bench.ts';
import type { Bobbin, Pole } from './bobbin.ts';
import type { Magnet } from './magnet.ts';
import type { MergedBlock } from './merged-block.ts';
import { only, placeIn, siOf, statedQuantity, statedWord } from './read-facts.ts';
import type { Resolver } from './resolver.ts';
import type { InsulationBuild, Spool, Wire } from './wire.ts';

export function wireFrom({ name, place, facts }: MergedBlock<typeof language.wire>): Wire {
  const build = only(facts.build);
  const gauge = statedQuantity(only(facts.gauge));
  return {
    name: name ?? '',
    place,
    gaugeAwg: gauge && { value: gauge.value.si, place: gauge.place },
    bareDiameter: statedQuantity(only(facts.diameter)),
    build: build && { value: buildOf(build.value), place: build.place },
    overallDiameter: statedQuantity(only(facts.overall)),
    enamel: statedWord(only(facts.enamel)),
  };
}

type BuildFact = MergedBlock<typeof language.wire>['facts']['build'][number]['value'];

const buildOf = (build: BuildFact): InsulationBuild =>
  build.option === 'build' ? build.value.value : build.value.number.value.value === 2 ? 'double' : 'single';

export function spoolFrom({ name, place, facts }: MergedBlock<typeof language.spool>, resolver: Resolver): Spool {
  const wire = only(facts.wire);
  const measures = only(facts.measures);
  const resistancePerLength = measures && siOf(measures.value.resistance);
  const at = measures?.value.at && siOf(measures.value.at.temperature);
  return {
    name: name ?? '',
    place,
    wire: wire && resolver.wire(wire.value.value, placeIn(wire.place.chunk, wire.value)),
    left: statedQuantity(only(facts.left)),
    measured:
      measures && resistancePerLength
        ? { value: { resistancePerLength, temperatureC: at ? at.si - 273.15 : undefined }, place: measures.place }
        : undefined,
  };
}

export function bobbinFrom({ name, place, facts }: MergedBlock<typeof language.bobbin>): Bobbin {
  const core = only(facts.core);
  const coreLength = core && siOf(core.value.size.length);
  const coreWidth = core && siOf(core.value.size.width);
  const corner = core?.value.corner ? siOf(core.value.corner.radius) : statedQuantity(only(facts.corner))?.value;
  const window = only(facts.window);
  const height = window && siOf(window.value.height);
  const depth = window && siOf(window.value.depth);
  const poles = only(facts.poles);
  const spread = poles?.value.spread && siOf(poles.value.spread.distance);
  const pole = only(facts.pole);
  return {
    name: name ?? '',
    place,
    core:
      core && coreLength && coreWidth
        ? { value: { length: coreLength, width: coreWidth, corner }, place: core.place }
        : undefined,
    window: window && height && depth ? { value: { height, depth }, place: window.place } : undefined,
    poles: poles && { value: { count: poles.value.count.value.value, spread }, place: poles.place },
    pole: pole && { value: poleOf(pole.value), place: pole.place },
    plastic: statedWord(only(facts.plastic)),
  };
}

type PoleFact = MergedBlock<typeof language.bobbin>['facts']['pole'][number]['value'];

function poleOf(pole: PoleFact): Pole | 'none' {
  if (pole.option === 'none') return 'none';
  if (pole.option === 'blade') {
    const { material, size } = pole.value;
    return {
      form: 'blade',
      material: material.value,
      diameter: siOf(size.value.thickness),
      length: siOf(size.value.height),
    };
  }
  const { form, material, size } = pole.value;
  return { form: form.value, material: material.value, diameter: siOf(size.diameter), length: siOf(size.length) };
}

export function magnetFrom({ name, place, facts }: MergedBlock<typeof language.magnet>): Magnet {
  const size = only(facts.size);
  const length = size && siOf(size.value.length);
  const width = size && siOf(size.value.width);
  const thickness = size && siOf(size.value.thickness);
  return {
    name: name ?? '',
    place,
    material: statedWord(only(facts.material)),
    remanence: statedQuantity(only(facts.remanence)),
    coercivity: statedQuantity(only(facts.coercivity)),
    size: size && length && width && thickness ? { value: { length, width, thickness }, place: size.place } : undefined,
  };
}

export function benchFrom({ place, facts }: MergedBlock<typeof language.bench>): Bench {
  const meter = only(facts.meter);
  const resolution = meter?.value.resolution && siOf(meter.value.resolution.step);
  return {
    place,
    mains: statedQuantity(only(facts.mains)),
    room: statedQuantity(only(facts.room)),
    meter: meter && {
      value: {
        accuracyPercent: meter.value.ofReading.value.value,
        digits: meter.value.digits?.count.value.value ?? 0,
        resolutionOhm: resolution?.si ?? 10,
      },
      place: meter.place,
    },
  };
}
