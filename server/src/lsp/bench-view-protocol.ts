/** What the bench view asks for beyond the drawing (its sections, its page, sound), and what else a file is asked for: cards, plans, pickups on record. Plain data. */
import type { NumbersTable } from '../comparison/numbers-table.ts';
import type { MissingReading } from '../features/missing-readings.ts';
import type { MeasurementWords } from '../proposal/measurement-words.ts';
import type { AboutFile, DrawnFinding, FactTable, Message, Position, Pots, Range, Subject } from './protocol-parts.ts';

/** The state to compare with: a file, and texts that go before what the file system holds now. */
export interface BaseState {
  /** What people call it: `last commit`. */
  readonly label: string;
  readonly uri: string;
  readonly texts: readonly { readonly uri: string; readonly text: string }[];
}

/** What each section of the bench view holds. A name added here is asked for in `SECTIONS`, on the server and in the view. */
export interface SectionContents {
  readonly comparison: ComparisonView;
  /** `why`: why there is nothing to read yet. */
  readonly missing: { readonly readings: readonly MissingRow[]; readonly why?: string };
  /** The one reading that settles most for the least handling; absent where nothing is open. */
  readonly next: { readonly reading?: NextReadingRow };
  readonly numbers: NumbersTable;
  readonly response: ResponseView;
  /** Of a pickup that was swept; absent else. */
  readonly impedance: PlotView;
  /** Two sweeps of a pickup, before and after some work; absent where there are none. */
  readonly sweeps: PlotView;
  readonly positions: PlotView;
  readonly switches: PlotView;
  readonly photos: { readonly photos: readonly ShownPhoto[] };
  readonly usage: UsageView;
  readonly proposals: ProposalsView;
  readonly whatIf: WhatIfView;
  readonly plan: WiringPlanView;
}

export type SectionName = keyof SectionContents;
export type Section<N extends SectionName = SectionName> = {
  readonly [K in N]: { readonly section: K } & SectionContents[K];
}[N];

export interface SectionTraits {
  /** It needs the inductances, some tens of milliseconds: it waits for a rest, so that a typist's findings go first. */
  readonly isHeavy: boolean;
  /** Turning a pot changes it. */
  readonly isHeard: boolean;
  /**
   * Without a state to compare with (chosen, or the former one that the text tells of), a selector position, a pickup or an
   * instrument, or parts of a shop, there is none.
   */
  readonly needs: 'base' | 'position' | 'pickups' | 'parts';
}

/** In the order in which they are asked for, the quick ones first. */
export const SECTIONS: Readonly<Record<SectionName, SectionTraits>> = {
  comparison: { isHeavy: false, isHeard: false, needs: 'base' },
  missing: { isHeavy: false, isHeard: false, needs: 'pickups' },
  photos: { isHeavy: false, isHeard: false, needs: 'pickups' },
  usage: { isHeavy: true, isHeard: false, needs: 'parts' },
  switches: { isHeavy: false, isHeard: true, needs: 'position' },
  numbers: { isHeavy: true, isHeard: true, needs: 'pickups' },
  response: { isHeavy: true, isHeard: true, needs: 'pickups' },
  sweeps: { isHeavy: true, isHeard: false, needs: 'pickups' },
  impedance: { isHeavy: true, isHeard: false, needs: 'pickups' },
  positions: { isHeavy: true, isHeard: true, needs: 'position' },
  next: { isHeavy: true, isHeard: false, needs: 'pickups' },
  proposals: { isHeavy: true, isHeard: false, needs: 'pickups' },
  whatIf: { isHeavy: true, isHeard: false, needs: 'pickups' },
  plan: { isHeavy: true, isHeard: false, needs: 'position' },
};

export const isSectionName = (name: string): name is SectionName => Object.hasOwn(SECTIONS, name);
export const SECTION_NAMES: readonly SectionName[] = Object.keys(SECTIONS).filter(isSectionName);

/** From this width of the view on, in px, the wide drawings: scaled down to it less its margins of 16 px, their words are still 11 px high. */
export const WIDE_FROM = 912;

/** Below it, drawings and plots are laid out for less: scaled down further, the words of the narrow ones would be smaller than that. */
export const SLIM_BELOW = 450;

/**
 * Client to server, one section after the other, so that a keystroke's findings come between them and a cancelled one costs
 * nothing.
 */
export const SECTION_REQUEST = 'pickup/section';

export interface SectionParams extends SectionAsked, AboutFile {
  readonly section: SectionName;
  readonly base?: BaseState;
}

/** What a section is made for. */
export interface SectionAsked {
  readonly subject: Subject;
  /** One of the drawing's `positions`; without it a pickup is heard by itself, an instrument in its first position. */
  readonly position?: string;
  readonly pots: Pots;
  /** Width of the view in px. */
  readonly width: number;
  /** Files that may use the parts of this one. */
  readonly among?: readonly string[];
}

export interface SectionResult extends AboutFile {
  /** Of the document that this was made from. */
  readonly version: number;
  readonly content: Section;
}

export interface ComparisonView {
  /** Files that the base uses and whose old text was not sent: what is there now stood in for it. */
  readonly uses: readonly string[];
  readonly facts: readonly FactRow[];
  readonly settled: readonly Omit<DrawnFinding, 'range' | 'mark'>[];
  readonly come: readonly DrawnFinding[];
  /** The drawing of the base; absent where it has no such subject. */
  readonly svg?: string;
  /** Parts of the drawing now and before whose lines differ, with what was written before. */
  readonly changedNow: readonly ChangedPart[];
  readonly changedBefore: readonly ChangedPart[];
}

export interface ChangedPart {
  readonly part: string;
  /** What the part was before, or is now where it stands on the drawing before. */
  readonly words: string;
}

export interface FactRow {
  /** `pickup hesk-neck, coil slug` */
  readonly where: string;
  readonly was?: string;
  readonly is?: string;
  /** In the document, where the fact is written there. */
  readonly range?: Range;
}

export interface MissingRow extends Omit<MissingReading, 'place'> {
  readonly range?: Range;
}

export interface NextReadingRow extends MeasurementWords {
  readonly range?: Range;
}

/** Who uses the parts of a file; of a spool also what is left on it. */
export interface UsageView {
  readonly rows: readonly UsageRow[];
}

export interface UsageRow {
  readonly part: string;
  readonly usedBy: readonly string[];
  readonly left?: string;
  readonly range?: Range;
}

/** What the target asks for beside what the build comes to, and builds that reach it where something is left out. */
export interface ProposalsView {
  /** Of the document that the edits are of. */
  readonly version: number;
  /** Absent where no target is stated. */
  readonly target?: FactTable;
  /** What is left out; absent where nothing is proposed. */
  readonly free?: string;
  readonly builds: readonly ProposedBuildView[];
  /** What holds the nearest miss, a sentence each. */
  readonly inTheWay: readonly string[];
  readonly cautions: readonly string[];
}

/** What to solder to the switches of an instrument where that is not written yet, or is wrong; or why nothing does it. */
export interface WiringPlanView {
  /** Of the document that the edits are of. */
  readonly version: number;
  /** A sentence each; none where there is nothing to plan. */
  readonly says: readonly string[];
  /** The switches as the plan wires them, and the same in rows. */
  readonly drawn: PlotView;
  /** In the order in which one solders. */
  readonly joints?: FactTable;
  /** As the spec says it. */
  readonly lines: readonly string[];
  readonly cautions: readonly string[];
  /** They write it. */
  readonly edits: readonly { readonly range: Range; readonly newText: string }[];
}

export interface ProposedBuildView {
  /** `odds 64 in 100` */
  readonly odds: string;
  /** What each coil is wound from and takes, a line each; the bar. */
  readonly parts: readonly string[];
  readonly reaches: FactTable;
  readonly givesUp: readonly ToldFinding[];
  readonly edits: readonly { readonly range: Range; readonly newText: string }[];
}

/** What may be moved by hand, without a change of the text, and what that does by the models at hand. */
export interface WhatIfView {
  readonly knobs: readonly WhatIfKnob[];
  /** Figures that are estimated at once, as they are now. */
  readonly figures: readonly WhatIfFigure[];
  /** Coils that cannot be moved, and why: a sentence each. */
  readonly stay: readonly string[];
}

export interface WhatIfKnob {
  readonly id: string;
  readonly label: string;
  /** Where it stands now: a number of a slider, the id of a choice. */
  readonly now: number | string;
  readonly slider?: { readonly fewest: number; readonly most: number; readonly step: number; readonly unit: string };
  readonly choices?: readonly { readonly id: string; readonly label: string }[];
  /** Where it stands (a slider's rise), and what each figure is multiplied by there, a level what is added; `null`: not known. */
  readonly at: readonly (number | string)[];
  readonly effects: readonly (readonly (number | null)[])[];
}

export interface WhatIfFigure {
  /** As its row of the numbers is called. */
  readonly row: string;
  /** In the unit of the row. */
  readonly now: number;
  /** The same as its row tells it, with its ± and whether it was measured. */
  readonly text: string;
  readonly decimals: number;
  readonly isLevel: boolean;
}

/** Client to server: what the pickup or instrument would be with knobs moved. */
export const WHAT_IF_REQUEST = 'pickup/whatIf';

/** Where each knob that was moved stands, by its id. */
export type Settings = Readonly<Record<string, number | string>>;

export interface WhatIfParams extends SectionAsked, AboutFile {
  readonly settings: Settings;
}

export interface WhatIfResult extends Message {
  /** Absent where the text cannot say it, or nothing is moved. */
  readonly state?: WhatIfState;
}

export interface WhatIfState {
  /** Of the document that the edits are of. */
  readonly version: number;
  /** Now as `before`, what if as `now`. */
  readonly numbers: NumbersTable;
  /** Both curves. */
  readonly response: ResponseView;
  /** Findings that it would bring, and those that it would settle. */
  readonly come: readonly ToldFinding[];
  readonly settled: readonly ToldFinding[];
  readonly edits: readonly { readonly uri: string; readonly range: Range; readonly newText: string }[];
}

export interface ToldFinding {
  readonly what: string;
  /** Set where it is told in English to a reader of another language. */
  readonly foreign?: 'en';
}

export interface ShownPhoto {
  readonly caption: string;
  /** What it stands with, where that is not the whole: a coil, readings. */
  readonly of?: string;
  /** Where its picture is to be had; the client gives it the address that its page may ask for. Absent where there is none. */
  readonly uri?: string;
  readonly width?: number;
  readonly height?: number;
  /** Another one where the file is likely to have changed. */
  readonly mark?: string;
  /** Why there is no picture. */
  readonly why?: string;
  /** Of `why`, where it is not the language of the rest. */
  readonly foreign?: 'en';
  readonly range?: Range;
}

export interface PlotView {
  /** Absent where it cannot be computed; `why` says so. */
  readonly svg?: string;
  readonly why?: string;
  /** The same in rows. */
  readonly table?: FactTable;
}

export interface ResponseView extends PlotView {
  /** Inductance, capacitance and losses of all that sounds were measured. */
  readonly isMeasured?: boolean;
  /** What a listener has to know that the sound of it is not. */
  readonly leftOut: readonly string[];
  /** Open strings that can be plucked, the lowest first. */
  readonly strings: readonly { readonly name: string; readonly hz: number }[];
}

/** Client to server: pickups on record in the files named, those that fit every filter. */
export const FIND_REQUEST = 'pickup/find';

export interface FindParams extends Message {
  readonly uris: readonly string[];
  /** Filters written like facts, as the command line's `--where`, with commas between; other words are the list's own matter. */
  readonly typed: string;
}

export interface FindResult extends Message {
  readonly found: readonly FoundPickup[];
  /** True where something typed was a filter. */
  readonly isFiltered: boolean;
  /** Why a filter cannot be read. */
  readonly problem?: string;
  /** How filters are written. */
  readonly examples: readonly string[];
  /** What to mind at the work that the list proposes, once for all of it. */
  readonly cautions: readonly string[];
}

export interface FoundPickup {
  readonly uri: string;
  readonly range: Range;
  readonly name: string;
  readonly title?: string;
  /** Serial, date, resistance, turns, magnet, instruments: one line. */
  readonly about: string;
  /** Why it was found, where the filter asks for a reason. */
  readonly reasons: readonly string[];
}

/** Client to server: the view as one page that needs nothing else. */
export const PAGE_REQUEST = 'pickup/page';

export type PageParams = Omit<SectionParams, 'section' | 'width'>;

export interface PageResult extends Message {
  readonly html?: string;
}

/** Client to server: the printable cards of a file. */
export const CARDS_REQUEST = 'pickup/cards';

export interface CardsParams extends AboutFile {
  readonly kinds: readonly string[];
  readonly paper: 'a4' | 'letter';
  /** Only of this pickup. */
  readonly pickup?: string;
  /** Of the cards, after BCP 47. */
  readonly language?: string;
  /** The photographs on the hand-over card, too. */
  readonly photos?: boolean;
}

export interface CardsResult extends Message {
  /** `name`: what its file is called, without an ending; no two alike. */
  readonly pages: readonly { readonly name: string; readonly title: string; readonly html: string }[];
  /** Cards that are not made, and why. */
  readonly leftOut: readonly string[];
}

/** Client to server: what can be done with the pickup or instrument at a position. */
export const PLANS_REQUEST = 'pickup/plans';

export interface PlansParams extends AboutFile {
  readonly cursor: Position;
  readonly what: 'repair' | 'identify' | 'propose';
}

export interface PlansResult extends Message {
  /** The best first: fewest findings left, then what fits the readings, then the least work. */
  readonly plans: readonly Plan[];
}

export interface Plan {
  /** Of a repair: what is repaired, how long it takes, its steps. */
  readonly title: string;
  /** Of handling, where the steps say all else of it. */
  readonly minutes?: number;
  /** In order. */
  readonly steps: readonly string[];
  /** What is heard afterwards, a line a position; readings that then no longer agree. */
  readonly leaves: readonly string[];
  /** What the work can do to a person. */
  readonly cautions: readonly string[];
  /** As the protocol writes edits of a workspace. */
  readonly edit: {
    readonly changes?: Readonly<Record<string, readonly { readonly range: Range; readonly newText: string }[]>>;
  };
}

/** Client to server: a plucked string as the state now and the one before give it, equally loud. */
export const SOUND_REQUEST = 'pickup/sound';

export interface SoundParams extends PageParams {
  /** Of the open string. */
  readonly frequencyHz: number;
  /** Knobs that were moved by hand: what they make is heard as `now`, what the text says as `before`. */
  readonly settings?: Settings;
}

export interface SoundResult extends Message {
  readonly sampleRate: number;
  /** Samples of 16 bits, little end first, in base64; absent where the response is not known. */
  readonly now?: string;
  readonly before?: string;
  /** True where nothing reaches the jack now: its samples are all 0. */
  readonly isSilent?: boolean;
}
