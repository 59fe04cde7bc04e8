/** What a person can change of pickups and positions, as far as their lines hold what it needs, and what excludes what. */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { exclude, type Move, minutesOf, possibleMoves } from '../../server/src/repair/moves.ts';
import { hazardsOf, type Work } from '../../server/src/repair/work.ts';
import { analyse } from '../support/check-fixture.ts';

const coil = (name: string, ...lines: readonly string[]) =>
  `  coil ${name} {\n${lines.map((line) => `    ${line}\n`).join('')}    start ${name}-in\n    finish ${name}-out\n  }\n`;
const pickup = (name: string, ...parts: readonly string[]) => `pickup ${name} {\n${parts.join('')}}\n`;
const hookup = (...lines: readonly string[]) => `  hookup {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const ROW = hookup('hot b-in', 'link a-out b-out', 'ground a-in');
const SOUNDING = ['wound clockwise', 'polarity north-up'] as const;
const SILENT = ['wound clockwise', 'serves none'] as const;
const ALONE = hookup('hot a-in', 'ground a-out');

function movesOf(text: string): readonly Move[] {
  const { model } = analyse(text);
  const [instrument] = model.instruments;
  return possibleMoves(model.pickups.map(quickOf(undefined)), instrument);
}
const named = (move: Move): string =>
  move.on === 'position'
    ? `${move.position.key.value}: ${move.choice.to}, ${move.work}`
    : [move.pickup.name, move.coil, move.work].filter(Boolean).join(' ');
const listed = (...texts: readonly string[]): readonly string[] => movesOf(texts.join('')).map(named);

describe('what can be changed', () => {
  it('is each coil and the whole, of two coils with rods; leads and rods of the later coil first', () => {
    assert.deepEqual(listed(pickup('p', coil('a', ...SOUNDING), coil('b', ...SOUNDING), ROW)), [
      'p hot and ground',
      'p b leads outside',
      'p a leads outside',
      'p b rods of a coil',
      'p a rods of a coil',
      'p rods of all coils',
      'p a rewind',
      'p b rewind',
    ]);
  });

  it('is the bar where one lies under the coils, and no rods', () => {
    const bar = '  magnet bar-5 north toward a\n';
    const parts = 'magnet bar-5 {\n  material alnico-5\n  size 63.5 x 12.7 x 3.2 mm\n}\n';
    const works = listed(parts, pickup('p', coil('a', ...SOUNDING), coil('b', ...SOUNDING), bar, ROW));
    assert.deepEqual(
      works.filter((each) => /bar|rods/.test(each)),
      ['p bar magnet'],
    );
  });

  it('is what carries the poles that only readings tell of: magnets beneath, or rods all at once', () => {
    const poles = (bobbin: string) =>
      listed(
        'bobbin rods {\n  pole rod alnico-5 4.8 x 16.5 mm\n}\nbobbin screws {\n  pole screw steel 4.8 x 16.5 mm\n}\n',
        pickup('p', coil('a', 'wound clockwise', ...(bobbin === '' ? [] : [bobbin])), ALONE, KICK),
      ).filter((each) => /bar|rods/.test(each));
    const KICK = '  readings "bench" 2026-10-02 {\n    kick a-out to a-in approach positive\n  }\n';
    assert.deepEqual([poles(''), poles('bobbin rods'), poles('bobbin screws')].map(String), [
      'p bar magnet',
      'p rods of all coils',
      'p bar magnet',
    ]);
  });

  it('is nothing that the lines do not hold: no lead, no wind, no poles, no rods of a lower coil', () => {
    assert.deepEqual(listed(pickup('p', coil('a'), coil('b', ...SOUNDING), hookup('hot b-in', 'link a-out b-out'))), [
      'p b leads outside',
      'p b rods of a coil',
      'p b rewind',
    ]);
    const stack = pickup('p', coil('a', ...SOUNDING), coil('b', 'wound clockwise', 'below a'), ROW);
    assert.deepEqual(
      listed(stack).filter((each) => each.includes('rods')),
      ['p a rods of a coil'],
    );
  });

  it('is a dummy first, at its own hookup; a pickup with one silent coil is none', () => {
    const half = pickup('half', coil('a', ...SOUNDING), coil('b', ...SILENT), ROW);
    const dummy = pickup('ghost', coil('a', ...SILENT), ALONE);
    const works = listed(half, dummy);
    assert.deepEqual(works.slice(0, 1), ['ghost dummy at its hookup']);
    assert.ok(works.includes('half hot and ground'));
    assert.ok(works.indexOf('half b leads outside') < works.indexOf('half a leads outside'));
  });

  it('is of positions another coil of a split and a dummy turned round, unless it is meant so', () => {
    const two = pickup('p', coil('a', ...SOUNDING), coil('b', ...SOUNDING), ROW);
    const dummy = pickup('ghost', coil('a', ...SILENT), ALONE);
    const instrument = `instrument i {
  pickup neck p
  pickup under ghost
  selector {
    1 "split" neck.a
    2 "both" neck.a parallel neck.b
    3 "quiet" neck series under
    4 "meant" neck.a, on purpose
  }
}
`;
    assert.deepEqual(
      listed(two, dummy, instrument).filter((each) => /^\d/.test(each)),
      ['1: neck.b, other coil of a split', '3: reversed under, dummy turned round'],
    );
  });
});

describe('the work', () => {
  it('names what is at hand that can hurt: an iron, enamel, magnets, a winder', () => {
    const cautioned = (work: Work): string => hazardsOf(work).join(', ');
    const solder: readonly Work[] = ['shield by itself', 'hot and ground', 'leads outside', 'other coil of a split'];
    assert.deepEqual([...new Set(solder.map(cautioned))], ['solder']);
    assert.equal(cautioned('bar magnet'), 'solder, magnets');
    assert.equal(cautioned('rods of a coil'), 'magnets, magnetising');
    assert.equal(cautioned('rods of all coils'), 'magnets, magnetising');
    assert.equal(cautioned('leads inside'), 'solder, enamel');
    assert.equal(cautioned('shield off a coil'), 'solder, enamel');
    assert.equal(cautioned('rewind'), 'winder, solder, enamel');
  });
});

describe('two changes', () => {
  const two = (name: string) => pickup(name, coil('a', ...SOUNDING), coil('b', ...SOUNDING), ROW);
  const moves = movesOf(
    `${two('p')}${two('q')}instrument i {
  pickup neck p
  selector {
    1 "split" neck.a
    2 "other" neck.b
  }
}
`,
  );
  const move = (name: string): Move => {
    const found = moves.find((each) => named(each) === name);
    assert.ok(found, name);
    return found;
  };
  const clash = (a: string, b: string): boolean => {
    const [one, other] = [exclude(move(a), move(b)), exclude(move(b), move(a))];
    assert.equal(one, other, `${a}, ${b}`);
    return one;
  };

  it('exclude each other where the one undoes the other or repeats it', () => {
    assert.ok(clash('p a rewind', 'p a leads outside'));
    assert.ok(clash('p rods of all coils', 'p a rods of a coil'));
    const split = '1: neck.b, other coil of a split';
    assert.ok(clash(split, split));
  });

  it('do not otherwise', () => {
    for (const [a, b] of [
      ['p a rewind', 'p b leads outside'],
      ['p a rewind', 'p a rods of a coil'],
      ['p a rewind', 'p b rewind'],
      ['p a leads outside', 'p b leads outside'],
      ['p rods of all coils', 'p hot and ground'],
      ['p rods of all coils', 'q a rods of a coil'],
      ['p a rewind', 'q a leads outside'],
      ['1: neck.b, other coil of a split', '2: neck.a, other coil of a split'],
      ['1: neck.b, other coil of a split', 'p a rewind'],
    ] as const)
      assert.ok(!clash(a, b), `${a}, ${b}`);
  });

  it('with a shield: it goes to ground by itself, or gets off the coil that it carries', () => {
    const shielded = movesOf(
      pickup(
        'p',
        '  conductors violet grey\n  shield bare\n',
        '  coil a {\n    wound clockwise\n    polarity north-up\n    start to bare\n    finish to violet\n  }\n',
        '  coil b {\n    wound clockwise\n    polarity south-up\n    start to grey\n    finish to violet\n  }\n',
        hookup('hot grey', 'ground bare'),
      ),
    );
    const off = shielded.find(({ work }) => work === 'shield off a coil');
    const rest = shielded.filter((each) => each !== off);
    assert.ok(off);
    assert.ok(rest.every((each) => !exclude(off, each)));
    assert.ok(exclude(off, { ...off, work: 'shield by itself' }));
  });

  it('take a cover off once', () => {
    const covered = movesOf(
      pickup('p', coil('a', ...SOUNDING), coil('b', ...SOUNDING), '  cover brass 0.5 mm tied to a-in\n', ROW),
    );
    const rewinds = covered.filter(({ work }) => work === 'rewind');
    assert.equal(rewinds.length, 2);
    // 240 minutes each and 20 for the cover: the table of work, common practice, no published source.
    assert.deepEqual([minutesOf(rewinds.slice(0, 1)), minutesOf(rewinds)], [260, 500]);
  });
});
