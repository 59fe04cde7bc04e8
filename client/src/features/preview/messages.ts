import type { DrawingResult, DrawnFinding, JointRow } from '../../../../server/src/lsp/protocol.ts';

/** What the preview is shown. */
export type ToView =
  | {
      readonly type: 'drawing';
      /** Counts up; a view never goes back. */
      readonly render: number;
      readonly drawing: ShownDrawing;
      /** The part that the cursor is in. */
      readonly part: string | undefined;
    }
  | { readonly type: 'highlight'; readonly part: string | undefined }
  /** Nothing could be had from the server; what is shown stays. */
  | { readonly type: 'failed'; readonly message: string };

export interface ShownDrawing {
  readonly uri: string;
  readonly file: string;
  readonly name: string | undefined;
  readonly title: string | undefined;
  readonly svg: string | undefined;
  readonly pickups: readonly { readonly name: string; readonly title: string }[];
  /** Parts that have a line in the text, in the order in which the keyboard goes through them. */
  readonly parts: readonly string[];
  readonly joints: readonly JointRow[];
  readonly findings: readonly DrawnFinding[];
  readonly broken: DrawingResult['broken'];
}

/** What the preview asks for. */
export type FromView =
  /** The script runs and can be shown something. */
  | { readonly type: 'ready'; readonly width: number }
  | { readonly type: 'resized'; readonly width: number }
  /** A part of the drawing was clicked or entered. */
  | { readonly type: 'reveal'; readonly part: string }
  | { readonly type: 'reveal line'; readonly line: number }
  | { readonly type: 'explain'; readonly code: string }
  | { readonly type: 'choose'; readonly name: string };

/** What a view remembers over a reload of the window. */
export interface ViewState {
  readonly uri: string;
  readonly name?: string;
  readonly scrollTop?: number;
  readonly zoom?: number;
}
