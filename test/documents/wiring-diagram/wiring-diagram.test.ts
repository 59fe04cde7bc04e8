import assert from 'node:assert/strict';
import type { PickupPicture } from '../../../server/src/documents/wiring-diagram/picture.ts';
import { drawPickup } from '../../../server/src/documents/wiring-diagram/wiring-diagram.ts';
import { elementsOf, readSvg } from '../svg-reading.ts';
import { assertLegible } from './legible.ts';
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

      it(`${name}: can be read, no text on another, on a lead or off the sheet`, () => {
        assertLegible(drawing);
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
