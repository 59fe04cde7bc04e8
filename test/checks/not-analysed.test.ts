import assert from 'node:assert/strict';
import { pickupChecks } from '../../server/src/checks/index.ts';
import { analyse } from '../support/check-fixture.ts';

/** The last of so many blocks stands by itself; each before it is made like the one behind it. */
const line = (kind: string, length: number, last: string) =>
  `${Array.from({ length }, (_, index) => `${kind} b${index} like b${index + 1} {\n}\n`).join('')}${kind} b${length} {\n${last}\n}\n`;

describe('blocks made like one another, written last-first', () => {
  it('are read however many they are', () => {
    const wires = analyse(line('wire', 1500, '  gauge 42 AWG'));
    assert.deepEqual(wires.findings, []);
    assert.equal(wires.model.wires[0]?.gaugeAwg?.value, 42);
    const coils = analyse(`pickup p {\n${line('coil', 2000, '  turns 7_000')}}\n`);
    assert.equal(coils.model.pickups[0]?.coils[0]?.turns?.value.si, 7000);
  });

  it('are told once where they go in a circle', () => {
    const circle = analyse(`${line('wire', 20, '').replace('wire b20 {', 'wire b20 like b0 {')}`);
    assert.deepEqual(
      circle.findings.map(({ code }) => code),
      ['name/cycle'],
    );
    // A circle that no shop has: what is left out says so.
    const large = analyse(`${line('wire', 1500, '').replace('wire b1500 {', 'wire b1500 like b0 {')}`);
    assert.ok(large.findings.some(({ code }) => code === 'analysis/incomplete'));
  });
});

const PICKUP = (name: string, line = '') =>
  `pickup ${name} {\n  coil main {\n    turns 7_000\n    wound clockwise\n    polarity north-up\n    start red\n    finish blue\n  }\n  ${line}\n  hookup {\n    hot red\n    ground blue\n  }\n}\n`;

/** While a check of pickups fails at the one that is called so. */
function failingAt<T>(name: string, run: () => T): T {
  const checks = pickupChecks as unknown as { code: string; run(context: { pickup: { name: string } }): unknown[] }[];
  checks.unshift({
    code: 'circuit/open',
    run: ({ pickup }) => {
      if (pickup.name === name) throw new Error('no such matrix');
      return [];
    },
  });
  try {
    return run();
  } finally {
    checks.shift();
  }
}

describe('a fault of the program in one pickup', () => {
  it('is told there, and the findings of the others stay', () => {
    const text = `${PICKUP('first')}${PICKUP('second', 'magnet missing north toward main')}wire w {\n  gauge 42 mm\n}\n`;
    const analysis = failingAt('first', () => analyse(text));
    assert.deepEqual(
      analysis.findings.map(({ code, subject }) => [code, subject.pickup]),
      [
        ['analysis/incomplete', 'first'],
        ['name/unknown', undefined],
        ['unit/wrong', undefined],
      ],
    );
    assert.match(analysis.findings[0]?.message ?? '', /Pickup first is not analysed: .*no such matrix/);
    assert.deepEqual(
      analysis.pickups.map(({ pickup }) => pickup.name),
      ['second'],
    );
  });
});

describe('stated limits', () => {
  it('of nesting are told with what was left out, in blocks and in parentheses', () => {
    const deep = `pickup p {\n${'thing c {\n'.repeat(5000)}${'}\n'.repeat(5001)}`;
    assert.ok(analyse(deep).findings.some(({ code }) => code === 'analysis/incomplete'));
    const selection = `instrument i {\n  selector {\n    1 "a" ${'('.repeat(20_000)}a${')'.repeat(20_000)}\n  }\n}\n`;
    assert.ok(analyse(selection).findings.some(({ code }) => code === 'analysis/incomplete'));
    const reversed = `instrument i {\n  selector {\n    1 "a" ${'reversed '.repeat(20_000)}a\n  }\n}\n`;
    assert.ok(analyse(reversed).findings.some(({ code }) => code === 'analysis/incomplete'));
  });

  it('of coils, readings, positions, controls and parts are told where they stand, and nothing is made up', () => {
    const coils = (count: number) =>
      `pickup p {\n${Array.from({ length: count }, (_, index) => `  coil c${index} {\n    start s${index}\n    finish f${index}\n  }\n`).join('')}  hookup {\n    hot f0\n${Array.from({ length: count - 1 }, (_, index) => `    link s${index} f${index + 1}\n`).join('')}    ground s${count - 1}\n  }\n}\n`;
    const instrument = (controls: string, positions: string) =>
      `${PICKUP('one')}instrument i {\n  pickup b one\n  controls {\n${controls}  }\n  selector {\n${positions}  }\n}\n`;
    const volume = '    volume 500 kohm audio\n';
    const position = '    1 "bridge" b\n';
    const many = (count: number, of: (index: number) => string) =>
      Array.from({ length: count }, (_, index) => of(index)).join('');
    const cases: readonly (readonly [text: string, what: RegExp])[] = [
      [coils(1000), /Pickup p is read and not solved: 1000 coils, more than the 48/],
      [
        PICKUP('p', `readings {\n${many(2001, () => '    main 7.1 kohm\n')}  }`),
        /2001 lines of readings, more than the 2000/,
      ],
      [
        instrument(
          volume,
          many(201, (index) => `    ${index + 1} "x" b\n`),
        ),
        /Instrument i .*201 positions/,
      ],
      [
        instrument(
          many(101, () => volume),
          position,
        ),
        /101 controls, more than the 100/,
      ],
      [instrument(volume, `    1 "x" ${Array(1000).fill('b').join(' series ')}\n`), /1000 parts in one position/],
      [`${coils(49)}${instrument(volume, position).replace('b one', 'b p')}`, /its pickup b has 49 coils/],
    ];
    for (const [text, what] of cases) {
      const { findings, pickups, instruments } = analyse(text);
      const told = findings.filter(({ code }) => code === 'analysis/incomplete');
      assert.ok(
        told.some(({ message }) => what.test(message)),
        `${what}: ${told.map(({ message }) => message)}`,
      );
      const left = told.map(({ subject }) => subject.pickup ?? subject.instrument);
      const solved = [...pickups.map(({ pickup }) => pickup.name), ...instruments.map((each) => each.instrument.name)];
      assert.deepEqual(
        solved.filter((name) => left.includes(name)),
        [],
      );
    }
    for (const text of [coils(48), instrument(volume, position)])
      assert.ok(analyse(text).findings.every(({ code }) => code !== 'analysis/incomplete'));
  });

  it('are none for long lines', () => {
    const note = `pickup p {\n  note "${'a'.repeat(500_000)}"\n  conductors ${Array.from({ length: 20_000 }, (_, index) => `l${index}`).join(' ')}\n}\n`;
    assert.ok(analyse(note).findings.every(({ code }) => code !== 'analysis/incomplete'));
    const odd = `pickup p {\n  note ${': '.repeat(20_000)}\n}\n`;
    assert.ok(analyse(odd).findings.length > 0);
  });
});
