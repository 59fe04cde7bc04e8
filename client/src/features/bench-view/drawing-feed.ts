import { type CancellationToken, CancellationTokenSource, type Position } from 'vscode';
import type { DrawingResult } from '../../../../server/src/lsp/protocol.ts';
import { t } from '../words.ts';

interface DrawingSources {
  readonly fetch: (token: CancellationToken, cursor: Position | undefined) => Promise<DrawingResult | null>;
  readonly show: (result: DrawingResult) => void;
  readonly failed: (message: string) => void;
}

/** Drawings that follow each other as one types take this share of the time at most: the rest is for findings and for the text. */
const MOST_SHARE = 1 / 4;
/** However long the last one took, the next does not wait longer. */
const MOST_REST_MS = 250;

/** Asks for drawings. A newer wish ends the older one; what comes too late is dropped. */
export class DrawingFeed {
  private readonly sources: DrawingSources;
  private asked = 0;
  private restsUntil = 0;
  private inFlight: CancellationTokenSource | undefined;
  private resting: ReturnType<typeof setTimeout> | undefined;

  constructor(sources: DrawingSources) {
    this.sources = sources;
  }

  /** Number of the newest drawing that was asked for; it counts up. */
  get newest(): number {
    return this.asked;
  }

  async ask(cursor: Position | undefined): Promise<void> {
    this.stop();
    const source = new CancellationTokenSource();
    this.inFlight = source;
    const mine = this.asked;
    const { fetch, show, failed } = this.sources;
    const began = Date.now();
    try {
      const result = await fetch(source.token, cursor);
      if (mine !== this.asked) return;
      const ended = Date.now();
      this.restsUntil = ended + Math.min((ended - began) * (1 / MOST_SHARE - 1), MOST_REST_MS);
      if (result === null) failed(t('This file could not be drawn. The log says why.'));
      else show(result);
    } catch {
      // A cancelled request lands here too: then a newer one is on its way.
      if (mine === this.asked) failed(t('The server does not answer. The drawing may be old.'));
    } finally {
      source.dispose();
      if (this.inFlight === source) this.inFlight = undefined;
    }
  }

  /** After a rest, unless something else is wished before. */
  later(restMs: number, ask: () => void): void {
    this.forgetRest();
    this.resting = setTimeout(ask, restMs);
  }

  /** At once, or after a rest by what the last drawing took. */
  whenRested(ask: () => void): void {
    this.later(Math.max(0, this.restsUntil - Date.now()), ask);
  }

  forgetRest(): void {
    clearTimeout(this.resting);
  }

  /** Whatever is under way is dropped, its failure too: nobody may be there any more to be told. */
  stop(): void {
    this.forgetRest();
    this.asked += 1;
    this.inFlight?.cancel();
  }
}
