import type { ComparisonView } from '../../server/src/lsp/protocol.ts';
import type { FromView, ShownDrawing, ViewState } from '../src/features/bench-view/messages.ts';

/** What the page shows; its parts read it, the bench view alone changes it. */
export interface PageState {
  drawing: ShownDrawing | undefined;
  comparison: ComparisonView | undefined;
}

export type Send = (message: FromView) => void;

/** What is around the page. */
export interface Around {
  readonly send: Send;
  readonly remembered: ViewState | undefined;
  readonly remember: (state: ViewState) => void;
}
