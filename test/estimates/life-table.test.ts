/**
 * Two coils in every combination of what is said of them, what is read of them as found, and what became of the magnet, against a table
 * written by hand (`life-table.json`, with the reasoning). The readings are made for a pickup whose coils were wound clockwise, over a
 * magnet that lay the other way round then wherever the text does not say that it was kept.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { declaredIn } from '../support/check-fixture.ts';
import { thorough } from '../support/thorough.ts';

interface CoilRow {
  readonly said: 'kept' | 'new' | 'nothing';
  readonly turns: 'stated' | 'none';
  readonly reading: 'agrees' | 'contradicts' | 'absent';
  readonly coil: 'the same' | 'another' | 'in doubt' | 'not known';
}
interface SignRow {
  readonly magnet: 'kept' | 'turned' | 'exchanged' | 'not said';
  readonly found: 'kick and compass' | 'kick' | 'compass' | 'neither';
  readonly wind: 'known' | 'open';
  readonly poleThen: 'known' | 'open';
  readonly productThen: 'known' | 'open';
}
const table = JSON.parse(readFileSync(new URL('life-table.json', import.meta.url), 'utf8')) as {
  readonly coils: readonly CoilRow[];
  readonly signs: readonly SignRow[];
};

/** 5,000 turns of 42 AWG on this bobbin compute to about 4.0 kohm; a spread of a tenth is more than wire and meter explain. */
const SHELF = `wire w {\n  gauge 42 AWG\n  overall 0.07 mm\n}
bobbin b {\n  core 63.0 x 5.6 mm\n  window 7.2 x 4.8 mm\n}
magnet bar {\n  material alnico-5\n  size 60 x 12 x 3 mm\n}\n`;
const AGREES = 3.97;
const CONTRADICTS = 6.5;
const CLOCKWISE = -1;

interface Place {
  readonly name: string;
  readonly start: string;
  readonly finish: string;
  readonly poleNow: 1 | -1;
}
const PLACES: readonly [Place, Place] = [
  { name: 'screw', start: 'pink', finish: 'grey', poleNow: 1 },
  { name: 'slug', start: 'violet', finish: 'white', poleNow: -1 },
];

const coilText = ({ said, turns }: CoilRow, { name, start, finish }: Place) =>
  `  coil ${name} {\n${said === 'nothing' ? '' : `    ${said}\n`}    bobbin b\n    wire w\n    packing 0.66\n${
    turns === 'stated' ? '    turns 5_000\n' : ''
  }    start ${start}\n    finish ${finish}\n  }\n`;

function readText({ reading }: CoilRow, { magnet, found }: SignRow, { name, start, finish, poleNow }: Place): string {
  const poleThen = magnet === 'kept' ? poleNow : -poleNow;
  const lines = [
    ...(reading === 'absent' ? [] : [`${name} ${reading === 'agrees' ? AGREES : CONTRADICTS} kohm`]),
    // North-up and clockwise, red on the finish: approach reads positive.
    ...(found.includes('kick')
      ? [`kick ${finish} to ${start} at ${name} approach ${poleThen > 0 ? 'positive' : 'negative'}`]
      : []),
    ...(found.includes('compass') ? [`compass ${name} ${poleThen > 0 ? 'north-up' : 'south-up'}`] : []),
  ];
  return lines.map((line) => `    ${line}\n`).join('');
}

const WORK = { kept: ', kept', turned: ', turned', exchanged: ', new', 'not said': '' } as const;

const specOf = (name: string, rows: readonly [CoilRow, CoilRow], signs: SignRow): string =>
  `pickup ${name} {\n${coilText(rows[0], PLACES[0])}${coilText(rows[1], PLACES[1])}  magnet bar north toward screw${WORK[signs.magnet]}
  hookup {\n    hot violet\n    link white grey\n    ground pink\n  }
  readings found "as received" {\n    room 20 degC\n${readText(rows[0], signs, PLACES[0])}${readText(rows[1], signs, PLACES[1])}  }\n}\n`;

/** Each coil beside a quarter of the others in each row of signs, another quarter in the next; beside all with THOROUGH. */
const isTried = (a: CoilRow, b: CoilRow, turn: number): boolean =>
  (table.coils.indexOf(a) + table.coils.indexOf(b) + turn) % Math.max(1, Math.round(4 / thorough(1))) === 0;

describe('what readings as found tell of the coils now', () => {
  it('the table has every combination once', () => {
    const key = (row: object) => JSON.stringify(Object.values(row).slice(0, 3));
    assert.equal(new Set(table.coils.map(key)).size, 3 * 2 * 3);
    assert.equal(new Set(table.signs.map(({ magnet, found }) => `${magnet} ${found}`)).size, 4 * 4);
  });

  for (const [turn, signs] of table.signs.entries())
    it(`magnet ${signs.magnet}, found ${signs.found}`, () => {
      for (const a of table.coils) {
        const beside = table.coils.filter((b) => isTried(a, b, turn));
        const pairs = beside.map((b, index) => ({ name: `p${index}`, rows: [a, b] as const }));
        const { model, bench } = declaredIn(SHELF + pairs.map(({ name, rows }) => specOf(name, rows, signs)).join(''));
        for (const [index, { rows }] of pairs.entries()) {
          const pickup = model.pickups[index];
          assert.ok(pickup);
          const quick = quickOf(bench)(pickup);
          // The finding reading/whose-coil tells each of them.
          const doubted = quick.life.doubts.map(({ coil }) => coil.name);
          for (const [at, row] of rows.entries()) {
            const place = PLACES[at];
            const own = quick.signs[at];
            assert.ok(place && own);
            const { name, poleNow } = place;
            const what = JSON.stringify({ name, ...row, ...signs });
            const isSame = row.coil === 'the same';
            assert.equal(doubted.includes(name), row.coil === 'in doubt', what);
            const ohm = quick.windings.get(own.coil)?.resistance20COhm;
            if (isSame && row.reading !== 'absent')
              assert.equal(ohm?.value, (row.reading === 'agrees' ? AGREES : CONTRADICTS) * 1000, what);
            else assert.equal(ohm?.basis, row.turns === 'stated' ? 'computed' : undefined, what);
            assert.equal(own.wind?.sign, isSame && signs.wind === 'known' ? CLOCKWISE : undefined, what);
            assert.equal(own.pole?.sign, poleNow, what);
            const poleThen = signs.magnet === 'kept' ? poleNow : -poleNow;
            assert.equal(own.found?.pole?.sign, signs.poleThen === 'known' ? poleThen : undefined, what);
            const productThen = signs.productThen === 'known' ? CLOCKWISE * poleThen : undefined;
            assert.equal(own.found?.windPole?.sign, productThen, what);
          }
        }
      }
    });
});
