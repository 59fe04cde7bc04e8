/**
 * Numbers of whole specs against the reference files: text, model, estimate. The reference values were made outside this project's
 * code (see each file's `method` and `source`); what a text cannot state, such as a mutual inductance, is tested in test/physics.
 */

import { analyse } from '../support/check-fixture.ts';
import {
  numberAt,
  type ReferenceCase,
  recordAt,
  referenceCases,
  testAgainstReference,
} from '../support/reference-cases.ts';
import { ALONE, type CoilText, HUM_CANCELLING, PARALLEL, pickupText } from '../support/shop.ts';
import { coilOf, known, pickupOf } from './spec-text.ts';

const coreMm = (inputs: Record<string, unknown>): NonNullable<CoilText['coreMm']> => {
  const radius = numberAt(inputs, 'innerRadiusMm');
  const length = numberAt(inputs, 'straightMm') + 2 * radius;
  const width = numberAt(inputs, 'straightAcrossMm') + 2 * radius;
  return [length, width, radius];
};

/** The wire of the reference, by its diameters. */
const wound = (inputs: Record<string, unknown>, facts: string): CoilText => ({
  coreMm: coreMm(inputs),
  heightMm: numberAt(inputs, 'heightMm'),
  bareMm: numberAt(inputs, 'bareDiameterMm'),
  overallMm: numberAt(inputs, 'overallDiameterMm'),
  facts: `    packing ${numberAt(inputs, 'packing')}\n${facts}`,
});

testAgainstReference('scatter windings as specs: length, mean turn, turn-area, build, resistance', () =>
  referenceCases('winding-layers', 'WS').flatMap(({ id, inputs, expected }) => {
    const coil = coilOf(
      pickupOf(pickupText([wound(inputs, `    turns ${numberAt(inputs, 'turns')}`)], { hookup: ALONE })),
    );
    const row = (quantity: string, reference: number, ours: number | undefined, relative = 1e-9) => ({
      id,
      quantity,
      reference,
      ours: ours ?? Number.NaN,
      tolerance: { relative },
    });
    return [
      row('wireLengthM', numberAt(expected, 'wireLengthM'), coil.wireLengthM?.value),
      row('meanTurnM', numberAt(expected, 'meanTurnMm') / 1e3, coil.meanTurnM?.value),
      row('turnAreaM2', numberAt(expected, 'turnAreaM2'), coil.turnAreaM2?.value),
      row('buildM', numberAt(expected, 'buildMm') / 1e3, coil.buildM?.value),
      row('ohmAt20C', numberAt(expected, 'ohmAt20C'), coil.resistance20COhm?.value),
    ];
  }),
);

testAgainstReference('turns inferred from a reading at its own temperature', () =>
  referenceCases('winding-layers', 'WT').map(({ id, inputs, expected }) => {
    const reading = `  readings "found coil" {\n    c1 ${numberAt(inputs, 'ohmMeasured')} ohm at ${numberAt(inputs, 'temperatureC')} degC\n  }\n`;
    const coil = coilOf(pickupOf(pickupText([wound(inputs, '')], { hookup: ALONE, readings: reading })));
    return {
      id,
      quantity: 'turns',
      reference: numberAt(expected, 'turns'),
      ours: coil.turns?.value ?? Number.NaN,
      tolerance: { relative: 1e-9 },
    };
  }),
);

/** The wire that makes a given build at a packing of 0.64. */
function wireForBuild(inputs: Record<string, unknown>): CoilText {
  const packing = 0.64;
  const turns = numberAt(inputs, 'turns');
  const heightMm = numberAt(inputs, 'heightMm');
  const overallMm = Math.sqrt((4 * packing * numberAt(inputs, 'buildMm') * heightMm) / (Math.PI * turns));
  return {
    coreMm: coreMm(inputs),
    heightMm,
    overallMm: Number(overallMm.toFixed(9)),
    bareMm: Number((0.9 * overallMm).toFixed(9)),
    facts: `    packing ${packing}\n    turns ${turns}`,
  };
}

testAgainstReference('air-core inductance of one coil', () =>
  referenceCases('racetrack-self', 'RT')
    .filter(({ inputs }) => numberAt(inputs, 'turns') >= 1000 && 'coreLengthMm' in inputs)
    .map(({ id, inputs, expected }) => ({
      id,
      quantity: 'inductanceAirH',
      reference: numberAt(expected, 'inductanceAirH'),
      ours: coilOf(pickupOf(pickupText([wireForBuild(inputs)], { hookup: ALONE }))).inductanceAirH?.value ?? Number.NaN,
      tolerance: { relative: 0.005 },
    })),
);

testAgainstReference('two coils side by side: inductance of the pickup as it is joined', () =>
  referenceCases('racetrack-mutual', 'PR')
    .filter(({ inputs }) => numberAt(inputs, 'offsetAcrossMm') > 0 && numberAt(inputs, 'offsetAxialMm') === 0)
    .flatMap((each) => sideBySide(each)),
);

function sideBySide({ id, inputs, expected }: ReferenceCase) {
  const coils = [wireForBuild(recordAt(inputs, 'coil1')), wireForBuild(recordAt(inputs, 'coil2'))];
  const facts = `  coils ${numberAt(inputs, 'offsetAcrossMm')} mm apart`;
  const joined = (hookup: string, wound: CoilText['wound'] = 'clockwise') =>
    known(
      pickupOf(
        pickupText(
          coils.map((coil, index) => (index === 1 ? { ...coil, wound } : coil)),
          { hookup, facts },
        ),
      ).estimates().inductanceH,
    ).value;
  const row = (key: string, ours: number) => ({
    id,
    quantity: key,
    reference: numberAt(expected, key),
    ours,
    tolerance: { relative: 0.005 },
  });
  return [
    row('inductanceSeriesHumCancellingH', joined(HUM_CANCELLING)),
    row('inductanceSeriesSameSenseH', joined(HUM_CANCELLING, 'counterclockwise')),
    // Only where the coils are alike does current divide at low frequency as it does by inductance alone.
    ...(JSON.stringify(inputs.coil1) === JSON.stringify(inputs.coil2)
      ? [row('inductanceParallelHumCancellingH', joined(PARALLEL))]
      : []),
  ];
}

/** A value of a SPICE line by its first word: k, p, n, m, meg. */
function elementOf(netlist: readonly string[], name: string): number {
  const text =
    netlist
      .find((line) => line.startsWith(`${name} `))
      ?.split(/\s+/)
      .at(-1) ?? '';
  const [, digits = '', suffix = ''] = /^([\d.]+)([a-z]*)$/i.exec(text) ?? [];
  const factor: Record<string, number> = { '': 1, k: 1e3, meg: 1e6, p: 1e-12, n: 1e-9, m: 1e-3 };
  return Number(digits) * (factor[suffix.toLowerCase()] ?? Number.NaN);
}

/** What the readings of a lone coil and the controls of each netlist are. */
const INSTRUMENTS = [
  { id: 'C-N1', coil: ['L1', 'R1', 'C1'], potKohm: 250 },
  { id: 'C-INST-3-10', coil: ['Lmi', 'Rmi', 'Cmi'], potKohm: 500 },
] as const;

testAgainstReference('a measured single coil in an instrument against ngspice', () =>
  INSTRUMENTS.flatMap(({ id, coil, potKohm }) => {
    const found = referenceCases('circuits', id).find((each) => each.id === id);
    const netlist = (found?.inputs.netlist ?? []) as readonly string[];
    const [henry, ohm, farad] = coil.map((name) => elementOf(netlist, name));
    const text = `${pickupText([{ facts: '    turns 8000' }], {
      hookup: ALONE,
      readings: `  readings "bench" {
    c1 ${ohm} ohm at 20 degC
    inductance hot to ground ${henry} H
    capacitance ${Number(farad) * 1e12} pF
  }\n`,
    })}instrument lark {
  scale 648 mm
  pickup main wren at 100 mm
  controls {
    volume ${potKohm} kohm audio
    tone ${potKohm} kohm audio with 22 nF
  }
  cable 1 m of ${elementOf(netlist, 'CCAB') * 1e12} pF/m
  input 1 Mohm
  selector {
    1 main
  }
}
`;
    const [position] = analyse(text).instruments[0]?.positions() ?? [];
    return (['peakHz', 'peakDb', 'minus3DbHz'] as const).map((key) => ({
      id,
      quantity: key,
      reference: numberAt(found?.expected ?? {}, key),
      ours: position?.[key === 'peakHz' ? 'resonanceHz' : key]?.value ?? Number.NaN,
      tolerance: key === 'peakDb' ? { absolute: 0.01 } : { relative: 1e-3 },
    }));
  }),
);

testAgainstReference('hum left by unequal turns, in series', () =>
  referenceCases('hum', 'H-SER').map(({ id, inputs, expected }) => {
    const [first, second] = [numberAt(inputs, 'turns1'), numberAt(inputs, 'turns2')];
    // Equal mean turn areas need equal builds: packing in proportion to the turns.
    const coil = (turns: number): CoilText => ({
      facts: `    turns ${turns} ± 0\n    packing ${(0.64 * turns) / first}`,
    });
    const pickup = pickupOf(pickupText([coil(first), coil(second)], { hookup: HUM_CANCELLING }));
    return {
      id,
      quantity: 'humDb',
      reference: numberAt(expected, 'residueRelativeToLargerCoilDb'),
      ours: known(pickup.quick.humDb).value,
      tolerance: { absolute: 0.01 },
    };
  }),
);

testAgainstReference('hum left in parallel by unequal resistance, in place', () =>
  referenceCases('hum', 'H-PAR-4243-LF').map(({ id, inputs, expected }) => {
    const coil: CoilText = { facts: `    turns ${numberAt(inputs, 'turns1')}` };
    const readings = `  readings "bench" {\n    c1 ${numberAt(inputs, 'ohm1')} ohm at 20 degC\n    c2 ${numberAt(inputs, 'ohm2')} ohm at 20 degC\n  }\n`;
    const pickup = pickupOf(pickupText([coil, coil], { hookup: PARALLEL, readings }));
    return {
      id,
      quantity: 'humDb',
      reference: numberAt(expected, 'residueRelativeToLargerCoilInPlaceDb'),
      ours: known(pickup.quick.humDb).value,
      tolerance: { absolute: 0.01 },
    };
  }),
);
