import { type CancellationToken, CancellationTokenSource } from 'vscode';
import type { Section, SectionName } from '../../../../server/src/lsp/protocol.ts';

/** Fetches the sections that follow a drawing: one request at a time, of the newest wish only, the quick ones first. */
export interface SectionFeed {
  /** These sections are out of date. What runs for an older wish is cancelled; nothing queues. */
  want(names: Iterable<SectionName>): void;
  /** What is on its way is of no use any more; nothing new is asked for. */
  stop(): void;
}

interface FeedSources {
  readonly order: readonly SectionName[];
  /** `undefined`: there is no such section now. */
  readonly fetch: (name: SectionName, token: CancellationToken) => Promise<Section | undefined>;
  readonly deliver: (content: Section) => void;
  /** A rest before a section that takes the server longer, so that a typist's findings go first. */
  readonly restMs: (name: SectionName) => number;
}

export function createSectionFeed({ order, fetch, deliver, restMs }: FeedSources): SectionFeed {
  const wanted = new Set<SectionName>();
  let running: CancellationTokenSource | undefined;
  const next = (): SectionName | undefined => order.find((name) => wanted.has(name));

  const fetchOne = async (name: SectionName, token: CancellationToken): Promise<void> => {
    const rest = restMs(name);
    if (rest > 0) await new Promise((resolve) => setTimeout(resolve, rest));
    if (token.isCancellationRequested) return;
    // A section that failed is not asked for again and again: the next drawing brings it back.
    const content = await fetch(name, token).catch(() => undefined);
    if (token.isCancellationRequested) return;
    wanted.delete(name);
    if (content !== undefined) deliver(content);
  };
  const run = async (): Promise<void> => {
    for (let name = next(); name !== undefined; name = next()) {
      const source = new CancellationTokenSource();
      running = source;
      await fetchOne(name, source.token);
      source.dispose();
    }
    running = undefined;
  };
  return {
    want: (names) => {
      for (const name of names) wanted.add(name);
      if (running === undefined) void run();
      else running.cancel();
    },
    stop: () => {
      wanted.clear();
      running?.cancel();
    },
  };
}
