/**
 * Puzzles made by chance: pickups of two and three coils in series whose signs, and turns, are partly left out. Following what is to be
 * measured next settles each in no more steps than the shortest way there is, by trying every set of readings, and one more. What the
 * bench shows is what does not contradict the spec with nothing left out. PUZZLES=40 for more of them.
 */
import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { measureNext, withReading } from '../../server/src/proposal/measure-next.ts';
import { measureNextIn } from '../../server/src/proposal/measure-next-instrument.ts';
import { measurementWords } from '../../server/src/proposal/measurement-words.ts';
import { analysed } from '../features/analysed.ts';
import { chance } from '../support/chance.ts';
import { SINGLE } from '../support/shop.ts';

const COUNT = Number(process.env.PUZZLES ?? 4);

interface PuzzleCoil {
  readonly name: string;
  readonly wound: string;
  readonly polarity: string;
  readonly hides: ReadonlySet<'wound' | 'polarity' | 'turns'>;
}

const LEADS = ['violet', 'grey', 'pink', 'turquoise', 'white', 'brown'];

function puzzle(seed: number): readonly PuzzleCoil[] {
  const { pick } = chance(seed);
  const names = pick([2, 3]) === 2 ? ['screw', 'slug'] : ['one', 'two', 'three'];
  return names.map((name) => ({
    name,
    wound: pick(['clockwise', 'counterclockwise']),
    polarity: pick(['north-up', 'south-up']),
    hides: new Set(
      (names.length === 2 ? (['wound', 'polarity', 'turns'] as const) : (['wound', 'polarity'] as const)).filter(() =>
        pick([true, true, false]),
      ),
    ),
  }));
}

function spec(coils: readonly PuzzleCoil[], isWhole = false): string {
  const shown = ({ hides }: PuzzleCoil, fact: 'wound' | 'polarity' | 'turns', line: string) =>
    isWhole || !hides.has(fact) ? [`    ${line}`] : [];
  const lead = (index: number) => LEADS[index] ?? '';
  return [
    'use "parts.pickup"',
    '',
    'pickup wren {',
    `  conductors ${LEADS.slice(0, 2 * coils.length).join(' ')}`,
    ...coils.flatMap((coil, index) => [
      `  coil ${coil.name} {`,
      '    bobbin rod-six',
      '    wire plain-42',
      ...shown(coil, 'turns', 'turns 5_000'),
      ...shown(coil, 'wound', `wound ${coil.wound}`),
      '    packing 0.66',
      ...shown(coil, 'polarity', `polarity ${coil.polarity}`),
      `    start to ${lead(2 * index)}`,
      `    finish to ${lead(2 * index + 1)}`,
      '  }',
    ]),
    '  cover none',
    '  hookup {',
    `    hot ${lead(0)}`,
    ...coils.slice(1).map((_, index) => `    link ${lead(2 * index + 1)} ${lead(2 * index + 2)}`),
    `    ground ${lead(2 * coils.length - 1)}`,
    '  }',
    '}',
    '',
  ].join('\n');
}

const onlyPickup = (analysis: Analysis) => {
  const [pickup] = analysis.pickups;
  assert.ok(pickup);
  return pickup;
};

const written = (analysis: Analysis, line: string): Analysis => {
  const after = withReading(analysis, onlyPickup(analysis).pickup, line);
  assert.ok(after, line);
  return after;
};

/** What the bench shows. */
function filled(line: string, whole: Analysis): string {
  if (line.startsWith('inductance')) return line.replace('…', '4.5');
  if (line.startsWith('hot')) return line.replace('…', '8.1');
  if (line.endsWith('kohm')) return line.replace('…', '4.05');
  const words = line.startsWith('kick') ? ['positive', 'negative'] : ['north-up', 'south-up'];
  const [right, ...others] = words
    .map((word) => line.replace('…', word))
    .filter((each) => !written(whole, each).findings.some(({ code }) => code === 'reading/contradicts'));
  assert.ok(right && others.length === 0, line);
  return right;
}

const isSettled = ({ findings }: Analysis): boolean =>
  !findings.some(({ code }) => code === 'phase/unproven' || code === 'winding/turns-unknown');

/** How few readings settle it, of all sets of them. */
function fewest(start: Analysis, coils: readonly PuzzleCoil[], whole: Analysis): number {
  const lines = coils.flatMap(({ name, hides }, index) => [
    `kick ${LEADS[2 * index + 1]} to ${LEADS[2 * index]} at ${name} approach …`,
    `compass ${name} …`,
    ...(hides.has('turns') ? [`${name} … kohm`] : []),
  ]);
  const taken = lines.map((line) => filled(line, whole));
  const settles = (at: Analysis, from: number, left: number): boolean =>
    left === 0
      ? isSettled(at)
      : taken.slice(from).some((line, index) => settles(written(at, line), from + index + 1, left - 1));
  for (let count = 0; count <= taken.length; count++) if (settles(start, 0, count)) return count;
  throw new RangeError('not to be settled');
}

describe('what is to be measured next', () => {
  for (let seed = 1; seed <= COUNT; seed++) {
    it(`settles puzzle ${seed} in no more steps than the shortest way and one, and asks for nothing that is known`, () => {
      const coils = puzzle(seed);
      const whole = analysed(spec(coils, true));
      const start = analysed(spec(coils));
      let at = start;
      let steps = 0;
      const asked = new Set<string>();
      for (let next = measureNext(onlyPickup(at), at); next; next = measureNext(onlyPickup(at), at)) {
        assert.ok(!asked.has(next.line), `${next.line} twice`);
        asked.add(next.line);
        const quick = quickOf(at.bench)(onlyPickup(at).pickup);
        const { kind, line } = next;
        const asks = (sign: 'windPole' | 'pole') =>
          quick.signs.filter((each) => line.includes(each.coil.name) && each[sign]);
        if (kind === 'kick') assert.deepEqual(asks('windPole'), [], line);
        if (kind === 'compass') assert.deepEqual(asks('pole'), [], line);
        if (!isSettled(at)) steps += 1;
        at = written(at, filled(next.line, whole));
      }
      assert.ok(isSettled(at), [...asked].join('; '));
      const best = fewest(start, coils, whole);
      assert.ok(steps <= best + 1, `${steps} steps, the shortest way ${best}: ${[...asked].join('; ')}`);
    });
  }

  const known = `${spec([
    { name: 'screw', wound: 'clockwise', polarity: 'north-up', hides: new Set() },
    { name: 'slug', wound: 'clockwise', polarity: 'south-up', hides: new Set(['polarity']) },
  ]).replace(
    /\}\n$/,
    '  readings {\n    screw 4.05 kohm\n    slug 4.05 kohm\n    inductance hot to ground 4.5 H at 1 kHz\n  }\n}\n',
  )}`;

  it('of a wind that is stated, the compass; with its order, its handling and the line', () => {
    const analysis = analysed(known);
    const next = measureNext(onlyPickup(analysis), analysis);
    assert.ok(next);
    const { settles, how, handling, line } = measurementWords(next);
    assert.equal(settles, 'phase (the slug coil)');
    assert.match(how, /^Hold a compass over the poles of the slug coil/);
    assert.equal(handling, 'about 1 min of handling');
    assert.equal(line, 'compass slug …');
  });

  it('of a coil whose end is inside, a kick at the output rather than opening it; opening is told with the cautions of that work', () => {
    const inside = known
      .replace(
        '    wound clockwise\n    packing 0.66\n    start to pink',
        '    packing 0.66\n    polarity south-up\n    start to pink',
      )
      .replace('conductors violet grey pink turquoise', 'conductors violet turquoise')
      .replace('    finish to grey\n', '')
      .replace('    start to pink\n', '')
      .replace('link grey pink', 'link screw.finish slug.start');
    const analysis = analysed(inside);
    const next = measureNext(onlyPickup(analysis), analysis);
    assert.deepEqual([next?.line, next?.minutes], ['kick hot to ground at slug approach …', 3]);
    assert.match(
      next ? measurementWords({ ...next, work: ['opened'] }).how : '',
      /For that the pickup is opened, and closed again\. Solder and iron burn: .*Enamel under the iron/,
    );
  });

  it('nothing where nothing is open', () => {
    const analysis = analysed(
      known.replace(
        '    wound clockwise\n    packing 0.66\n    start to pink',
        '    wound clockwise\n    packing 0.66\n    polarity south-up\n    start to pink',
      ),
    );
    assert.equal(measureNext(onlyPickup(analysis), analysis), undefined);
  });

  it('nothing of a coil that is still to be wound for a target, nor of a pickup as it was before its rework', () => {
    const planned = analysed(
      known
        .replace('    turns 5_000\n', '')
        .replace(/ {2}readings \{[^}]*\}\n/, '  target {\n    resistance 8 kohm\n  }\n'),
    );
    assert.equal(measureNext(onlyPickup(planned), planned), undefined);
    const reworked = analysed(`${known}\npickup heron reworks wren {\n  made 2026-05-06\n}\n`);
    assert.deepEqual(
      reworked.pickups.map((each) => [each.pickup.name, measureNext(each, reworked)?.line]),
      [
        ['wren', undefined],
        ['heron', 'compass slug …'],
      ],
    );
  });

  describe('in an instrument', () => {
    const fitted = (hidden: string) => {
      const bridge = SINGLE.replace(/^use.*\n/, '').replace('pickup wren "Wren"', 'pickup heron');
      const whole = `${SINGLE}${bridge}instrument plover {
  pickup neck wren
  pickup bridge heron
  selector {
    1 "bridge" bridge
    2 "both" neck parallel bridge
    3 "neck" neck
  }
}
`;
      const at = whole.indexOf(hidden, whole.indexOf('pickup heron'));
      assert.ok(at > 0);
      return analysed(whole.slice(0, at) + whole.slice(at + hidden.length));
    };
    const nextOf = (analysis: Analysis) => {
      const [instrument] = analysis.instruments;
      assert.ok(instrument);
      return measureNextIn(instrument, analysis);
    };

    it('a compass over the pickup whose pole is open: it needs nothing taken out, and then nothing is left', () => {
      const open = fitted('    polarity north-up\n');
      const next = nextOf(open);
      assert.ok(next);
      assert.deepEqual([next.pickup.name, next.line, next.minutes], ['heron', 'compass main …', 1]);
      assert.equal(measurementWords(next).settles, 'heron: phase (the main coil)');
      const after = withReading(open, next.pickup, 'compass main south-up');
      assert.ok(after);
      assert.equal(nextOf(after), undefined);
    });

    it('a kick where the pole is known and the winding direction is not: the compass would tell nothing new', () => {
      const next = nextOf(fitted('    wound clockwise\n'));
      assert.deepEqual([next?.pickup.name, next?.line], ['heron', 'kick violet to grey at main approach …']);
      assert.match(
        next ? measurementWords(next).how : '',
        /For that the pickup is taken out of the instrument, unplugged\.$/,
      );
      assert.deepEqual(
        next?.settles.map(({ kind }) => kind),
        ['phase', 'hum'],
      );
    });

    it('nothing where all is known', () => {
      assert.equal(nextOf(fitted('  strings 6\n')), undefined);
    });
  });
});
