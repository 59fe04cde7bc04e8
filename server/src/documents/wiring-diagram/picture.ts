/** What the wiring diagram of a pickup shows, as plain data: words and numbers are ready to print, nothing is left to compute. */
import type { Rotation } from '../../model/coil.ts';
import type { SheetWords } from '../drawing-sheet.ts';
import type { LeadLook, Polarity, PoleForm } from '../symbols.ts';

/** Its description tells the path in one breath. */
export interface PickupPicture extends SheetWords {
  /** From ground to hot. Coils in parallel: in the order they are to stand, the lowest first. */
  readonly coils: readonly CoilPicture[];
  /** As the drawing is laid out: with a mistake, as it will be when put right. */
  readonly nets: readonly NetPicture[];
  /** Conductors that no coil end is soldered to. */
  readonly looseLeads: readonly LooseLeadPicture[];
  /** Shield, baseplate, cover: one line each at most. */
  readonly metal: readonly MetalPicture[];
  readonly cableShield: boolean;
  /** A bar magnet between the two rows of poles. */
  readonly bar?: { readonly caption: string; readonly northToward: string } | undefined;
  /** Which coil lies toward what. */
  readonly toward?: { readonly coil: string; readonly what: 'bridge' | 'neck' } | undefined;
  readonly strings: number | undefined;
  /** Hot to ground. */
  readonly total?: { readonly value: string; readonly uncertainty?: string | undefined } | undefined;
  readonly findings: readonly FindingPicture[];
  readonly verdict: VerdictPicture | undefined;
}

export interface Caption {
  readonly text: string;
  readonly weight: 'heading' | 'number' | 'plain' | 'quiet';
}

export interface CoilPicture {
  readonly id: string;
  readonly captions: readonly Caption[];
  /** The same in one line, for narrow sheets. */
  readonly caption: { readonly name: string; readonly rest: string };
  /** Read out for the coil. */
  readonly description: string;
  readonly wound: Rotation | undefined;
  /** Whether anybody saw which lead is the inner end; without it neither `wound` nor start and finish are told. */
  readonly endsTraced: boolean;
  /** Nobody saw where its ends go inside the pickup. */
  readonly unseen: boolean;
  /** The way round that the path goes, where it is known: kicks and compass prove it even of untraced ends. */
  readonly pathTurns: Rotation | undefined;
  /** Where the path from ground to hot enters it. */
  readonly entered: 'start' | 'finish' | undefined;
  /** The same as the layout has it, where a mistake changes it. */
  readonly enteredAsLaidOut?: 'start' | 'finish' | undefined;
  readonly poles: { readonly form: PoleForm; readonly count: number; readonly polarity: Polarity };
  readonly start: EndPicture;
  readonly finish: EndPicture;
  readonly taps: readonly TapPicture[];
  /** Foil round the winding, and what it is soldered to. */
  readonly foil?: { readonly part: string; readonly description: string } | undefined;
  /** Between its two leads. */
  readonly resistance?: string | undefined;
  /** Strings it serves, where not all. */
  readonly serves?: { readonly from: number; readonly to: number } | undefined;
  /** Under another coil: its outlines are hidden. */
  readonly beneath: boolean;
  /** Takes no part in the path: drawn thin. */
  readonly idle: boolean;
}

export interface LeadPicture {
  /** `lead:violet`, `coil:slug.start`. */
  readonly part: string;
  /** `VT`; none for leads without a colour. */
  readonly code?: string | undefined;
  readonly name: string;
  readonly look: LeadLook;
  /** Read out for the lead. */
  readonly description: string;
}

export interface EndPicture {
  /** `slug.start`. */
  readonly id: string;
  /** The coil's own lead. */
  readonly own?: LeadPicture | undefined;
  /** The conductor of the cable it is soldered to. */
  readonly conductor?: LeadPicture | undefined;
  /** Goes out of the pickup, by its conductor or by itself; otherwise it is joined inside. */
  readonly leaves: boolean;
  readonly net: string | undefined;
  /** A mistake at the joint of own lead and conductor: the end whose conductor this lead is on instead. */
  readonly mistakenJoint?: string | undefined;
  /** A mistake where leads are joined: the end whose place this one takes; `nowhere` where it is joined to nothing. */
  readonly mistakenNet?: string | undefined;
}

export interface TapPicture {
  readonly turns: string;
  readonly lead: LeadPicture;
  readonly net: string | undefined;
}

export interface NetPicture {
  readonly id: string;
  /** `free`: on purpose joined to nothing; `open`: by mistake; `out`: led out, such as a tap; `unseen`: inside a closed pickup. */
  readonly kind: 'hot' | 'ground' | 'link' | 'unseen' | 'out' | 'free' | 'open';
  readonly label: string;
  /** `GY + TQ`; for hot: `ground`, where the two are one net. */
  readonly detail?: string | undefined;
}

export interface LooseLeadPicture {
  readonly lead: LeadPicture;
  readonly net: string | undefined;
  /** `taped off`, `untraced`. */
  readonly remark: string;
  /** What it is soldered to inside, where that is no coil's end: `foil, upper`. */
  readonly inside?: string | undefined;
}

export interface MetalPicture {
  readonly part: string;
  readonly kind: 'baseplate' | 'cover' | 'shield';
  /** `baseplate, nickel silver`. */
  readonly caption: string;
  readonly description: string;
  /** `ground by itself` is a lead of its own to the instrument's ground. */
  readonly net: string | 'ground by itself' | undefined;
  /** The bare drain wire or braid that ties it. */
  readonly lead?: LeadPicture | undefined;
  /** Name of the part it is tied to. */
  readonly tiedTo?: 'baseplate' | 'cover' | 'shield' | undefined;
}

export interface FindingPicture {
  readonly code: string;
  readonly cause: string;
  /** Set where it is told in English to a reader of another language. */
  readonly foreign?: 'en';
  readonly remedy?: string | undefined;
  /** What is likely behind it, or what no meter shows. */
  readonly note?: string | undefined;
  readonly rings: readonly Ring[];
}

/** A place to ring: the joint of a coil's lead with its conductor, the point where its net is joined, a metal part, or a lead without a coil. */
export type Ring =
  | { readonly end: string; readonly at: 'joint' | 'net' }
  | { readonly metal: string }
  | { readonly lead: string };

export type Push = 'hot' | 'ground' | undefined;

export interface VerdictPicture {
  /** In the order of the drawing, top first. */
  readonly rows: readonly {
    readonly coil: string;
    readonly wound: string;
    readonly path: string;
    readonly polarity: Polarity;
    readonly string: Push;
    readonly hum: Push;
  }[];
  readonly signal: VectorsPicture;
  readonly hum: VectorsPicture;
}

export interface VectorsPicture {
  readonly heading: string;
  /** Signed lengths of one unit; empty where a sign is unknown. */
  readonly vectors: readonly { readonly coil: string; readonly length: number }[];
  /** Beside the vectors: the first is bold. */
  readonly remarks: readonly string[];
}
