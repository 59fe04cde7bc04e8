import assert from 'node:assert/strict';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { createLateFindings } from '../../server/src/lsp/late-findings.ts';
import { analysed } from '../features/analysed.ts';

/** Rest and turns by hand. */
function harness(instruments: number, steps = 0) {
  const turns: (() => void)[] = [];
  const worked: string[] = [];
  let rested: (() => void) | undefined;
  const analysis = {
    ...analysed(''),
    instruments: Array.from({ length: instruments }, (_, index) => ({
      *preparingLate() {
        for (let step = 1; step <= steps; step += 1) {
          worked.push(`step ${step}`);
          yield;
        }
      },
      lateFindings: () => {
        worked.push(`instrument ${index + 1}`);
        return [];
      },
    })),
  } as unknown as ReturnType<typeof analysed>;
  const late = createLateFindings({
    analysisOf: () => analysis,
    ready: ({ uri }) => worked.push(`${uri} ready`),
    afterRest: (callback) => {
      rested = callback;
      return () => {
        if (rested === callback) rested = undefined;
      };
    },
    soon: (callback) => turns.push(callback),
    slice: () => () => true,
  });
  return {
    late,
    worked,
    rest: () => {
      const callback = rested;
      rested = undefined;
      callback?.();
    },
    turn: () => turns.shift()?.(),
    isResting: () => rested !== undefined,
  };
}

const documentOf = (uri: string): TextDocument => TextDocument.create(uri, 'pickup', 1, '');

describe('findings that need heavy numbers', () => {
  it('wait for a rest, and take one instrument a turn', () => {
    const { late, worked, rest, turn } = harness(2);
    late.wanted(documentOf('a'));
    assert.deepEqual(worked, []);
    rest();
    assert.deepEqual(worked, ['instrument 1']);
    turn();
    turn();
    assert.deepEqual(worked, ['instrument 1', 'instrument 2', 'a ready']);
  });

  it('take what an instrument searches in turns of its own, and typing ends that', () => {
    const { late, worked, rest, turn } = harness(1, 2);
    late.wanted(documentOf('a'));
    rest();
    assert.deepEqual(worked, ['step 1']);
    turn();
    turn();
    assert.deepEqual(worked, ['step 1', 'step 2', 'instrument 1']);
    turn();
    late.wanted(documentOf('b'));
    rest();
    late.interrupted();
    turn();
    assert.deepEqual(worked.slice(3), ['a ready', 'step 1']);
  });

  it('typing stops them until the next rest', () => {
    const { late, worked, rest, turn, isResting } = harness(3);
    late.wanted(documentOf('a'));
    rest();
    late.interrupted();
    turn();
    assert.deepEqual(worked, ['instrument 1']);
    assert.ok(isResting());
  });

  it('a document that is closed is left alone', () => {
    const { late, worked, rest } = harness(1);
    const document = documentOf('a');
    late.wanted(document);
    late.dropped(document);
    rest();
    assert.deepEqual(worked, []);
  });
});
