import assert from 'node:assert/strict';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { offsetFrom, spanFrom } from '../../server/src/lsp/from-protocol.ts';
import { toRange, toSnippetEdit, toTextEdit, withNewFiles } from '../../server/src/lsp/to-protocol.ts';

const documentOf = (text: string): TextDocument => TextDocument.create('file:///x.pickup', 'pickup', 1, text);

describe('positions', () => {
  for (const [name, text] of [
    ['LF', 'a 4.7 kΩ\n"😀 é" b\nlast'],
    ['CRLF', 'a 4.7 kΩ\r\n"😀 é" b\r\nlast'],
    ['CR alone', 'a 4.7 kΩ\r"😀 é" b\rlast'],
    ['lone surrogates', 'a \uD83D b\n\uDE00 c'],
  ] as const) {
    it(`every offset of a line goes to the protocol and back: ${name}`, () => {
      const document = documentOf(text);
      for (let offset = 0; offset <= text.length; offset += 1) {
        const isInsideLineEnd = text[offset - 1] === '\r' && text[offset] === '\n';
        if (!isInsideLineEnd) assert.equal(offsetFrom(document, document.positionAt(offset)), offset);
      }
    });
  }

  it('columns count UTF-16 units, as the protocol has it', () => {
    const text = '"😀" b';
    assert.deepEqual(toRange(documentOf(text), { start: text.indexOf('b'), end: text.length }), {
      start: { line: 0, character: 5 },
      end: { line: 0, character: 6 },
    });
  });

  it('positions outside the text are moved into it', () => {
    const document = documentOf('one\ntwo');
    assert.equal(offsetFrom(document, { line: 1e9, character: 1e9 }), 7);
    assert.equal(offsetFrom(document, { line: 0, character: 1e9 }), 3);
    assert.equal(offsetFrom(document, { line: -1, character: -1 }), 0);
    assert.equal(offsetFrom(document, { line: Number.NaN, character: Number.POSITIVE_INFINITY }), 3);
  });

  it('positions that are none count as the start', () => {
    const document = documentOf('one\ntwo');
    for (const nothing of [undefined, null, {}, { line: 'x', character: null }]) {
      assert.equal(offsetFrom(document, nothing), 0);
    }
    assert.deepEqual(spanFrom(document, null), { start: 0, end: 0 });
  });

  it('a reversed range is put right', () => {
    const document = documentOf('one\ntwo');
    const reversed = { start: { line: 1, character: 1 }, end: { line: 0, character: 1 } };
    assert.deepEqual(spanFrom(document, reversed), { start: 1, end: 5 });
  });

  it("a new line takes the text's own line end", () => {
    const edit = { span: { start: 0, end: 0 }, newText: 'a\nb' };
    assert.equal(toTextEdit(documentOf('x\r\ny'), edit).newText, 'a\r\nb');
    assert.equal(toTextEdit(documentOf('x\ny'), edit).newText, 'a\nb');
  });

  it('a change with gaps leads through them, line ends as in the text; one without is none', () => {
    const document = documentOf('x\r\ny');
    const { uri } = document;
    const edit = { at: { uri, start: 3, end: 3 }, newText: 'a …\n' };
    assert.equal(
      toSnippetEdit(() => document, [edit]),
      undefined,
    );
    const at = { line: 1, character: 0 };
    assert.deepEqual(
      toSnippetEdit(() => document, [{ ...edit, snippet: 'a $1\n' }]),
      {
        documentChanges: [
          {
            textDocument: { uri, version: null },
            edits: [{ range: { start: at, end: at }, snippet: { kind: 'snippet', value: 'a $1\r\n' } }],
          },
        ],
      },
    );
  });

  it('a change with a new file makes the file first, and fails where it is there already', () => {
    const start = { line: 0, character: 0 };
    const edit = { range: { start, end: start }, newText: 'use "parts.pickup"\n' };
    const made = 'file:///parts.pickup';
    const files = new Map([[made, 'wire a {\n}\n']]);
    assert.deepEqual(withNewFiles({ changes: { 'file:///x.pickup': [edit] } }, files), {
      documentChanges: [
        { kind: 'create', uri: made, options: { overwrite: false, ignoreIfExists: false } },
        { textDocument: { uri: made, version: null }, edits: [{ range: edit.range, newText: 'wire a {\n}\n' }] },
        { textDocument: { uri: 'file:///x.pickup', version: null }, edits: [edit] },
      ],
    });
  });
});
