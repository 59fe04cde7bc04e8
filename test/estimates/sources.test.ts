/**
 * What drives the circuit of a position, from the law of induction: a coil's e.m.f. for a string goes with its turns and with wind · pole,
 * in a uniform field with its turn-area and its wind; of a tapped coil each part has its share; a dummy hears no string, and the lower
 * coil of a stack little of it.
 */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { LOWER_COIL_STRING_SHARE } from '../../server/src/estimates/common-practice.ts';
import { AT_THE_METER, positionNetwork } from '../../server/src/estimates/position-network.ts';
import { contributionsOf, humSources, stringDrives, stringSources } from '../../server/src/estimates/sources.ts';
import { magnitude } from '../../server/src/physics/complex.ts';
import { analyse } from '../support/check-fixture.ts';

const BOBBIN =
  'bobbin six {\n  core 63.0 x 5.6 mm\n  window 7.2 x 4.8 mm\n}\nwire w {\n  gauge 42 AWG\n  overall 0.07 mm\n}\n';
const coil = (name: string, ...lines: readonly string[]) =>
  `  coil ${name} {\n    start ${name}-in\n    finish ${name}-out\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const wound = (turns: number | undefined, wind = 'clockwise', pole = 'north-up') => [
  ...(turns === undefined ? [] : [`turns ${turns}`]),
  `wound ${wind}`,
  `polarity ${pole}`,
];

/** A pickup of these coils and joints, alone in an instrument. */
function circuitOf(coils: readonly string[], joints: readonly string[]) {
  const analysis = analyse(`${BOBBIN}pickup p {
  strings 6
${coils.join('')}  hookup {
${joints.map((line) => `    ${line}\n`).join('')}  }
}
instrument i {
  pickup neck p
  selector {
    1 "neck" neck
  }
}
`);
  const [instrument] = analysis.model.instruments;
  const selection = instrument?.positions[0]?.selection;
  assert.ok(instrument && selection);
  const circuit = positionNetwork(instrument, selection, quickOf(analysis.bench), AT_THE_METER);
  const named = (values: Readonly<Record<string, number>>) =>
    Object.fromEntries(
      circuit.segments.map(({ segment }) => [
        segment.source.replace(/^.*?(\w+(?:\[\d\])?)$/, '$1'),
        values[segment.source],
      ]),
    );
  return { circuit, named };
}
const row = (...names: readonly string[]) => [
  `hot ${names[0]}-out`,
  ...names.slice(1).map((name, index) => `link ${names[index]}-in ${name}-out`),
  `ground ${names.at(-1)}-in`,
];

describe('the e.m.f. of a coil', () => {
  const strings = (...coils: readonly (readonly [name: string, lines: readonly string[]])[]) => {
    const { circuit, named } = circuitOf(
      coils.map(([name, lines]) => coil(name, ...lines)),
      row(...coils.map(([name]) => name)),
    );
    return named(stringSources(circuit.segments));
  };

  it('for a string goes with its turns, and with wind and pole', () => {
    assert.deepEqual(
      strings(['a', wound(5000)], ['b', wound(6000, 'counterclockwise')], ['c', wound(7000, 'clockwise', 'south-up')]),
      {
        a: -5000,
        b: 6000,
        c: 7000,
      },
    );
  });

  it('counts as of 5,000 turns at all of them where those of one are not known', () => {
    assert.deepEqual(strings(['a', wound(7000)], ['b', wound(undefined, 'counterclockwise')]), { a: -5000, b: 5000 });
  });

  it('is louder or softer by what is not known of coils, all but the first of them; never where turns are known', () => {
    const louder = (...turns: readonly (number | undefined)[]) => {
      const names = turns.map((_, index) => 'abc'[index] ?? '');
      const { circuit, named } = circuitOf(
        names.map((name, index) => coil(name, ...wound(turns[index], 'counterclockwise'))),
        row(...names),
      );
      return named(stringSources(circuit.segments, 1.5));
    };
    assert.deepEqual(louder(7000, 6000), { a: 7000, b: 6000 });
    assert.deepEqual(louder(undefined, 6000), { a: 5000, b: 7500 });
    assert.deepEqual(louder(7000, 6000, undefined), { a: 5000, b: 7500, c: 7500 });
  });

  it('counts as positive where its sense is not known', () => {
    assert.deepEqual(strings(['a', ['turns 5_000']]), { a: 5000 });
  });

  it('is none of a dummy, and small of the lower coil of a stack', () => {
    const { a, b, c } = strings(
      ['a', wound(5000)],
      ['b', ['turns 5_000', 'wound clockwise', 'below a']],
      ['c', [...wound(5000), 'serves none']],
    );
    assert.equal(a, -5000);
    assert.ok(Math.abs((b ?? 0) + 5000 * LOWER_COIL_STRING_SHARE) < 1e-6, `${b}`);
    assert.ok(c === 0, `${c}`);
  });

  it('in a field goes with wind alone, and with the area of all turns, a dummy’s too', () => {
    const { circuit, named } = circuitOf(
      [
        coil('a', 'bobbin six', 'wire w', ...wound(5000)),
        coil('b', 'bobbin six', 'wire w', ...wound(5000, 'counterclockwise', 'south-up'), 'serves none'),
      ],
      row('a', 'b'),
    );
    const { a = 0, b = 0 } = named(humSources(circuit.segments));
    // 5,000 turns about a core of 63.0 mm by 5.6 mm, and up to twice as much farther out.
    assert.ok(a < -5000 * 0.063 * 0.0056 && a > -10_000 * 0.063 * 0.0056, `${a}`);
    assert.equal(b, -a);
    const alike = circuitOf([coil('a', ...wound(5000)), coil('b', ...wound(9000))], row('a', 'b'));
    assert.deepEqual(alike.named(humSources(alike.circuit.segments)), { a: -1, b: -1 });
  });

  it('of a tapped coil is shared by its parts', () => {
    const { circuit, named } = circuitOf(
      [coil('a', ...wound(5000), 'tap 2_000 turns a-tap')],
      ['hot a-out', 'ground a-in', 'free a-tap'],
    );
    const { 'a[1]': inner = 0, 'a[2]': outer = 0 } = named(stringSources(circuit.segments));
    assert.deepEqual([Math.round(inner), Math.round(outer)], [-2000, -3000]);
  });
});

describe('what strings drive', () => {
  const serving = (range: string) => [...wound(5000), `serves strings ${range}`];

  it('is all coils at once where none has strings of its own', () => {
    const { circuit, named } = circuitOf([coil('a', ...wound(5000)), coil('b', ...wound(6000))], row('a', 'b'));
    const drives = stringDrives(circuit);
    assert.ok(!Array.isArray(drives));
    assert.deepEqual(named(drives as Readonly<Record<string, number>>), { a: -5000, b: -6000 });
  });

  it('is what each string runs over, by how many strings run over it', () => {
    const { circuit, named } = circuitOf(
      [coil('a', ...serving('1 to 2')), coil('b', ...serving('3 to 6'))],
      row('a', 'b'),
    );
    const drives = stringDrives(circuit) as readonly {
      readonly values: Readonly<Record<string, number>>;
      readonly weight: number;
    }[];
    assert.deepEqual(
      drives.map(({ values, weight }) => [named(values), weight]),
      [
        [{ a: -5000, b: undefined }, 2],
        [{ a: undefined, b: -5000 }, 4],
      ],
    );
  });

  it('leaves out strings that nothing sounding hears: the coil over them is shorted', () => {
    const { circuit, named } = circuitOf(
      [coil('a', ...serving('1 to 3')), coil('b', ...serving('4 to 6'))],
      ['hot a-out', 'ground a-in b-in b-out'],
    );
    const drives = stringDrives(circuit) as readonly {
      readonly values: Readonly<Record<string, number>>;
      readonly weight: number;
    }[];
    assert.deepEqual(
      drives.map(({ values, weight }) => [named(values), weight]),
      [[{ a: -5000, b: undefined }, 3]],
    );
  });

  it('is all coils where none of them sounds', () => {
    const { circuit, named } = circuitOf(
      [coil('a', ...serving('1 to 3')), coil('b', ...serving('4 to 6'))],
      ['hot a-out', 'ground a-out', 'link a-in b-in b-out'],
    );
    const drives = stringDrives(circuit);
    assert.ok(!Array.isArray(drives));
    assert.deepEqual(named(drives as Readonly<Record<string, number>>), { a: -5000, b: -5000 });
  });

  it('overlaps where coils share strings', () => {
    const { circuit } = circuitOf([coil('a', ...serving('1 to 4')), coil('b', ...serving('3 to 6'))], row('a', 'b'));
    const drives = stringDrives(circuit) as readonly { readonly values: object; readonly weight: number }[];
    assert.deepEqual(
      drives.map(({ values, weight }) => [Object.keys(values).length, weight]),
      [
        [1, 2],
        [2, 2],
        [1, 2],
      ],
    );
  });
});

describe('what each coil gives to the output', () => {
  const given = (coils: readonly string[], joints: readonly string[], what: 'string' | 'hum' = 'string') =>
    contributionsOf(circuitOf(coils, joints).circuit, what, 10)?.map(({ term, weight, strings }) => [
      Math.round(term.value),
      Number(magnitude(weight).toFixed(2)),
      ...(strings ? [strings.from, strings.to, strings.of] : []),
    ]);

  it('is all of it in series, a half of each of two alike side by side', () => {
    const two = [coil('a', 'bobbin six', 'wire w', ...wound(5000)), coil('b', 'bobbin six', 'wire w', ...wound(5000))];
    assert.deepEqual(given(two, row('a', 'b')), [
      [5000, 1],
      [5000, 1],
    ]);
    assert.deepEqual(given(two, ['hot a-out b-out', 'ground a-in b-in']), [
      [5000, 0.5],
      [5000, 0.5],
    ]);
  });

  it('is nothing of one that a shunt of a two-hundredth leaves less than a hundredth', () => {
    const [main, shunt] = (['a', 'b'] as const).map((name, index) =>
      coil(name, 'bobbin six', 'wire w', ...wound([40_000, 200][index])),
    );
    assert.ok(main && shunt);
    assert.deepEqual(given([main, shunt], ['hot a-out b-out', 'ground a-in b-in']), [[200, 1]]);
  });

  it('is at the place of its pickup, where somebody knows that', () => {
    const { circuit } = circuitOf([coil('a', ...wound(5000))], row('a'));
    const places = (placeOf?: () => number) =>
      contributionsOf(circuit, 'string', 10, placeOf)?.map(({ place }) => place);
    assert.deepEqual([places(), places(() => 0.3)], [[undefined], [0.3]]);
  });

  it('is one of a tapped coil, whatever its parts', () => {
    const tapped = [coil('a', ...wound(5000), 'tap 2_000 turns a-tap')];
    assert.deepEqual(given(tapped, ['hot a-out', 'ground a-in', 'free a-tap']), [[5000, 1]]);
    // The inner part shorted: three fifths are left.
    assert.deepEqual(given(tapped, ['hot a-out', 'ground a-in a-tap']), [[5000, 0.6]]);
  });

  it('says over which strings, of a string; nothing of a coil that is silent, or whose turns are not known', () => {
    const serving = coil('a', ...wound(5000), 'serves strings 2 to 3');
    assert.deepEqual(given([serving], row('a')), [[5000, 1, 2, 3, 6]]);
    assert.deepEqual(
      given([coil('a', ...wound(5000)), coil('b', ...wound(5000))], ['hot a-out', 'ground a-in b-in b-out']),
      [[5000, 1]],
    );
    assert.equal(given([coil('a', ...wound(undefined))], row('a')), undefined);
    assert.equal(given([coil('a', ...wound(5000))], row('a'), 'hum'), undefined);
    assert.equal(given([coil('a', ...wound(5000))], ['hot a-out']), undefined);
  });
});
