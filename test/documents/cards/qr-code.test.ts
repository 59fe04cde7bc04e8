/**
 * The code of a label, read back by the rules of ISO/IEC 18004 (recalled): format information with its mask, modules in pairs of
 * columns from the right, bytes of one block, mode 0100. Versions 1 to 3 at level M have one block, so no interleaving is undone.
 */
import assert from 'node:assert/strict';
import { qrCode } from '../../../server/src/documents/cards/qr-code.ts';
import type { SvgElement } from '../../../server/src/documents/svg.ts';

describe('code of a label', () => {
  for (const text of ['samples/hesk.pickup#RYD-014', 'würfel.pickup#7'])
    it(`reads ${text}`, () => {
      assert.equal(read(modules(text)), text);
    });

  it('leaves out what a label is too small for', () => {
    assert.equal(qrCode('x'.repeat(201), 'code'), undefined);
    assert.ok(qrCode('x'.repeat(200), 'code'));
  });
});

/** Dark modules without the quiet zone. */
function modules(text: string): readonly (readonly boolean[])[] {
  const svg = qrCode(text, 'code');
  assert.ok(svg);
  const size = Number(String(svg.attributes.viewBox).split(' ')[2]) - 8;
  const squares = svg.children.find(
    (child): child is SvgElement => typeof child === 'object' && 'name' in child && child.name === 'path',
  );
  const dark = new Set(
    [...String(squares?.attributes.d).matchAll(/M(\d+) (\d+)/g)].map(([, x, y]) => `${Number(x) - 4} ${Number(y) - 4}`),
  );
  return Array.from({ length: size }, (_, row) =>
    Array.from({ length: size }, (_, column) => dark.has(`${column} ${row}`)),
  );
}

const MASKS: readonly ((row: number, column: number) => boolean)[] = [
  (i, j) => (i + j) % 2 === 0,
  (i) => i % 2 === 0,
  (_, j) => j % 3 === 0,
  (i, j) => (i + j) % 3 === 0,
  (i, j) => (Math.floor(i / 2) + Math.floor(j / 3)) % 2 === 0,
  (i, j) => ((i * j) % 2) + ((i * j) % 3) === 0,
  (i, j) => (((i * j) % 2) + ((i * j) % 3)) % 2 === 0,
  (i, j) => (((i + j) % 2) + ((i * j) % 3)) % 2 === 0,
];

function read(dark: readonly (readonly boolean[])[]): string {
  const size = dark.length;
  const version = (size - 17) / 4;
  assert.ok(version >= 1 && version <= 3, `version ${version}`);
  const at = (row: number, column: number) => (dark[row]?.[column] ? 1 : 0);
  // Format information beside the upper left finder: bits 14 to 10 are level and mask, masked with 10101.
  const format = [0, 1, 2, 3, 4].reduce((bits, column) => bits * 2 + at(8, column), 0) ^ 0b10101;
  assert.equal(format >> 3, 0b00, 'level M');
  const mask = MASKS[format & 7];
  assert.ok(mask);
  const bits: number[] = [];
  for (let right = size - 1, upward = true; right > 0; right -= 2, upward = !upward) {
    if (right === 6) right -= 1;
    for (let step = 0; step < size; step++) {
      const row = upward ? size - 1 - step : step;
      for (const column of [right, right - 1])
        if (!isFunction(row, column, size, version)) bits.push(at(row, column) ^ (mask(row, column) ? 1 : 0));
    }
  }
  const number = (from: number, length: number) =>
    bits.slice(from, from + length).reduce((value, bit) => value * 2 + bit, 0);
  assert.equal(number(0, 4), 0b0100, 'byte mode');
  const count = number(4, 8);
  return new TextDecoder().decode(Uint8Array.from({ length: count }, (_, index) => number(12 + 8 * index, 8)));
}

function isFunction(row: number, column: number, size: number, version: number): boolean {
  const finder = (row < 9 && column < 9) || (row < 9 && column >= size - 8) || (row >= size - 8 && column < 9);
  const alignment = version > 1 && Math.abs(row - (size - 7)) <= 2 && Math.abs(column - (size - 7)) <= 2;
  return finder || alignment || row === 6 || column === 6;
}
