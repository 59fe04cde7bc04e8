import assert from 'node:assert/strict';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { createPush } from '../../server/src/lsp/diagnostics-push.ts';

/** A loop of turns like the one of the process: callbacks and waiting messages take their turns one by one. */
function harness(
  isReady: () => boolean = () => true,
  inSight: readonly TextDocument[] = [],
  all: readonly TextDocument[] = [],
) {
  const turns: (() => void)[] = [];
  const sent: string[] = [];
  let asked = 0;
  const push = createPush({
    soon: (callback) => turns.push(callback),
    rested: () => sent.push('all is sent'),
    all: () => all,
    othersAffected: () => sent.push('others are affected'),
    inSight: () => inSight,
    diagnose: () => {
      asked += 1;
      return { found: isReady() ? [] : undefined, isDone: true };
    },
    send: ({ uri, version }) => {
      sent.push(`${uri} ${version}`);
      return undefined;
    },
  });
  const run = (messages: (() => void)[] = []): void => {
    const next = (): void => {
      const message = messages.shift();
      if (message === undefined) return;
      message();
      turns.push(next);
    };
    next();
    for (let turn = turns.shift(); turn; turn = turns.shift()) turn();
  };
  return { push, run, sent, asked: () => asked };
}

const documentOf = (uri: string): TextDocument => TextDocument.create(uri, 'pickup', 1, 'x');
const edit = (document: TextDocument): void => {
  TextDocument.update(document, [{ text: 'y' }], document.version + 1);
};

describe('sending findings', () => {
  it('one change is answered with its version', () => {
    const { push, run, sent } = harness();
    const document = documentOf('a');
    run([() => push.edited(document)]);
    assert.deepEqual(sent, ['a 1', 'all is sent']);
  });

  it('a burst is analysed once, as of its last change', () => {
    const { push, run, sent, asked } = harness();
    const document = documentOf('a');
    const change = (): void => {
      edit(document);
      push.edited(document);
    };
    run(Array.from({ length: 20 }, () => change));
    assert.deepEqual(sent, ['a 21', 'all is sent']);
    assert.equal(asked(), 1);
  });

  it('the document that was edited comes before those that depend on it', () => {
    const { push, run, sent } = harness();
    const [parts, one, two] = ['parts', 'one', 'two'].map(documentOf);
    assert.ok(parts && one && two);
    run([
      () => {
        push.affected([one, two]);
        push.edited(parts);
      },
    ]);
    assert.deepEqual(sent, ['parts 1', 'one 1', 'two 1', 'all is sent']);
  });

  it('of those that depend on it the ones in sight come first', () => {
    const [parts, one, two, three] = ['parts', 'one', 'two', 'three'].map(documentOf);
    assert.ok(parts && one && two && three);
    const { push, run, sent } = harness(undefined, [parts, three]);
    run([
      () => {
        push.edited(parts);
        push.affected([one, two, three, parts]);
      },
    ]);
    assert.deepEqual(sent, ['parts 1', 'three 1', 'one 1', 'two 1', 'all is sent']);
  });

  it('nothing is sent for a document that was closed meanwhile', () => {
    const { push, run, sent } = harness();
    const document = documentOf('a');
    run([() => push.edited(document), () => push.dropped(document)]);
    assert.deepEqual(sent, []);
  });

  it('where each of many that are opened affects all, all are looked at once, the last opened first', () => {
    const documents = ['a', 'b', 'c', 'd'].map(documentOf);
    const [before, ...opened] = documents;
    const { push, run, sent } = harness(undefined, [], documents);
    assert.ok(before);
    run(
      opened.map((document) => () => {
        push.edited(document);
        push.allAffected();
      }),
    );
    assert.deepEqual(sent, ['others are affected', 'd 1', 'c 1', 'b 1', 'a 1', 'all is sent']);
  });

  it('long work is done in turns, between which messages and other documents come', () => {
    const sent: string[] = [];
    const turns: (() => void)[] = [];
    const left = new Map([
      ['long', 5],
      ['short', 1],
    ]);
    const push = createPush({
      soon: (callback) => turns.push(callback),
      rested: () => sent.push('all is sent'),
      all: () => [],
      othersAffected: () => assert.fail('nobody said so'),
      inSight: () => [],
      diagnose: ({ uri }, wantsEarly) => {
        const more = (left.get(uri) ?? 0) - 1;
        left.set(uri, more);
        const tellsEarly = wantsEarly && more === 3;
        return { found: tellsEarly || more <= 0 ? [] : undefined, isDone: more <= 0 };
      },
      send: ({ uri }, _, isDone) => {
        sent.push(`${uri} ${isDone ? 'done' : 'early'}`);
        return undefined;
      },
    });
    const run = (most: number): void => {
      for (let done = 0; done < most && turns.length > 0; done += 1) turns.shift()?.();
    };
    push.edited(documentOf('long'));
    run(4);
    assert.deepEqual(sent, ['long early']);
    push.edited(documentOf('short'));
    run(Number.POSITIVE_INFINITY);
    assert.deepEqual(sent, ['long early', 'short done', 'long done', 'all is sent']);
  });

  it('what was told is out before the work goes on, unless something is typed', async () => {
    const work: string[] = [];
    let isOut = (): void => undefined;
    const turns: (() => void)[] = [];
    const push = createPush({
      soon: (callback) => turns.push(callback),
      rested: () => undefined,
      all: () => [],
      othersAffected: () => assert.fail('nobody said so'),
      inSight: () => [],
      diagnose: ({ version }) => {
        work.push(`work on ${version}`);
        return { found: [], isDone: false };
      },
      send: () =>
        new Promise<void>((resolve) => {
          isOut = resolve;
        }),
    });
    const run = async (): Promise<void> => {
      for (let turn = turns.shift(); turn; turn = turns.shift()) turn();
      await new Promise(setImmediate);
    };
    const document = documentOf('a');
    push.edited(document);
    await run();
    await run();
    assert.deepEqual(work, ['work on 1']);
    isOut();
    await run();
    await run();
    assert.deepEqual(work, ['work on 1', 'work on 1']);
    edit(document);
    push.edited(document);
    await run();
    assert.deepEqual(work.slice(2), ['work on 2']);
  });

  it('nothing is sent where nothing can be said yet', () => {
    const { push, run, sent, asked } = harness(() => false);
    run([() => push.edited(documentOf('a'))]);
    assert.deepEqual(sent, ['all is sent']);
    assert.equal(asked(), 1);
  });
});
