import assert from 'node:assert/strict';
import { type Box, overlap } from '../../../server/src/documents/labels.ts';
import type { WiringDiagram } from '../../../server/src/documents/wiring-diagram/wiring-diagram.ts';
import { elementsOf, type ReadElement, readSvg, textsOf } from '../svg-reading.ts';

/** No text lies on another, on a lead or off the sheet, measured on the finished drawing. */
export function assertLegible({ svg, width, height, overlapping }: WiringDiagram): void {
  assert.deepEqual(
    overlapping.map(({ runs }) => runs.map(({ text }) => text).join('')),
    [],
  );
  const root = readSvg(svg);
  const texts = textsOf(root);
  const leads = leadLinesOf(root);
  texts.forEach(({ words, box }, index) => {
    assert.ok(box.x >= 0 && box.x + box.width <= width, `"${words}" leaves the sheet`);
    assert.ok(box.y >= 0 && box.y + box.height <= height, `"${words}" leaves the sheet`);
    for (const other of texts.slice(index + 1))
      assert.ok(!overlap(box, other.box), `"${words}" lies on "${other.words}"`);
    for (const line of leads) assert.ok(!overlap(box, line), `a lead runs through "${words}"`);
  });
}

/** The straights of leads and live lines as boxes of their width. */
function leadLinesOf(root: ReadElement): readonly Box[] {
  const boxes: Box[] = [];
  for (const { attributes } of elementsOf(root)) {
    const half = attributes.class === 'edge' ? 3.25 : attributes.class === 'w3' ? 1.25 : undefined;
    if (half === undefined) continue;
    let at = { x: 0, y: 0 };
    for (const [, command = '', list = ''] of (attributes.d ?? '').matchAll(/([A-Z])([^A-Z]*)/g)) {
      const numbers = list.match(/-?[\d.]+/g)?.map(Number) ?? [];
      const [x = at.x, y = at.y] =
        command === 'H' ? [numbers[0], at.y] : command === 'V' ? [at.x, numbers[0]] : numbers.slice(-2);
      if (command === 'H' || command === 'V') {
        boxes.push({
          x: Math.min(at.x, x) - (command === 'V' ? half : 0),
          y: Math.min(at.y, y) - (command === 'H' ? half : 0),
          width: Math.abs(x - at.x) + (command === 'V' ? 2 * half : 0),
          height: Math.abs(y - at.y) + (command === 'H' ? 2 * half : 0),
        });
      }
      at = { x, y };
    }
  }
  return boxes;
}
