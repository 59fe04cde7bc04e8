import assert from 'node:assert/strict';
import { sentFindings } from '../../server/src/lsp/sent-findings.ts';
import { createSession } from '../../server/src/lsp/session.ts';
import { generatedSpec } from '../benchmarks/generated-spec.ts';

const URI = 'file:///bench/main.pickup';
/** Parts, one of them without a unit, and two pickups, each in an instrument with findings. */
const { text: TEXT, digit: IN_THE_SECOND } = generatedSpec(150);
const SECOND = TEXT.indexOf('\npickup p1 ');
const SHOWN = { linksCodes: true, relatesPlaces: true, tagsFindings: true } as const;

function opened() {
  const session = createSession({
    sources: { disk: undefined, askClient: undefined, arrived: () => undefined },
    failed: (what, error) => assert.fail(`${what}: ${error}`),
    soon: setImmediate,
  });
  const textOf = (uri: string) => session.files.document(uri);
  const document = session.documents.open({
    textDocument: { uri: URI, languageId: 'pickup', version: 1, text: TEXT },
  });
  const analysed = () => session.analysisOf(document) ?? assert.fail('not analysed');
  const edit = (from: number, to: number, text: string): void => {
    const range = { start: document.positionAt(from), end: document.positionAt(to) };
    session.documents.change({ textDocument: { uri: URI, version: 2 }, contentChanges: [{ range, text }] });
    session.changed([URI]);
  };
  return { document, analysed, edit, anew: () => sentFindings({ ...SHOWN, textOf }) };
}

describe('findings as they are sent', () => {
  it('are the same objects while they stand where they stood', () => {
    const { document, analysed, edit, anew } = opened();
    const asSent = anew();
    const before = asSent(document, analysed());
    edit(IN_THE_SECOND, IN_THE_SECOND, '1');
    const after = asSent(document, analysed());
    const isTheSame = after.map((each) => before.includes(each));
    // The first is found in the text of a part, the next three in the first instrument; in the second was typed.
    assert.deepEqual(isTheSame.slice(0, 4), [true, true, true, true]);
    assert.ok(after.length > 4 && !isTheSame.slice(4).includes(true));
  });

  it('are the same objects behind a sign that was typed in a line above', () => {
    const { document, analysed, edit, anew } = opened();
    const asSent = anew();
    const before = asSent(document, analysed());
    const inTheFirst = TEXT.indexOf('turns 4_9') + 'turns 4_9'.length;
    edit(inTheFirst, inTheFirst, '1');
    const after = asSent(document, analysed());
    const behind = after.filter(({ range }) => range.start.line > document.positionAt(SECOND).line);
    assert.ok(behind.length > 0 && behind.every((each) => before.includes(each)));
  });

  for (const [what, from, to, text] of [
    ['a line above', 0, 0, '\n'],
    ['a line between them', SECOND, SECOND, '\n# the second\n'],
    ['a line end less in the same length', SECOND - 2, SECOND + 1, '}  '],
    ['nothing that matters', TEXT.length, TEXT.length, '\n'],
  ] as const)
    it(`tell of the places of now after ${what}`, () => {
      const { document, analysed, edit, anew } = opened();
      const asSent = anew();
      asSent(document, analysed());
      edit(from, to, text);
      assert.deepEqual(asSent(document, analysed()), anew()(document, analysed()));
    });
});
