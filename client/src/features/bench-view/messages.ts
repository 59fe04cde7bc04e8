import type {
  DrawingResult,
  Knob,
  Pots,
  Section,
  Settings,
  SoundResult,
  Subject,
  SubjectChoice,
  WhatIfState,
} from '../../../../server/src/lsp/protocol.ts';

/** What the bench view is shown. */
export type ToView =
  | {
      readonly type: 'drawing';
      /** Counts up; a view never goes back. */
      readonly render: number;
      readonly drawing: ShownDrawing;
      /** The part that the cursor is in. */
      readonly part: string | undefined;
    }
  /** What follows a drawing, bit by bit, the quick ones first. */
  | { readonly type: 'section'; readonly render: number; readonly content: Section }
  | { readonly type: 'highlight'; readonly part: string | undefined }
  /** The plucked string that was asked for. */
  | { readonly type: 'sound'; readonly sound: SoundResult; readonly isWhatIf: boolean }
  /** What the knobs moved by hand would make, `asked` being the number of the wish; without a state, nothing that can be said. */
  | { readonly type: 'what if'; readonly asked: number; readonly state: WhatIfState | undefined }
  /** Paint the drawing and send it back as a picture. */
  | { readonly type: 'paint' }
  /** Nothing could be had from the server; what is shown stays. */
  | { readonly type: 'failed'; readonly message: string };

/** What the server drew, and how the panel shows it. */
export interface ShownDrawing extends Omit<DrawingResult, 'subjects' | 'parts'> {
  readonly file: string;
  readonly subjects: readonly Pick<SubjectChoice, 'kind' | 'name' | 'title'>[];
  /** Parts that have a line in the text, in the order in which the keyboard goes through them. */
  readonly parts: readonly string[];
  readonly knobs: readonly Knob[];
  readonly pots: Pots;
  /** What the state compared with is called; absent where nothing is compared. */
  readonly comparedWith: string | undefined;
  readonly base: BaseChoice | undefined;
}

/** Which of two states is looked at. */
export type Side = 'before' | 'now' | 'both';

/** What the bench view asks for. */
export type FromView =
  /** The script runs and can be shown something. */
  | { readonly type: 'ready'; readonly width: number }
  | { readonly type: 'resized'; readonly width: number }
  /** A part of the drawing was clicked or entered. */
  | { readonly type: 'reveal'; readonly part: string }
  | { readonly type: 'reveal line'; readonly line: number }
  /** One of the beginnings that an invitation offers. */
  | { readonly type: 'begin'; readonly index: number }
  /** One of the builds that are proposed: write it into the spec. */
  | { readonly type: 'use build'; readonly index: number }
  /** The wiring that is planned: write it into the spec. */
  | { readonly type: 'write plan' }
  /** Knobs were moved by hand: what would it be? `asked` counts up. */
  | { readonly type: 'what if'; readonly asked: number; readonly settings: Settings }
  /** The state that was shown last: write it into the spec. */
  | { readonly type: 'write what if' }
  | { readonly type: 'explain'; readonly code: string }
  | { readonly type: 'choose'; readonly subject: Subject }
  | { readonly type: 'position'; readonly position: string | undefined }
  | { readonly type: 'pots'; readonly pots: Pots }
  /** A command of ours that stands as a button in the view. */
  | { readonly type: 'command'; readonly command: ViewCommand }
  /** A plucked string, through what is shown, or with knobs moved by hand. */
  | { readonly type: 'sound'; readonly frequencyHz: number; readonly settings: Settings | undefined }
  /** The drawing as it stands, as a PNG in base64. */
  | { readonly type: 'picture'; readonly png: string };

export const VIEW_COMMANDS = [
  'compareWithLastCommit',
  'compareWithRevision',
  'compareWithFile',
  'endComparison',
  'exportSvg',
  'exportHtml',
] as const;

export type ViewCommand = (typeof VIEW_COMMANDS)[number];

/** What a view is compared with: remembered by how it is found, not by its text. */
export type BaseChoice =
  | { readonly kind: 'revision'; readonly revision: string }
  | { readonly kind: 'file'; readonly uri: string };

/** What a view remembers over a reload of the window. */
export interface ViewState {
  readonly uri: string;
  readonly subject?: Subject | undefined;
  readonly position?: string | undefined;
  readonly pots?: Pots | undefined;
  readonly base?: BaseChoice | undefined;
  readonly side?: Side | undefined;
  /** Where each thing that was shown had been scrolled to. */
  readonly places?: Readonly<Record<string, number>>;
  readonly zoom?: number;
}
