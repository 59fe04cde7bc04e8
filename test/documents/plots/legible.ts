/** Measures a finished drawing as a reader sees it. */
import assert from 'node:assert/strict';
import { type Box, overlap } from '../../../server/src/documents/labels.ts';
import { elementsOf, type ReadElement, readSvg, textsOf } from '../svg-reading.ts';

/** Well-formed, named, without styles of its own in elements; no text off the sheet, on another text, or under a line of the drawing. */
export function assertLegibleDrawing(svg: string): ReadElement {
  const root = readSvg(svg);
  const [width, height] = [Number(root.attributes.width), Number(root.attributes.height)];
  assertNamed(root);
  const texts = textsOf(root).filter(({ words }) => words !== '');
  const lines = linesOf(root);
  texts.forEach(({ words, box }, index) => {
    assert.ok(box.x >= 0 && box.x + box.width <= width + 0.1, `"${words}" leaves the sheet`);
    assert.ok(box.y >= 0 && box.y + box.height <= height, `"${words}" leaves the sheet`);
    for (const other of texts.slice(index + 1))
      assert.ok(!overlap(box, other.box), `"${words}" lies on "${other.words}"`);
    for (const line of lines) assert.ok(!overlap(box, line), `a line runs through "${words}"`);
  });
  return root;
}

function assertNamed(root: ReadElement): void {
  const [title, description] = root.children;
  assert.equal(root.attributes.role, 'img');
  assert.equal(title?.name, 'title');
  assert.equal(description?.name, 'desc');
  assert.ok((title?.text.length ?? 0) > 4 && (description?.text.length ?? 0) > 4, 'named and described');
  assert.equal(root.attributes['aria-labelledby'], `${title?.attributes.id} ${description?.attributes.id}`);
  for (const { name, attributes, children } of elementsOf(root)) {
    for (const attribute of Object.keys(attributes))
      assert.ok(attribute !== 'style' && !attribute.startsWith('on'), `${name} has ${attribute}`);
    if (attributes['data-part'] !== undefined) assert.equal(children[0]?.name, 'title', attributes['data-part']);
    assert.notEqual(name, 'script');
  }
}

/** Lines that carry meaning; grids, rules and leaders may pass beneath a word with a rim. */
const MEANINGFUL: Readonly<Record<string, number>> = {
  on: 1.5,
  off: 0.5,
  now: 1.25,
  was: 1,
  spark: 0.75,
  hid: 0.5,
  w2: 0.75,
};

function linesOf(root: ReadElement): readonly Box[] {
  return elementsOf(root).flatMap(({ name, attributes }) => {
    const half = MEANINGFUL[attributes.class ?? ''];
    if (half === undefined || name !== 'path') return [];
    return segmentsOf(attributes.d ?? '').map(([a, b]) => ({
      x: Math.min(a.x, b.x) - half,
      y: Math.min(a.y, b.y) - half,
      width: Math.abs(a.x - b.x) + 2 * half,
      height: Math.abs(a.y - b.y) + 2 * half,
    }));
  });
}

type Point = { readonly x: number; readonly y: number };

/** Straight pieces of a path; those aslant are cut small, so that their boxes hug them. */
function segmentsOf(d: string): readonly (readonly [Point, Point])[] {
  const segments: (readonly [Point, Point])[] = [];
  let at: Point = { x: 0, y: 0 };
  for (const [, command = '', list = ''] of d.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const numbers = list.match(/-?[\d.]+/g)?.map(Number) ?? [];
    const size = 'HhVv'.includes(command) ? 1 : 'Aa'.includes(command) ? 7 : 2;
    for (let index = 0; index + size <= numbers.length; index += size) {
      const to = pointAfter(command, numbers.slice(index, index + size), at);
      if (command !== 'M' && command !== 'm') segments.push(...cut(at, to));
      at = to;
    }
  }
  return segments;
}

function pointAfter(command: string, numbers: readonly number[], { x, y }: Point): Point {
  const relative = command === command.toLowerCase();
  const [dx, dy] = relative ? [x, y] : [0, 0];
  const [a = 0, b = 0] = numbers.slice(-2);
  if (command === 'H' || command === 'h') return { x: a + dx, y };
  if (command === 'V' || command === 'v') return { x, y: a + dy };
  return { x: a + dx, y: b + dy };
}

function cut(a: Point, b: Point): readonly (readonly [Point, Point])[] {
  const pieces = a.x === b.x || a.y === b.y ? 1 : Math.ceil(Math.max(Math.abs(a.x - b.x), Math.abs(a.y - b.y)) / 4);
  const at = (share: number): Point => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
  return Array.from({ length: pieces }, (_, index) => [at(index / pieces), at((index + 1) / pieces)] as const);
}
