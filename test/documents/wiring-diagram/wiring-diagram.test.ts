import assert from 'node:assert/strict';
import { type Box, overlap } from '../../../server/src/documents/labels.ts';
import type { PickupPicture } from '../../../server/src/documents/wiring-diagram/picture.ts';
import { drawPickup } from '../../../server/src/documents/wiring-diagram/wiring-diagram.ts';
import { elementsOf, readSvg, textsOf } from '../svg-reading.ts';
import { coilOf, GROUND, HOT, PICTURES, pictureOf } from './pictures.ts';

describe('the wiring diagram', () => {
  for (const picture of PICTURES) {
    for (const size of ['wide', 'narrow'] as const) {
      const drawing = drawPickup(picture, size);
      const root = readSvg(drawing.svg);
      const name = `${picture.id}, ${size}`;

      it(`${name}: says what it shows to those who do not see it`, () => {
        assert.equal(root.attributes.role, 'img');
        const [title, desc] = root.children;
        assert.deepEqual(
          [title?.name, title?.text, desc?.name, desc?.text],
          ['title', picture.name, 'desc', picture.description],
        );
        assert.equal(root.attributes['aria-labelledby'], `${title?.attributes.id} ${desc?.attributes.id}`);
        for (const part of elementsOf(root).filter(({ attributes }) => attributes['data-part'] !== undefined)) {
          assert.equal(part.children[0]?.name, 'title');
          assert.notEqual(part.children[0]?.text, '');
        }
      });

      it(`${name}: every coil and every lead can be pointed at`, () => {
        const parts = new Set(elementsOf(root).map(({ attributes }) => attributes['data-part']));
        for (const coil of picture.coils) {
          assert.ok(parts.has(`coil:${coil.id}`));
          for (const { own, conductor } of [coil.start, coil.finish]) {
            for (const lead of [own, conductor]) if (lead !== undefined) assert.ok(parts.has(lead.part), lead.part);
          }
        }
      });

      it(`${name}: no text lies on another or off the sheet`, () => {
        assert.deepEqual(drawing.overlapping, []);
        const texts = textsOf(root);
        for (const { words, box } of texts) {
          assert.ok(box.x >= 0 && box.x + box.width <= drawing.width, `${words} leaves the sheet`);
          assert.ok(box.y >= 0 && box.y + box.height <= drawing.height, `${words} leaves the sheet`);
        }
        texts.forEach((one, index) => {
          for (const other of texts.slice(index + 1)) {
            assert.ok(!overlap(one.box, other.box), `"${one.words}" lies on "${other.words}"`);
          }
        });
      });

      it(`${name}: no lead runs through a word`, () => {
        for (const { words, box } of textsOf(root)) {
          for (const line of leadLinesOf(root)) assert.ok(!overlap(box, line), `a lead runs through "${words}"`);
        }
      });

      it(`${name}: has one style sheet, no inline style, no script, coordinates to a tenth`, () => {
        const elements = elementsOf(root);
        assert.equal(elements.filter(({ name: tag }) => tag === 'style').length, 1);
        for (const { name: tag, attributes } of elements) {
          assert.ok(tag !== 'script' && tag !== 'foreignObject' && tag !== 'image');
          for (const [attribute, value] of Object.entries(attributes)) {
            assert.doesNotMatch(attribute, /^(style|on|href|xlink)/);
            if (attribute === 'd' || attribute === 'x' || attribute === 'y')
              assert.doesNotMatch(value, /\.\d\d|NaN|e-|undefined/);
          }
        }
      });

      it(`${name}: the same picture gives the same bytes`, () => {
        assert.equal(drawPickup(picture, size).svg, drawing.svg);
      });
    }
  }

  it('turns the path of a reversed coil round and leaves the other as it is', () => {
    const [right, swapped] = [pictureNamed('heron-bridge'), pictureNamed('joints-swapped')];
    assert.deepEqual(turnOfPath(right, 'screw'), turnOfPath(swapped, 'screw'));
    assert.deepEqual(turnOfPath(right, 'slug'), ['left', 'left', 'right', 'right']);
    assert.deepEqual(turnOfPath(swapped, 'slug'), ['right', 'right', 'left', 'left']);
  });

  it('lays a mistake out as its remedy: nothing moves but the crossing', () => {
    const middles = (id: string) => polesOf(pictureNamed(id)).map(({ cx, cy }) => [cx, cy]);
    const [right, swapped] = [middles('heron-bridge'), middles('joints-swapped')];
    const shift = Number(swapped[0]?.[1]) - Number(right[0]?.[1]);
    assert.deepEqual(
      swapped.map(([x, y]) => [x, Number(y) - shift]),
      right.map(([x, y]) => [x, Number(y)]),
    );
  });

  it('rings both joints of a mistake and numbers it once', () => {
    const elements = elementsOf(readSvg(drawPickup(pictureNamed('joints-swapped'), 'wide').svg));
    assert.equal(elements.filter(({ attributes }) => attributes.class === 'ring').length, 2);
    assert.equal(elements.filter(({ attributes }) => attributes.class === 'tagn').length, 1);
  });

  it('draws no direction where none is known', () => {
    const elements = elementsOf(readSvg(drawPickup(pictureNamed('found-in-a-drawer'), 'wide').svg));
    const inCoils = elements
      .filter(({ attributes }) => attributes['data-part']?.startsWith('coil:'))
      .flatMap((coil) => elementsOf(coil));
    assert.equal(inCoils.filter(({ attributes }) => attributes.class === 'flow').length, 0);
  });

  it('shows names as text whatever they hold', () => {
    const evil = '</title><script>alert(1)</script>\u202E&"';
    const coil = coilOf('slug', { start: [evil, undefined, 'ground'], finish: [undefined, evil, 'hot'] });
    const { svg } = drawPickup(pictureOf('x', { title: evil, name: evil, coils: [coil], nets: [HOT, GROUND] }), 'wide');
    const root = readSvg(svg);
    assert.equal(elementsOf(root).filter(({ name }) => name === 'script').length, 0);
    assert.ok(!svg.includes('\u202E'));
  });

  it('survives a pickup without coils, and one with many', () => {
    const many = Array.from({ length: 12 }, (_, index) =>
      coilOf(`c${index}`, {
        start: [undefined, undefined, undefined],
        finish: [undefined, undefined, undefined],
        more: { entered: undefined },
      }),
    );
    for (const coils of [[], many]) {
      for (const size of ['wide', 'narrow'] as const)
        readSvg(drawPickup(pictureOf('odd', { coils, nets: [HOT, GROUND] }), size).svg);
    }
  });
});

/** The straights of leads and live lines as boxes of their width. */
function leadLinesOf(root: ReturnType<typeof readSvg>): readonly Box[] {
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

function pictureNamed(id: string): PickupPicture {
  const picture = PICTURES.find((each) => each.id === id);
  assert.ok(picture);
  return picture;
}

/** The arrowheads on a coil, top straight first, by the side their tip points to. */
function turnOfPath(picture: PickupPicture, coil: string): readonly string[] {
  const parts = elementsOf(readSvg(drawPickup(picture, 'wide').svg)).filter(
    ({ attributes }) => attributes['data-part'] === `coil:${coil}`,
  );
  return parts
    .flatMap((part) => part.children)
    .filter(({ attributes }) => attributes.class === 'flow')
    .map(({ attributes }) => {
      const [x1 = 0, y1 = 0, tip = 0] = (attributes.d ?? '').match(/-?[\d.]+/g)?.map(Number) ?? [];
      return { y: y1, way: tip > x1 ? 'right' : 'left' };
    })
    .sort((a, b) => a.y - b.y)
    .map(({ way }) => way);
}

function polesOf(picture: PickupPicture): readonly Readonly<Record<string, string>>[] {
  return elementsOf(readSvg(drawPickup(picture, 'wide').svg))
    .filter(({ name, attributes }) => name === 'circle' && attributes.class === 'open' && attributes.r === '9.5')
    .map(({ attributes }) => attributes);
}
