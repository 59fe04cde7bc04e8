import assert from 'node:assert/strict';
import { definition } from '../../server/src/features/definition.ts';
import { documentHighlights } from '../../server/src/features/document-highlight.ts';
import { references } from '../../server/src/features/references.ts';
import { prepareRename, rename } from '../../server/src/features/rename.ts';
import { workspaceSymbols } from '../../server/src/features/workspace-symbols.ts';
import { FOLDER } from '../support/check-fixture.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysedAll, atCursor, PARTS, SINGLE } from './analysed.ts';

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
    const all = Object.values(analysedAll({ 'main.pickup': SINGLE }));
    const self = all.find(({ uri }) => uri === analysis.uri);
    assert.ok(self);
    const places = (declaration: boolean) =>
      references(self, offset, { among: all, declaration }).map(({ uri }) => uri.split('/').at(-1));
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

describe('rename', () => {
  it('a lead within its pickup', () => {
    const { analysis, offset } = atCursor(mark(SINGLE, 'hot violet'));
    assert.equal(prepareRename(analysis, offset)?.placeholder, 'violet');
    const renamed = rename(analysis, offset, 'white', []);
    assert.ok(renamed.ok);
    const text = applyEdits(SINGLE, renamed.edits);
    assert.match(text, /finish white[\s\S]*hot white/);
    assert.doesNotMatch(text, /violet/);
  });

  it('a part of the shop in every file that is open or used', () => {
    const { offset } = atCursor(mark(SINGLE, 'wire plain-42'));
    const all = analysedAll({ 'main.pickup': SINGLE });
    const self = all['main.pickup'];
    assert.ok(self);
    const renamed = rename(self, offset, 'heavy-42', Object.values(all));
    assert.ok(renamed.ok);
    assert.equal(renamed.edits.length, 3);
  });

  it('is refused where the name is taken, or is no name', () => {
    const { analysis, offset } = atCursor(mark(SINGLE, 'hot violet'));
    assert.deepEqual(rename(analysis, offset, 'grey', []), {
      ok: false,
      why: 'There is already a lead named grey here.',
    });
    assert.equal(rename(analysis, offset, '7up', []).ok, false);
    assert.equal(rename(analysis, offset, 'two words', []).ok, false);
  });
});

describe('workspace symbols', () => {
  it('finds declared things by the letters of their names', () => {
    const all = Object.values(analysedAll({ 'main.pickup': SINGLE }));
    assert.deepEqual(
      workspaceSymbols(all, 'rdsx').map(({ name, kind }) => [name, kind]),
      [['rod-six', 'bobbin']],
    );
    assert.ok(workspaceSymbols(all, '').some(({ name }) => name === 'wren'));
  });
});
