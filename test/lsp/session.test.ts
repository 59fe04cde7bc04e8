import assert from 'node:assert/strict';
import type { Levels } from '../../server/src/analysis/levels.ts';
import { createSession } from '../../server/src/lsp/session.ts';
import { ALONE, pickupText } from '../support/shop.ts';

const URI = 'file:///bench/example.pickup';

/** A pickup that misses its target of inductance, which only the integrals show; what is said besides stands in `more`. */
const spec = (more = '') =>
  pickupText([{ coreMm: [63, 5.6], heightMm: 7.2, facts: '    packing 0.66\n    turns 5_000' }], {
    hookup: ALONE,
    readings: `${more}  target {\n    inductance 1.6 H\n  }\n`,
  });

function opened(text: string) {
  const session = createSession({
    sources: { disk: undefined, askClient: undefined, arrived: () => undefined },
    failed: (what, error) => assert.fail(`${what}: ${error}`),
    soon: setImmediate,
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

describe('findings as the person at the editor wants them', () => {
  it('are told otherwise as soon as the wish is another', () => {
    let levels: Levels = new Map();
    const session = createSession({
      sources: { disk: undefined, askClient: undefined, arrived: () => undefined, levels: () => levels },
      failed: (what, error) => assert.fail(`${what}: ${error}`),
      soon: setImmediate,
    });
    const text = `${spec()}wire w9 {\n  guage 42 AWG\n}\n`;
    const document = session.documents.open({ textDocument: { uri: URI, languageId: 'pickup', version: 1, text } });
    const said = () => session.analysisOf(document)?.findings.map(({ code, severity }) => `${code} ${severity}`);
    assert.deepEqual(said(), ['syntax/unknown-word error']);
    levels = new Map([['syntax/unknown-word', 'hint']]);
    session.listingChanged();
    assert.deepEqual(said(), ['syntax/unknown-word hint']);
    levels = new Map([['syntax/unknown-word', 'off']]);
    session.listingChanged();
    assert.deepEqual(said(), []);
  });
});

/** Two coils that cancel, and whatever stands before them. */
const cancelling = (name: string, more = '') => `pickup ${name} {
  coil a {
    turns 5_000
    wound clockwise
    polarity north-up
    start red
    finish blue
  }
  coil b {
    turns 5_000
    wound clockwise
    polarity south-up
    start pink
    finish grey
  }
${more}  hookup {
    hot blue
    link red grey
    ground pink
  }
}
`;

describe('a file analysed in steps', () => {
  const codes = (found: { readonly findings: readonly { readonly code: string }[] } | undefined) =>
    found?.findings.map(({ code }) => code);
  const now = () => true;

  it('is done after many, between which another file is answered, and has then what it has at once', () => {
    const long = Array.from({ length: 20 }, (_, index) => cancelling(`p${index}`)).join('');
    const { session, document } = opened(long);
    const other = session.documents.open({
      textDocument: { uri: 'file:///bench/other.pickup', languageId: 'pickup', version: 1, text: cancelling('small') },
    });
    let steps = 0;
    while (!session.goOn(URI, now).isDone) {
      steps += 1;
      assert.deepEqual(codes(session.analysisOf(other)), ['phase/coils-cancel']);
    }
    assert.ok(steps > 40, `${steps} steps`);
    const stepwise = session.analysisOf(document)?.findings;
    assert.deepEqual(
      stepwise?.map(({ message, place }) => [message, place.span]),
      opened(long)
        .session.analysisOf(document)
        ?.findings.map(({ message, place }) => [message, place.span]),
    );
    assert.equal(stepwise?.length, 20);
  });

  it('tells the text first, with what stood there before until it is solved again', () => {
    const { session, document, open } = opened(cancelling('p'));
    const line = (found: Pick<NonNullable<ReturnType<typeof session.analysisOf>>, 'findings' | 'locate'>) =>
      found.findings.map((each) => {
        const at = found.locate(each.place);
        return `${each.code} ${at && text.slice(0, at.start).split('\n').length}`;
      });
    let text = document.getText();
    const first = session.analysisOf(document);
    assert.ok(first);
    const [before] = line(first);
    const at = Number(before?.split(' ')[1]);

    text = cancelling('p', '  baseplate nonsuch\n');
    open(2, text);
    const told = session.goOn(URI, () => false, true);
    assert.equal(told.isDone, false);
    assert.ok(told.early);
    const early = line(told.early);
    assert.ok(early.includes(`phase/coils-cancel ${at + 1}`), `${early}`);
    assert.equal(early.length, 2);
    assert.equal(session.goOn(URI, () => false, true).isDone, true);

    // Once the leads are swapped, what stood there before goes with the solving.
    text = cancelling('p').replace('link red grey', 'link red pink').replace('ground pink', 'ground grey');
    open(3, text);
    const swapped = session.goOn(URI, () => false, true);
    assert.ok(swapped.early && codes(swapped.early)?.includes('phase/coils-cancel'));
    const solved = session.analysisOf(document);
    assert.deepEqual(codes(solved)?.includes('phase/coils-cancel'), false);
  });

  it('tells nothing early where nothing is to be solved', () => {
    const { session, open } = opened('wire w {\n  gauge 42\n}\n');
    assert.deepEqual(
      session.goOn(URI, () => false, true),
      { isDone: true },
    );
    open(2, 'wire w {\n  gauge 42 AWG\n}\n');
    assert.deepEqual(
      session.goOn(URI, () => false, true),
      { isDone: true },
    );
  });

  it('tells the beginning of a long text before the rest of it is read', () => {
    const long = Array.from({ length: 60 }, (_, index) => cancelling(`p${index}`, '  baseplate nonsuch\n')).join('');
    const { session, document } = opened(long);
    const beginning = session.goOn(URI, () => false, true).early;
    const whole = session.goOn(URI, () => false, true).early;
    const told = beginning?.findings.length ?? 0;
    assert.ok(told > 2 && told < 12, `${told}`);
    assert.equal(whole?.findings.length, 60);
    assert.deepEqual(
      beginning?.findings.map(({ message, place }) => [message, place]),
      whole.findings.slice(0, told).map(({ message, place }) => [message, place]),
    );
    assert.equal(session.analysisOf(document)?.findings.length, 120);
  });

  it('is begun anew where a file has changed meanwhile', async () => {
    const { session, open } = opened(cancelling('p') + cancelling('q'));
    assert.equal(session.goOn(URI, now).isDone, false);
    const edited = open(2, cancelling('only'));
    const found = await session.whenAnalysed(edited.uri);
    assert.deepEqual(
      found?.analysis.pickups.map(({ pickup }) => pickup.name),
      ['only'],
    );
  });
});

describe('an edit of one of several open files', () => {
  it('touches what rests on that file, what is under way, and nothing else', () => {
    const never = () => new Promise<never>(() => undefined);
    const session = createSession({
      sources: { disk: undefined, askClient: { text: never, bytes: never, specs: never }, arrived: () => undefined },
      failed: (what, error) => assert.fail(`${what}: ${error}`),
      soon: setImmediate,
    });
    const open = (name: string, text: string) =>
      session.documents.open({
        textDocument: { uri: `file:///bench/${name}.pickup`, languageId: 'pickup', version: 1, text },
      });
    const touchedBy = (name: string) =>
      session.changed([`file:///bench/${name}.pickup`]).map(({ uri }) => uri.replace(/.*\/|\.pickup/g, ''));
    open('parts', 'wire w {\n  gauge 42 AWG\n}\n');
    const users = ['first', 'second'].map((name) => open(name, `use "parts.pickup"\nuse "later.pickup"\n`));
    const alone = open('alone', 'wire v {\n  gauge 43 AWG\n}\n');
    const analyse = () => {
      for (const document of [...users, alone]) session.analysisOf(document);
    };
    analyse();
    assert.deepEqual(touchedBy('first'), ['first']);
    assert.deepEqual(touchedBy('first'), [], 'nothing is known of it any more');
    analyse();
    assert.deepEqual(touchedBy('parts').toSorted(), ['first', 'second']);
    analyse();
    assert.deepEqual(touchedBy('later').toSorted(), ['first', 'second'], 'a file that is still to be read');
    session.analysisOf(alone);
    assert.deepEqual(touchedBy('parts'), []);
    session.goOn('file:///bench/first.pickup', () => true);
    assert.deepEqual(touchedBy('alone').toSorted(), ['alone', 'first'], 'what is under way');
  });
});
