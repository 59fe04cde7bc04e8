import { Disposable, EventEmitter, Uri } from 'vscode';
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
  readonly text: string;
  readonly html: string | undefined;
  readonly uris: ReadonlySet<string>;
  /** A file that it uses is another now. */
  isStale: boolean;
}

const MOST_KEPT = 200;

/**
 * Drawings of fences, as the server has made them. Whoever renders a page cannot wait: what is there is given at once (what is older
 * than its text as long as nothing newer is there), and `onDidDraw` tells when rendering it again shows more.
 */
export class DrawnFences implements Disposable {
  private readonly entries = new Map<string, Entry>();
  /** The text that was last asked for, by place. */
  private readonly asked = new Map<string, string>();
  /** Drawn, but not yet rendered since. */
  private readonly unshown = new Set<string>();
  private readonly drawn = new EventEmitter<void>();
  readonly onDidDraw = this.drawn.event;

  private readonly client: BaseLanguageClient;
  private readonly listening: Disposable;

  constructor(client: BaseLanguageClient) {
    this.client = client;
    const started = client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) this.forget();
    });
    this.listening = Disposable.from(this.drawn, started);
  }

  dispose(): void {
    this.listening.dispose();
  }

  at(fence: Fence): Drawn {
    const key = `${fence.uri}#${fence.place}`;
    const entry = this.entries.get(key);
    this.unshown.delete(key);
    const isCurrent = entry?.text === fence.text && !entry.isStale;
    if (!isCurrent && this.asked.get(key) !== fence.text) void this.ask(key, fence);
    if (entry?.html !== undefined) return { state: isCurrent ? 'current' : 'former', html: entry.html };
    return { state: isCurrent ? 'failed' : 'asked' };
  }

  get isAnyUnshown(): boolean {
    return this.unshown.size > 0;
  }

  /** What has not been rendered by now is on no page. */
  giveUp(): void {
    this.unshown.clear();
  }

  /** These files have changed: what uses them is drawn anew when it is rendered again. */
  changed(uris: Iterable<string>): void {
    const changed = [...uris];
    for (const [key, entry] of this.entries) {
      if (entry.isStale || !changed.some((uri) => entry.uris.has(uri))) continue;
      entry.isStale = true;
      this.unshown.add(key);
    }
  }

  /** What could not be drawn before a start of the server may be drawn after it. */
  private forget(): void {
    if (this.entries.size === 0) return;
    for (const key of this.entries.keys()) this.unshown.add(key);
    this.entries.clear();
    this.drawn.fire();
  }

  private async ask(key: string, fence: Fence): Promise<void> {
    this.asked.set(key, fence.text);
    const params: FenceParams = { protocol: PROTOCOL_VERSION, ...fence };
    const result = await this.client.sendRequest<FenceResult>(FENCE_REQUEST, params).catch(() => undefined);
    // Typed on meanwhile: another answer is on its way.
    if (this.asked.get(key) !== fence.text) return;
    this.asked.delete(key);
    this.entries.delete(key);
    // The server may write the same address otherwise than the editor.
    const uris = new Set(result?.uris.map((uri) => Uri.parse(uri).toString()));
    this.entries.set(key, { text: fence.text, html: result?.html, uris, isStale: false });
    for (const oldest of this.entries.keys()) {
      if (this.entries.size <= MOST_KEPT) break;
      this.entries.delete(oldest);
    }
    this.unshown.add(key);
    this.drawn.fire();
  }
}
