import type { Diagnostic } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';

export interface Push {
  /** This document has a new text. */
  edited(document: TextDocument): void;
  /** The documents have the text they had, but something that they use may have changed. */
  affected(documents: Iterable<TextDocument>): void;
  /** The same of all that are open once the burst is over in which this is said, a thousand times perhaps. */
  allAffected(): void;
  /** Closed: nothing is to be sent for it any more. */
  dropped(document: TextDocument): void;
}

export interface PushTarget {
  /** Works a while on a document as it is now. `wantsEarly`: it was typed in, and what can be told early is to be sent. */
  readonly diagnose: (document: TextDocument, wantsEarly: boolean) => Diagnosed;
  /** What it returns is settled once that is out; nothing where nobody has to wait for it. */
  readonly send: (document: TextDocument, found: Diagnostic[], isDone: boolean) => Promise<void> | undefined;
  /** All documents that are open, and that some of them have been affected where all were. */
  readonly all: () => Iterable<TextDocument>;
  readonly othersAffected: () => void;
  /** Documents that somebody looks at, as far as that is known. */
  readonly inSight: () => readonly TextDocument[];
  /** Runs the callback in a turn of its own, soon. */
  readonly soon: (callback: () => void) => void;
  /** Everything has been sent. */
  readonly rested: () => void;
}

export interface Diagnosed {
  /** What to send now; `undefined` where nothing can be said yet. */
  readonly found: Diagnostic[] | undefined;
  /** False where there is more to work on. */
  readonly isDone: boolean;
}

/**
 * Sends findings after each change, always those of the text as it is then, with its version. Changes that come in one burst are answered
 * once: before it works, and between its turns of work, it lets every message through that is already waiting. What it has told is out
 * before it works on: of a long message, a part waits here until it is read at the other end. One document is worked off at a time, the
 * one edited last first, so that typing never waits for the files that depend on it; of those the ones in sight first.
 */
export function createPush({ diagnose, send, all, othersAffected, inSight, soon, rested }: PushTarget): Push {
  /** Edited or begun, what comes next at the end. */
  const first: TextDocument[] = [];
  const isFirst = new Set<TextDocument>();
  const behind = new Set<TextDocument>();
  const typedIn = new Set<TextDocument>();
  let areAllBehind = false;
  let changes = 0;
  let isScheduled = false;

  const drop = (document: TextDocument): void => {
    if (isFirst.delete(document)) first.splice(first.lastIndexOf(document), 1);
    behind.delete(document);
  };
  const goesFirst = (document: TextDocument): void => {
    isFirst.add(document);
    first.push(document);
  };
  const goBehind = (documents: Iterable<TextDocument>): void => {
    for (const document of documents) if (!isFirst.has(document)) behind.add(document);
  };
  const next = (): TextDocument | undefined => {
    const [oldest] = behind;
    return first.at(-1) ?? inSight().find((each) => behind.has(each)) ?? oldest;
  };
  const schedule = (): void => {
    if (isScheduled || (first.length + behind.size === 0 && !areAllBehind)) return;
    isScheduled = true;
    const seen = changes;
    const look = (): void => {
      isScheduled = false;
      const sending = changes === seen ? workOffOne() : undefined;
      if (sending) sending.then(schedule, schedule);
      else schedule();
    };
    // Messages that wait take their turns one by one: the first hop comes before the next of them, the second behind it.
    soon(() => soon(look));
  };
  const workOffOne = (): Promise<void> | undefined => {
    if (areAllBehind) {
      areAllBehind = false;
      goBehind(all());
      if (behind.size > 0) othersAffected();
    }
    const document = next();
    if (document === undefined) return undefined;
    drop(document);
    const { found, isDone } = diagnose(document, typedIn.has(document));
    if (isDone) typedIn.delete(document);
    else goesFirst(document);
    const sending = found && send(document, found, isDone);
    if (first.length + behind.size === 0) rested();
    return sending;
  };
  return {
    edited: (document) => {
      changes += 1;
      drop(document);
      typedIn.add(document);
      goesFirst(document);
      schedule();
    },
    affected: (documents) => {
      goBehind(documents);
      schedule();
    },
    allAffected: () => {
      areAllBehind = true;
      schedule();
    },
    dropped: (document) => {
      typedIn.delete(document);
      drop(document);
    },
  };
}
