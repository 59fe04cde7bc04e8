import type { Disposable } from 'vscode';
import type { BaseState } from '../../../../server/src/lsp/protocol.ts';
import type { BaseChoice } from '../bench-view/messages.ts';
import { addTexts, onDidCommit, readBase } from './base-text.ts';

/** The state that a view is compared with: how it is found, and its text once that has been read. */
export interface ComparedBase extends Disposable {
  choice(): BaseChoice | undefined;
  state(): BaseState | undefined;
  /** Takes another one, or none. Answers why it cannot be had, in one line. */
  choose(choice: BaseChoice | undefined, uri: string): Promise<string | undefined>;
  /** Reads the text anew: after a reload, or when asked to. */
  read(uri: string): Promise<void>;
  /** The view has gone on to another file: the revision stays, another file does not. */
  followed(uri: string): Promise<void>;
  /** Files that the base uses: their texts of then belong to it. */
  uses(uris: readonly string[]): void;
}

/** `changed` is called when more of the base has come than was known when it was last asked for. */
export function createComparedBase(start: BaseChoice | undefined, changed: () => void): ComparedBase {
  let choice = start;
  let state: BaseState | undefined;
  let asked = new Set<string>();
  let reads = 0;
  let watching: Disposable | undefined;

  const read = async (uri: string): Promise<string | undefined> => {
    reads += 1;
    const mine = reads;
    if (choice === undefined) {
      watching?.dispose();
      state = undefined;
      return undefined;
    }
    const base = await readBase(choice, uri);
    if (mine !== reads) return undefined;
    asked = new Set();
    state = base.ok ? base.state : undefined;
    await watch(uri, mine);
    return base.ok ? undefined : base.why;
  };
  /** A commit moves what a revision such as HEAD stands for. */
  const watch = async (uri: string, mine: number): Promise<void> => {
    watching?.dispose();
    watching = undefined;
    if (choice?.kind !== 'revision') return;
    const started = await onDidCommit(uri, () => void read(uri).then(changed));
    if (mine === reads) watching = started;
    else started?.dispose();
  };
  return {
    choice: () => choice,
    state: () => state,
    choose: async (next, uri) => {
      choice = next;
      const why = await read(uri);
      if (why !== undefined) choice = undefined;
      return why;
    },
    read: async (uri) => void (await read(uri)),
    followed: async (uri) => {
      if (choice?.kind === 'file') choice = undefined;
      await read(uri);
    },
    uses: (uris) => {
      const fresh = uris.filter((uri) => !asked.has(uri));
      if (choice?.kind !== 'revision' || state === undefined || fresh.length === 0) return;
      for (const uri of fresh) asked.add(uri);
      const mine = reads;
      const before = state;
      void addTexts(before, choice.revision, fresh).then((more) => {
        if (mine !== reads || more.texts.length === before.texts.length) return;
        state = more;
        changed();
      });
    },
    dispose: () => {
      reads += 1;
      watching?.dispose();
    },
  };
}
