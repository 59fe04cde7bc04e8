import assert from 'node:assert/strict';
import { createSession } from '../../server/src/lsp/session.ts';
import { pickupText, SINGLE } from '../estimates/spec-text.ts';

const URI = 'file:///bench/example.pickup';

/** A pickup that misses its target of inductance, which only the integrals show; what is said besides stands in `more`. */
const spec = (more = '') =>
  pickupText([{ coreMm: [63, 5.6], heightMm: 7.2, facts: '    packing 0.66\n    turns 5_000' }], {
    hookup: SINGLE,
    readings: `${more}  target {\n    inductance 1.6 H\n  }\n`,
  });

function opened(text: string) {
  const session = createSession({
    sources: { disk: undefined, askClient: undefined, arrived: () => undefined },
    failed: (what, error) => assert.fail(`${what}: ${error}`),
  });
  const open = (version: number, content: string) => {
    const document = session.documents.open({
      textDocument: { uri: URI, languageId: 'pickup', version, text: content },
    });
    session.changed([URI]);
    return document;
  };
  const document = open(1, text);
  return { session, document, open };
}

describe('findings of an open file that need inductances', () => {
  it('do not hold up the first findings of a file of pickups alone', () => {
    const { session, document } = opened(spec());
    const codes = () => session.analysisOf(document)?.findings.map(({ code }) => code);
    assert.deepEqual(codes(), []);
    assert.equal(session.complete(document), true);
    assert.deepEqual(codes(), ['target/missed']);
    assert.equal(session.complete(document), false);
  });

  it('stay through an edit of another piece of the text', () => {
    const { session, document, open } = opened(spec());
    session.complete(document);
    const edited = open(2, `${spec()}wire w9 {\n  diameter 0.05 mm\n}\n`);
    assert.deepEqual(
      session.analysisOf(edited)?.findings.map(({ code }) => code),
      ['target/missed'],
    );
  });

  it('that are accepted leave no acceptance over while they are not worked out', () => {
    const { session, document } = opened(spec('  accept target/missed "as the customer likes it"\n'));
    const said = () => session.analysisOf(document)?.findings.map(({ code, severity }) => `${code} ${severity}`);
    assert.deepEqual(said(), []);
    session.complete(document);
    assert.deepEqual(said(), ['target/missed information']);
  });

  it('are waited for where an acceptance covers nothing', () => {
    const { session, document } = opened(spec('  accept target/missed\n').replace('1.6 H', '0.95 H'));
    const codes = () => session.analysisOf(document)?.findings.map(({ code }) => code);
    assert.deepEqual(codes(), []);
    session.complete(document);
    assert.deepEqual(codes(), ['accept/unused']);
  });
});
