import { CancellationTokenSource, Disposable, EventEmitter, Uri } from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import {
  FENCE_REQUEST,
  type FenceParams,
  type FenceResult,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import type { Drawn } from './fence-rule.ts';

/** A fence of a document: `place` counts them. */
export type Fence = Omit<FenceParams, 'protocol'>;

interface Entry {
  readonly fence: Fence;
  readonly html: string | undefined;
  readonly uris: ReadonlySet<string>;
  /** A file that it uses is another now. */
  isStale: boolean;
}

interface Asked {
  readonly text: string;
  readonly source: CancellationTokenSource;
}

const MOST_KEPT = 200;

/**
 * Drawings of fences, as the server has made them. Whoever renders a page cannot wait: what is there is given at once (what is older
 * than its text as long as nothing newer is there), and `onDidDraw` tells when rendering a page again would show more; `true` where
 * the page has had no drawing there.
 */
export class DrawnFences implements Disposable {
  private readonly entries = new Map<string, Entry>();
  private readonly asked = new Map<string, Asked>();
  /** On a page at present as far as is known, and whether as it is now. */
  private readonly onPages = new Map<string, Drawn['state']>();
  private readonly drawn = new EventEmitter<boolean>();
  readonly onDidDraw = this.drawn.event;

  private readonly client: BaseLanguageClient;
  private readonly listening: Disposable;

  constructor(client: BaseLanguageClient) {
    this.client = client;
    const started = client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) this.askAgain(({ html }) => html === undefined);
    });
    this.listening = Disposable.from(this.drawn, started);
  }

  dispose(): void {
    for (const { source } of this.asked.values()) source.cancel();
    this.listening.dispose();
  }

  /** For a page that is rendered now. */
  at(fence: Fence): Drawn {
    const key = keyOf(fence);
    const entry = this.entries.get(key);
    const drawn = this.drawnAs(fence, entry);
    if (drawn.state !== 'current') this.expect(fence);
    this.onPages.set(key, drawn.state);
    return drawn;
  }

  /** A page will ask for it soon. */
  expect(fence: Fence): void {
    const key = keyOf(fence);
    const { state } = this.drawnAs(fence, this.entries.get(key));
    if (state === 'current' || state === 'failed' || this.asked.get(key)?.text === fence.text) return;
    void this.ask(key, fence);
  }

  /** True where a page shows something older than there is. */
  get isAnyUnshown(): boolean {
    return [...this.onPages].some(([key, state]) => isOlder(state) && this.entries.get(key)?.isStale === false);
  }

  /** What has not been rendered by now is on no page. */
  giveUp(): void {
    for (const [key, state] of this.onPages) if (isOlder(state)) this.onPages.delete(key);
  }

  /** These files have changed: what uses them is drawn anew. */
  changed(uris: Iterable<string>): void {
    const changed = [...uris];
    this.askAgain((entry) => changed.some((uri) => entry.uris.has(uri)));
  }

  private drawnAs({ text }: Fence, entry: Entry | undefined): Drawn {
    const isCurrent = entry?.fence.text === text && !entry.isStale;
    if (entry?.html !== undefined) return { state: isCurrent ? 'current' : 'former', html: entry.html };
    return { state: isCurrent ? 'failed' : 'asked' };
  }

  private askAgain(isMeant: (entry: Entry) => boolean): void {
    for (const [key, entry] of this.entries) {
      if (!isMeant(entry)) continue;
      entry.isStale = true;
      const state = this.onPages.get(key);
      if (state === undefined) continue;
      this.onPages.set(key, entry.html === undefined ? 'asked' : 'former');
      void this.ask(key, entry.fence);
    }
  }

  private async ask(key: string, fence: Fence): Promise<void> {
    this.asked.get(key)?.source.cancel();
    const asked = { text: fence.text, source: new CancellationTokenSource() };
    this.asked.set(key, asked);
    const params: FenceParams = { protocol: PROTOCOL_VERSION, ...fence };
    const result = await this.client
      .sendRequest<FenceResult>(FENCE_REQUEST, params, asked.source.token)
      .catch(() => undefined);
    // Typed on meanwhile: another answer is on its way.
    if (this.asked.get(key) !== asked) return;
    this.asked.delete(key);
    this.entries.delete(key);
    // The server may write the same address otherwise than the editor.
    const uris = new Set(result?.uris.map((uri) => Uri.parse(uri).toString()));
    this.entries.set(key, { fence, html: result?.html, uris, isStale: false });
    for (const oldest of this.entries.keys()) {
      if (this.entries.size <= MOST_KEPT) break;
      this.entries.delete(oldest);
      this.onPages.delete(oldest);
    }
    const shown = this.onPages.get(key);
    if (shown !== undefined && isOlder(shown)) this.drawn.fire(shown === 'asked');
  }
}

const isOlder = (state: Drawn['state']): boolean => state === 'asked' || state === 'former';

const keyOf = ({ uri, place }: Fence): string => `${uri}#${place}`;
