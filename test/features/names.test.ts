import assert from 'node:assert/strict';
import { definition } from '../../server/src/features/definition.ts';
import { documentHighlights } from '../../server/src/features/document-highlight.ts';
import { namedThere } from '../../server/src/features/name-at.ts';
import { references } from '../../server/src/features/references.ts';
import { prepareRename, rename } from '../../server/src/features/rename.ts';
import { fitsQuery } from '../../server/src/features/workspace-symbols.ts';
import { FOLDER } from '../support/check-fixture.ts';
import { PARTS, SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { atCursor, mentionsOfAll } from './analysed.ts';

const mark = (text: string, at: string, after = at.length): string => {
  const start = text.indexOf(at);
  assert.notEqual(start, -1, at);
  return `${text.slice(0, start + after)}‸${text.slice(start + after)}`;
};

describe('definition', () => {
  it('leads from a name to its declaration, in whatever file', () => {
    const { analysis, offset } = atCursor(mark(SINGLE, 'bobbin rod-six'));
    const found = definition(analysis, offset);
    assert.equal(found?.to.uri, `${FOLDER}parts.pickup`);
    assert.equal(PARTS.slice(found.to.start, found.to.end), 'rod-six');
    assert.equal(SINGLE.slice(found.from.start, found.from.end), 'rod-six');
  });

  it('leads from a lead in the hookup to the end that brings it out', () => {
    const { analysis, offset } = atCursor(mark(SINGLE, 'hot violet'));
    const found = definition(analysis, offset);
    assert.ok(found);
    assert.match(SINGLE.slice(0, found.to.start).split('\n').at(-1) ?? '', /finish $/);
  });

  it('of a number there is none', () => {
    const { analysis, offset } = atCursor(mark(SINGLE, 'turns 7_700'));
    assert.equal(definition(analysis, offset), undefined);
  });
});

describe('references and highlights', () => {
  it('every mention in every file, with or without the declaration', () => {
    const { analysis, offset } = atCursor(mark(SINGLE, 'wire plain-42'));
    const among = mentionsOfAll({ 'main.pickup': SINGLE });
    const named = namedThere(analysis, offset);
    assert.ok(named);
    const places = (declaration: boolean) =>
      references(named, { among, declaration }).map(({ uri }) => uri.split('/').at(-1));
    assert.deepEqual(places(true).sort(), ['main.pickup', 'parts.pickup', 'parts.pickup']);
    assert.deepEqual(places(false).sort(), ['main.pickup', 'parts.pickup']);
  });

  it('highlights tell the declaration from the mentions', () => {
    const { analysis, offset } = atCursor(mark(SINGLE, 'ground grey'));
    assert.deepEqual(
      documentHighlights(analysis, offset).map(({ span, kind }) => [SINGLE.slice(span.start, span.end), kind]),
      [
        ['grey', 'declares'],
        ['grey', 'names'],
      ],
    );
  });
});

/** Renames what the cursor is on, in all files of the shop. */
function renamed(marked: string, newName: string, files: Readonly<Record<string, string>> = {}) {
  const { analysis, offset, text } = atCursor(marked, files);
  const named = namedThere(analysis, offset);
  assert.ok(named);
  return { analysis, text, offset, result: rename(named, newName, mentionsOfAll({ 'main.pickup': text, ...files })) };
}

describe('rename', () => {
  it('a lead within its pickup', () => {
    const { analysis, offset, result } = renamed(mark(SINGLE, 'hot violet'), 'white');
    assert.equal(prepareRename(analysis, offset)?.placeholder, 'violet');
    assert.ok(result.ok);
    const text = applyEdits(SINGLE, result.edits);
    assert.match(text, /finish white[\s\S]*hot white/);
    assert.doesNotMatch(text, /violet/);
  });

  it('a part of the shop in every file that names it', () => {
    const { result } = renamed(mark(SINGLE, 'wire plain-42'), 'heavy-42');
    assert.ok(result.ok);
    assert.equal(result.edits.length, 3);
  });

  it('a lead or a coil of a pickup where it is like another, and where it is fitted', () => {
    const pair = `pickup heron {
  coil screw {
    turns 5_000
    start pink
    finish turquoise
  }
  coil slug {
    turns 5_000
    start violet
    finish grey
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
pickup egret like heron {
  coil screw {
    turns 6_000
    finish turquoise
  }
}
`;
    const guitar = `use "main.pickup"
switch toggle {
  detent up joins a0 a1
}
instrument i {
  pickup bridge egret
  pickup neck heron
  switch ways toggle
  wiring {
    hot ways.a0
    link bridge.TQ ways.a1
    ground bridge.screw.start
  }
  selector {
    1 bridge.screw parallel reversed neck.screw
  }
}
`;
    const files = { 'guitar.pickup': guitar };
    const lines = (marked: string, newName: string) => {
      const { result } = renamed(marked, newName, files);
      assert.ok(result.ok);
      return ['main.pickup', 'guitar.pickup'].flatMap((name, index) => {
        const before = [pair, guitar][index] ?? '';
        const own = result.edits.filter(({ at }) => at.uri.endsWith(name));
        const after = applyEdits(before, own).split('\n');
        return after.flatMap((line, at) => (line === before.split('\n')[at] ? [] : [line.trim()]));
      });
    };
    const coil = [
      'coil inner {',
      'coil inner {',
      'ground bridge.inner.start',
      '1 bridge.inner parallel reversed neck.inner',
    ];
    assert.deepEqual(lines(mark(pair, 'coil screw'), 'inner'), coil);
    const lead = ['finish gold', 'link grey gold', 'finish gold', 'link bridge.gold ways.a1'];
    assert.deepEqual(lines(mark(pair, 'link grey turquoise'), 'gold'), lead);
    // From the one that is like it, and to a word that the lines take otherwise.
    const second = pair.indexOf('screw {\n    turns 6');
    assert.deepEqual(lines(`${pair.slice(0, second)}‸${pair.slice(second)}`, 'inner'), coil);
    assert.equal(renamed(mark(pair, 'coil screw'), 'slug', files).result.ok, false);
    for (const word of ['ground', 'to'])
      assert.deepEqual(renamed(mark(pair, 'link grey turquoise'), word, files).result, {
        ok: false,
        why: `${word} says something else in the lines that would name it.`,
      });
  });

  it('is refused where the name is taken, or is none', () => {
    const at = mark(SINGLE, 'hot violet');
    assert.deepEqual(renamed(at, 'grey').result, { ok: false, why: 'There is already a lead named grey here.' });
    assert.equal(renamed(at, '7up').result.ok, false);
    assert.equal(renamed(at, 'two words').result.ok, false);
  });

  it('is refused where the name also stands in a line that does not read', () => {
    const other = `use "parts.pickup"\npickup siskin {\n  coil main {\n    bobin 7 rod-six x\n  }\n}\n`;
    const { result } = renamed(mark(SINGLE, 'bobbin rod-six'), 'rod-seven', { 'other.pickup': other });
    assert.ok(!result.ok);
    assert.equal(result.why, 'rod-six also stands in a line that does not read; mend that line first.');
    assert.equal(other.slice(result.at?.start, result.at?.end), 'rod-six');
  });

  it('does not mind the name in a text or a comment', () => {
    const other = `use "parts.pickup"\npickup siskin {\n  # rod-six is thin\n  nonsense "rod-six" here\n}\n`;
    assert.ok(renamed(mark(SINGLE, 'bobbin rod-six'), 'rod-seven', { 'other.pickup': other }).result.ok);
  });
});

describe('workspace symbols', () => {
  it('fit where a name holds the letters typed in their order', () => {
    assert.equal(fitsQuery('rod-six', 'rdSX'), true);
    assert.equal(fitsQuery('rod-six', 'xs'), false);
    assert.equal(fitsQuery('wren', ''), true);
  });
});
