import type { ExplanationPage } from '../features/explanation-page.ts';
import type { NewAnswers, NewFile } from '../features/new-answers.ts';
import type { Plan } from './bench-view-protocol.ts';
import type {
  AboutFile,
  DrawnFinding,
  FactTable,
  Knob,
  Message,
  Position,
  Pots,
  Range,
  Subject,
} from './protocol-parts.ts';

/**
 * What our client and our server say to each other beyond the Language Server Protocol. Plain data, in the protocol's own
 * positions (lines and UTF-16 units from zero). Every message carries `protocol`, so that a client and a server of
 * different ages notice.
 */
export const PROTOCOL_VERSION = 3;

export { CARD_KINDS, type CardKind } from '../documents/cards/card-kinds.ts';
export type { ExplanationBlock, ExplanationPage } from '../features/explanation-page.ts';
export type { Measured, NewAnswers, NewFile, NewParts } from '../features/new-answers.ts';
export {
  isAsked,
  MEASURE_NAMES,
  measureIn,
  NEW_COILS,
  NEW_GAUGES,
  NEW_MAGNETS,
  NEW_MEASURES,
  NEW_POLES,
  NEW_POSITIONS,
  NEW_STRINGS,
  usualPole,
} from '../features/new-answers.ts';
export { codeSpans } from '../words/code-spans.ts';
export { HARMFUL } from '../words/harmful.ts';
export { unbroken } from '../words/unbroken.ts';
export { fromBase64, toBase64 } from './base64.ts';
export type * from './bench-view-protocol.ts';
export {
  CARDS_REQUEST,
  FIND_REQUEST,
  PAGE_REQUEST,
  PLANS_REQUEST,
  SECTION_NAMES,
  SECTION_REQUEST,
  SECTIONS,
  SLIM_BELOW,
  SOUND_REQUEST,
  WHAT_IF_REQUEST,
  WIDE_FROM,
} from './bench-view-protocol.ts';
export type * from './protocol-parts.ts';

/** The language's id and what its files end in. */
export const LANGUAGE_ID = 'pickup';
export const FILE_ENDING = '.pickup';

/** A link that shows the page of a finding, for a client that says that it can. */
export const EXPLAIN_COMMAND = 'pickup.explainFinding';
export const explanationLink = (code: string): string =>
  `command:${EXPLAIN_COMMAND}?${encodeURIComponent(JSON.stringify([code]))}`;

/** What our client can do; other editors' clients send none of it. */
export interface ClientOptions extends Message {
  /** It answers `pickup/readFile`. */
  readonly readsFiles: boolean;
  /** It shows the pages of findings, so that a finding's code may link to one. */
  readonly showsExplanations: boolean;
}

/** Client to server: the drawing of one pickup or instrument of an open file. */
export const DRAWING_REQUEST = 'pickup/drawing';

export interface DrawingParams extends AboutFile {
  /** What to draw; without it, or where it is gone, the one at `cursor`, else the first. */
  readonly subject?: Subject;
  /** A pickup or an instrument around this position goes before `subject`. */
  readonly cursor?: Position;
  /** One of the result's `positions`. */
  readonly position?: string;
  /** Where they stand on the schematic of an instrument. */
  readonly pots?: Pots;
  /** Width of the sheet on screen in px. */
  readonly width: number;
}

export interface DrawingResult extends AboutFile {
  /** Of the document that was drawn. */
  readonly version: number;
  /** All pickups and instruments of the file, in order; its parts behind them. */
  readonly subjects: readonly SubjectChoice[];
  /** The one drawn; absent where the file has nothing to draw. */
  readonly subject?: Subject;
  readonly title?: string;
  /** Absent where nothing can be drawn from the text as it is. */
  readonly svg?: string;
  /** Where each `data-part` of the drawing is written, along the path from ground to hot, then the rest. */
  readonly parts: readonly DrawnPart[];
  /** The same as the drawing shows, in rows. */
  readonly table?: FactTable;
  readonly findings: readonly DrawnFinding[];
  /** What the work that settles them can do to a person. */
  readonly cautions: readonly string[];
  /** Selector positions through which it can be heard. */
  readonly positions: readonly HeardAt[];
  /** The one it is heard through; absent where a pickup is heard by itself. */
  readonly position?: string;
  /** What the state before its rework is called, where the text tells of one: it is compared with that unless a base is chosen. */
  readonly former?: string;
  /** The line that does not read as it stands, as a finding says: a drawing shown now is older than the text. */
  readonly broken?: { readonly line: number };
  /** What to say of a file that has nothing to draw, and what can be begun in it. */
  readonly invitation?: Invitation;
}

export interface Invitation {
  readonly says: string;
  /** `snippet`: in the editor's own notation. */
  readonly starts: readonly { readonly label: string; readonly snippet: string }[];
}

export interface SubjectChoice extends Subject {
  readonly title: string;
  /** Its blocks; parts have one each. */
  readonly ranges: readonly Range[];
}

export interface HeardAt {
  readonly id: string;
  readonly label: string;
  /** Those of its instrument. */
  readonly knobs: readonly Knob[];
}

export interface DrawnPart {
  readonly id: string;
  readonly label: string;
  readonly range: Range;
}

/**
 * Server to client, after the findings of a version have been sent: drawings of that file may be asked for anew. Sent again,
 * with `complete`, once those that need heavy numbers are out as well.
 */
export const ANALYSED_NOTIFICATION = 'pickup/analysed';

export interface AnalysedParams extends AboutFile {
  readonly version: number;
  readonly complete: boolean;
  /** Something else is found than what was told of this version before. */
  readonly isNews: boolean;
  /** Pickups and instruments that it declares. */
  readonly builds: number;
}

/** Client to server: the specs that somebody looks at now. Their findings come first where an edit elsewhere changes those of many. */
export const IN_SIGHT_NOTIFICATION = 'pickup/inSight';

export interface InSightParams {
  readonly protocol: number;
  readonly uris: readonly string[];
}

/** Client to server: the page of a finding. */
export const EXPLAIN_REQUEST = 'pickup/explain';

export interface ExplainParams extends Message {
  readonly code: string;
}

export interface ExplainResult extends Message {
  /** Absent where no finding has that code. */
  readonly page?: ExplanationPage;
}

/** Client to server: all that is found of a spec of the workspace, open or not, with what needs heavy numbers. */
export const CHECK_REQUEST = 'pickup/check';

export interface CheckResult extends Message {
  readonly findings: readonly Omit<DrawnFinding, 'mark'>[];
  /** Files that this rests on, itself among them. */
  readonly uris: readonly string[];
  /** Why it is not checked. */
  readonly problem?: string;
}

/** Client to server: what is computed of a spec of the workspace, open or not. */
export const REPORT_REQUEST = 'pickup/report';

export interface ReportResult extends Message {
  readonly subjects: readonly ReportedSubject[];
  /** Why there is no report. */
  readonly problem?: string;
}

export interface ReportedSubject {
  readonly kind: 'pickup' | 'instrument';
  readonly name: string;
  readonly title: string;
  /** One of a pickup, one for each position of an instrument. */
  readonly tables: readonly {
    readonly caption: string;
    /** `name` has the unit; `now` the value with its ±, one standard deviation. */
    readonly rows: readonly { readonly name: string; readonly now: string; readonly restsOn: string }[];
  }[];
}

/** Client to server: a spec that stands in another document, as a fence of Markdown does, drawn. */
export const FENCE_REQUEST = 'pickup/fence';

/** `uri`: of the document around it, whose folder it lies in. */
export interface FenceParams extends AboutFile {
  readonly text: string;
  /** Which one of that document: two drawings of one page share no id. */
  readonly place: number;
}

export interface FenceResult extends Message {
  /** Made of constants of ours and of escaped text; absent where it could not be drawn. */
  readonly html?: string;
  /** Files that it uses. */
  readonly uris: readonly string[];
}

/** Server to client: a file that only the client can read (a virtual file system, the web). */
export const READ_FILE_REQUEST = 'pickup/readFile';

export interface ReadFileParams extends AboutFile {
  /** Longer files are refused with a reason. */
  readonly mostBytes: number;
  /** A photograph; else a text. */
  readonly as?: 'bytes';
}

/** Server to client: the URIs of every spec of a workspace that only the client can list; they are the answer. */
export const LIST_SPECS_REQUEST = 'pickup/listSpecs';

export type ReadFileResult =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'bytes'; readonly base64: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'unreadable'; readonly reason: string };

/** Client to server: what may be answered to the questions of a new spec. */
export const NEW_CHOICES_REQUEST = 'pickup/newChoices';

export interface NewChoicesParams extends Message {
  /** Files that may hold parts. */
  readonly uris: readonly string[];
}

export interface NewChoicesResult extends Message {
  /** Of leads, by IEC 60757; `swatch` as `#rrggbb`. */
  readonly colours: readonly { readonly code: string; readonly name: string; readonly swatch: string }[];
  readonly shelves: readonly Shelf[];
}

/** Names that a spec may use which uses that file. */
export interface Shelf {
  readonly uri: string;
  /** `poles`: how many, where that is stated; a blade serves any number of strings. */
  readonly bobbins: readonly { readonly name: string; readonly ownMagnets: boolean; readonly poles?: number }[];
  readonly wires: readonly string[];
  readonly spools: readonly string[];
  readonly magnets: readonly string[];
}

/** Client to server: the text of a new spec; without answers, of a starter shop. */
export const NEW_SPEC_REQUEST = 'pickup/newSpec';

export interface NewSpecParams extends Message {
  readonly answers?: NewAnswers;
}

export interface NewSpecResult extends Message {
  readonly files: readonly NewFile[];
  /** Why there is none. */
  readonly problem?: string;
}

/** Client to server: the test signal that a pickup is measured with, as the bytes of a sound file. */
export const TEST_SIGNAL_REQUEST = 'pickup/testSignal';

export interface TestSignalResult extends Message {
  /** WAV in base64. */
  readonly wav: string;
  /** Said before it is played. */
  readonly cautions: readonly string[];
}

/** Client to server: a recording of the test signal as the text of a curve file. */
export const CURVE_REQUEST = 'pickup/curve';

export interface CurveParams extends Message {
  /** The pickup's recording and, where it has one channel, the one made with it: WAV in base64. */
  readonly recordings: readonly { readonly name: string; readonly wav: string }[];
  /** Of two channels, the one that holds what was sent. */
  readonly reference?: 'left' | 'right';
  /** How long the sweep took, where it was not the usual signal. */
  readonly seconds?: number;
}

export interface CurveResult extends Message {
  readonly text?: string;
  /** What was found in the recording, one line each. */
  readonly lines: readonly string[];
  /** Why there is no curve. */
  readonly problem?: string;
  /** What can hurt where it is recorded again. */
  readonly cautions: readonly string[];
}

/** Client to server: where a line that names a curve goes in a spec. */
export const SWEEP_LINE_REQUEST = 'pickup/sweepLine';

export interface SweepLineParams extends AboutFile {
  readonly cursor: Position;
  /** Of the curve, seen from the spec. */
  readonly path: string;
  /** As `over 10 kohm`. */
  readonly setUp: string;
}

export interface SweepLineResult extends Message {
  readonly edit?: Plan['edit'];
}
