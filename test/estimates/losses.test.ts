/** What metal costs a pickup, the whole way from the spec to resonance, peak and response. */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { pickupMagnetics } from '../../server/src/estimates/magnetics.ts';
import {
  DEFAULT_LOAD,
  type Load,
  NO_LOAD,
  pickupEstimates,
  pickupResponse,
} from '../../server/src/estimates/pickup-estimates.ts';
import { analyse } from '../support/check-fixture.ts';
import { plainBobbin, plainPickup } from '../support/shop.ts';
import { known, quickOfText } from './spec-text.ts';

/** One spec with every cover: each costs height, copper and brass may raise the resonance, since they take inductance away. */
const COVERS = `wire w {
  gauge 42 AWG
}
${plainBobbin('  poles 6 spread 50 mm\n  pole slug steel 4.8 x 16 mm\n')}${plainPickup({ name: 'none', strings: '  strings 6\n', facts: '    turns 7_600\n', readings: '' })}${['nickel-silver', 'brass', 'copper', 'steel'].map((metal) => `pickup ${metal} like none {\n  cover ${metal} tied to blue\n}\n`).join('')}`;

const quicks = (text: string) => {
  const analysis = analyse(text);
  return new Map(analysis.pickups.map(({ pickup }) => [pickup.name, quickOf(analysis.bench)(pickup)]));
};

/** Level above 100 Hz at a frequency. */
function gainAt(quick: ReturnType<typeof quickOfText>, hz: number, load: Load = DEFAULT_LOAD): number {
  const response = pickupResponse(quick, load);
  assert.ok(response);
  const level = (at: number) => response.levelDb[response.frequencyHz.findIndex((each) => each >= at)] ?? Number.NaN;
  return level(hz) - level(100);
}

describe('covers', () => {
  const all = quicks(COVERS);
  const quick = (name: string) => {
    const found = all.get(name);
    assert.ok(found, name);
    return found;
  };
  const bare = pickupEstimates(quick('none'), undefined);
  const bareHz = known(bare.resonanceHz).value;
  const cost = (name: string) => gainAt(quick('none'), bareHz) - gainAt(quick(name), bareHz);

  // The ranges are those of a field solution of round coils with the same covers, loaded alike.
  it('of nickel silver cost 1 to 3 dB', () => {
    const covered = pickupEstimates(quick('nickel-silver'), undefined);
    const lower = known(bare.peakDb).value - known(covered.peakDb).value;
    assert.ok(lower > 1 && lower < 3, `${lower} dB`);
  });
  it('of brass cost 4 to 8 dB', () => assert.ok(cost('brass') > 4 && cost('brass') < 8, `${cost('brass')} dB`));
  it('of copper leave no peak', () => {
    assert.equal(pickupEstimates(quick('copper'), undefined).peakDb, undefined);
    assert.ok(cost('copper') > cost('brass'));
  });
  it('of steel cost 3 to 5 dB and lower the resonance', () => {
    const covered = pickupEstimates(quick('steel'), undefined);
    const lower = known(bare.peakDb).value - known(covered.peakDb).value;
    assert.ok(lower > 3 && lower < 5, `${lower} dB`);
    assert.ok(known(covered.resonanceHz).value < 0.9 * bareHz);
  });

  it('say what their numbers rest on', () => {
    const { peakDb } = pickupEstimates(quick('nickel-silver'), undefined);
    assert.ok(known(peakDb).restsOn.some((reason) => reason.startsWith('cover of nickel-silver, 0.5 mm')));
    assert.ok(known(peakDb).restsOn.includes('eddy currents in steel poles'));
  });
});

describe('the thickness of a sheet', () => {
  const THICKNESSES = ['', ' 0.4 mm', ' 0.5 mm', ' 0.6 mm', ' 0.5 mm ± 0.1 mm'];
  const bare = COVERS.slice(0, COVERS.indexOf('pickup nickel-silver'));
  const text = (pole: string) =>
    bare.replace('pole slug steel 4.8 x 16 mm', pole) +
    THICKNESSES.map(
      (thick, index) => `pickup p${index} like none {\n  cover nickel-silver${thick} tied to blue\n}\n`,
    ).join('');
  const steel = [...quicks(text('pole slug steel 4.8 x 16 mm')).values()].slice(1);
  const peaks = steel.map((quick) => known(pickupEstimates(quick, undefined).peakDb));

  it('is a usual one where none is stated, and known better where it is', () => {
    const [assumed, , stated, , wide] = peaks;
    assert.equal(known(stated).value, known(assumed).value);
    const ofMetal = ({ sources }: { readonly sources?: Readonly<Record<string, number>> }) =>
      Math.abs(Object.entries(sources ?? {}).find(([cause]) => cause.startsWith('losses in the metalwork'))?.[1] ?? 0);
    assert.ok(ofMetal(known(stated)) < ofMetal(known(assumed)));
    assert.ok(ofMetal(known(wide)) > ofMetal(known(assumed)));
    assert.ok(
      known(assumed).restsOn.includes(
        'cover of nickel-silver, 0.5 mm thick, assumed, 0.5 mm off the bobbins and as deep, assumed',
      ),
    );
    assert.ok(
      known(stated).restsOn.includes(
        'cover of nickel-silver, 0.5 mm thick, 0.5 mm off the bobbins and as deep, assumed',
      ),
    );
  });

  // Of a field solution of round coils with steel and alnico poles in five loads: between 0.4 and 0.6 mm lie 0.3 to 0.7 dB.
  it('costs 0.3 to 0.7 dB between 0.4 and 0.6 mm', () => {
    const between = known(peaks[1]).value - known(peaks[3]).value;
    assert.ok(between > 0.3 && between < 0.7, `${between} dB`);
  });

  // A sheet's currents go with frequency times thickness (checked on the same solution: added resistance within 1.6 % to 20 kHz); here the
  // thicker one also reaches 0.1 mm farther out.
  it('does what frequency does', () => {
    const [, thin, , thick] = [...quicks(text('pole none')).values()].slice(1);
    assert.ok(thin && thick);
    const [a, b] = [pickupMagnetics(thin).lostShare(3000), pickupMagnetics(thick).lostShare(2000)];
    assert.ok(Math.abs(a / b - 1) < 0.05, `${a} and ${b}`);
  });
});

describe('losses as causes', () => {
  const all = quicks(COVERS);
  const sourcesOf = (name: string) => {
    const quick = all.get(name);
    assert.ok(quick);
    return Object.keys(known(pickupEstimates(quick, undefined).peakDb).sources ?? {});
  };

  it('of resonance and peak are named', () => {
    assert.deepEqual(
      sourcesOf('nickel-silver').filter((cause) => /losses|screening/.test(cause)),
      [
        'losses in the metalwork of nickel-silver',
        'losses in the poles of nickel-silver',
        'screening of the strings by the metal of nickel-silver',
      ],
    );
    assert.deepEqual(
      sourcesOf('none').filter((cause) => /losses|screening/.test(cause)),
      ['losses in the poles of none', 'screening of the strings by the metal of none'],
    );
  });

  it('fall away where there is no metal, and the model of poles with them', () => {
    const text = COVERS.slice(0, COVERS.indexOf('pickup nickel-silver')).replace(
      'pole slug steel 4.8 x 16 mm',
      'pole none',
    );
    const quick = quickOfText(text);
    const { resonanceHz, inductanceH } = pickupEstimates(quick, undefined);
    for (const estimate of [resonanceHz, inductanceH])
      assert.deepEqual(
        Object.keys(known(estimate).sources ?? {}).filter((cause) => /losses|screening|poles/.test(cause)),
        [],
      );
    assert.deepEqual(pickupMagnetics(quick).eddies().turns, []);
  });
});

describe('two coils', () => {
  const pair = (facts: string) =>
    quickOfText(`wire w {
  gauge 42 AWG
}
magnet bar {
  material alnico-5
}
bobbin b {
  core 62 x 5.8 mm
  window 7 x 6 mm
  poles 6 spread 50 mm
  pole slug steel 4.8 x 12.5 mm
}
pickup wren {
${['one', 'two']
  .map(
    (name) => `  coil ${name} {
    bobbin b
    wire w
    turns 5_000
    wound clockwise
    start ${name}-start
    finish ${name}-finish
  }
`,
  )
  .join('')}  magnet bar north toward one
${facts}  hookup {
    hot one-start
    link one-finish two-finish
    ground two-start
  }
}
`);
  const COVER = '  cover nickel-silver tied to two-start\n';

  it('under one cover lose less than one coil under its own: the wall sees their currents cancel', () => {
    const lost = (quick: ReturnType<typeof quickOfText>, hz: number) => pickupMagnetics(quick).lostShare(hz);
    const ofCover = lost(pair(COVER), 10_000) - lost(pair(''), 10_000);
    const all = quicks(COVERS);
    const [bare, covered] = [all.get('none'), all.get('nickel-silver')];
    assert.ok(bare && covered);
    assert.ok(ofCover > 0 && ofCover < lost(covered, 10_000) - lost(bare, 10_000), `${ofCover}`);
  });

  it('keep their hum cancelled under it', () => {
    assert.ok(known(pickupEstimates(pair(COVER), undefined).humDb).value < -40);
  });

  /**
   * Common practice, no published source: a bare two-coil pickup peaks at 10 to 15 dB, loaded with 500 kohm at +3 to +6 dB, with 250 kohm
   * flat to +2 dB. The numbers are not tuned to it. What comes out: bare 11.8 ± 1.3 dB, which agrees; 2.8 ± 0.5 dB with 500 kohm, a
   * little low; no peak with 250 kohm, where the level falls from low frequencies on, at the lower edge.
   */
  const at = (ohm: number): Load => ({ ...DEFAULT_LOAD, volumeOhm: ohm, toneOhm: ohm });
  for (const [words, load, from, to] of [
    ['bare', NO_LOAD, 10, 15],
    ['with 500 kohm', at(500e3), 3, 6],
    ['with 250 kohm', at(250e3), 0, 2],
  ] as const)
    it(`for information, ${words}: common practice says ${from} to ${to} dB`, () => {
      const { peakDb } = pickupEstimates(pair(''), undefined, load);
      const [value, sd] = [peakDb?.value ?? 0, peakDb?.sd ?? 1];
      assert.ok(value > from - 2 * sd && value < to + 2 * sd, `${value} ± ${sd}`);
    });
});
