/**
 * What the analysis of one version of one file holds. Features, documents, the language server and the command line read it;
 * none of them parses, resolves or computes by itself.
 */
import type { Chunk, FileTree } from '../../../grammar/src/syntax-tree.ts';
import type { CheckFindings } from '../checks/check.ts';
import type { Edit, Finding, Remedy } from '../checks/finding.ts';
import type { JudgedAim } from '../estimates/aims.ts';
import type { FrequencyResponse, PickupEstimates, PositionEstimates } from '../estimates/estimates.ts';
import type { Mismatch } from '../estimates/mismatch.ts';
import type { OutputChange } from '../estimates/output-change.ts';
import type { Played } from '../estimates/position-network.ts';
import type { Bench } from '../model/bench.ts';
import type { Instrument } from '../model/instrument.ts';
import type { FileModel } from '../model/model.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { PhotoLine } from '../model/photographs.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { ShopKind, Things } from '../model/resolver.ts';
import type { PhotoFile } from '../photos/photo-file.ts';
import type { Steps } from '../physics/switching/steps.ts';
import type { Levels } from './levels.ts';

/** A file's content as the host has it. `undefined` from `Host.content` means: not read yet, ask again later. */
export type FileContent =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'unreadable'; readonly reason: string };

/** The one interface through which the analysis sees files. URIs are strings, as LSP writes them. */
export interface Host {
  content(uri: string): FileContent | undefined;
  /** True where the URI lies in the workspace; nothing outside is ever asked for. */
  isInside(uri: string): boolean;
  /** Names of `*.pickup` files near a URI, for the nearest right name of a missing one; may be empty. */
  siblings?(uri: string): readonly string[];
  /** What the file of a photograph is; `undefined`: not read yet, ask again later. A host without it says nothing of photographs. */
  photo?(uri: string): PhotoFile | undefined;
  /** True where sweeps are left out, to see what is computed without them. */
  readonly withoutSweeps?: boolean;
  /** How findings are told whatever the bench says: the wish of the person who reads them. */
  levels?(): Levels;
  /** Paths of curves in the folder of a file and in the folders beside it; may be empty. */
  curvesNear?(uri: string): readonly string[];
  /** Paths of photographs in the folder of a file and in the folders beside it; may be empty. */
  photosNear?(uri: string): readonly string[];
}

/** A photograph of a spec and where its file lies: inside the workspace, or nowhere that is looked at. */
export type PhotoAt =
  | { readonly kind: 'outside' }
  | { readonly kind: 'inside'; readonly uri: string; readonly file: PhotoFile | undefined };

/** A span in a file: UTF-16 offsets. */
export interface FileSpan {
  readonly uri: string;
  readonly start: number;
  readonly end: number;
}

/** Where a piece stands: in which file, from which offset on, and in which form. */
export interface Home {
  readonly uri: string;
  readonly offset: number;
  readonly chunk: Chunk;
}

export interface Analysis {
  readonly uri: string;
  readonly text: string;
  readonly tree: FileTree;
  /** This file and all that it uses, each once, this one first. */
  readonly uris: readonly string[];
  /** Files of curves that its sweeps, and those of files that it uses, name. */
  readonly curveUris: readonly string[];
  /** Files, photographs and curves among them, that the host had not read yet; findings that depend on them are held back. */
  readonly pending: readonly string[];
  readonly model: FileModel;
  /** The bench in force: one in the file and all it uses. */
  readonly bench: Bench | undefined;
  /** Names of a kind that this file may use, its own and those of the files it uses. */
  namesInScope<K extends ShopKind>(kind: K): readonly Things[K][];
  readonly pickups: readonly PickupAnalysis[];
  readonly instruments: readonly InstrumentAnalysis[];
  /** Findings whose place lies in this file, in order of place. */
  readonly findings: readonly Finding[];
  /** These and those that need heavy numbers: on first use, some tens of milliseconds an instrument. */
  allFindings(): readonly Finding[];
  /** These and those that need heavy numbers, as far as they have been worked out before: they cost nothing. */
  knownFindings(): readonly Finding[];
  /** The file that the line of a photograph names, from the file that the line is written in. */
  photoAt(line: PhotoLine): PhotoAt;
  /** Where a place lies now. `undefined` for a place of a file that is not part of this analysis. */
  locate(place: Place): FileSpan | undefined;
  /** Where a piece stands now, and the form that it has there: what all of its places follow from. */
  homeOf(chunk: Chunk): Home | undefined;
  /** The text of this file or of one that it uses. */
  textOf(uri: string): string | undefined;
  /** The same file with changes made to it or to files it uses, analysed anew; `undefined` where they cannot be placed. */
  edited(edits: readonly Edit[]): Analysis | undefined;
  /** A file as it would be with these texts in place of what stands at their addresses, or of nothing. */
  withTexts(texts: ReadonlyMap<string, string>, uri: string): Analysis;
  /** What a file that this one uses, or this one, takes in: itself and all that it uses. */
  reach(uri: string): readonly string[];
  /** All pickups that the file may name, those of the files that it uses among them. */
  pickupsInSight(): readonly Pickup[];
  /** Remedies of a finding that hold: applied to the text, everything analysed again, the finding gone and no new one come. */
  verifiedFixes(finding: Finding): readonly Remedy[];
}

/** What can be told before the file is solved. */
export type EarlyFindings = Pick<Analysis, 'uri' | 'findings' | 'locate' | 'homeOf'>;

export interface PickupAnalysis extends CheckFindings {
  readonly pickup: Pickup;
  readonly netlist: PickupNetlist;
  /** Resistances, turns, phase and hum by turn-area: cheap, ready with the findings. */
  readonly quick: PickupEstimates;
  /**
   * All numbers, inductances and resonance included: computed on first use, remembered by value. `cableF`: farad of cable instead of
   * the default load's.
   */
  estimates(cableF?: number): PickupEstimates;
  /** What its target asks for beside what it comes to, in the order of the reference; computed on first use. */
  aims(): readonly JudgedAim[];
  /** What its coils give to the output beside those of another state of it; `undefined` where that is not known of both. */
  outputSince(before: Pickup): OutputChange | undefined;
  /** What coils of unequal turn-area cost beside matched ones, under the same load; `undefined` where they are not. */
  mismatch(cableF?: number): Mismatch | undefined;
}

export interface InstrumentAnalysis extends CheckFindings {
  /** Its positions as they are wired, where a wiring is written. */
  readonly instrument: Instrument;
  readonly written: Instrument;
  /** What its late findings take long for, in steps: they are quick afterwards. */
  preparingLate(): Steps<void>;
  /** Every selector position with the pots at 0..10; computed on first use, remembered by value. */
  positions(played?: Played): readonly PositionEstimates[];
  /** The response of a position solved at these frequencies; `undefined` where it is not known. */
  response(key: string, frequencyHz: readonly number[], played?: Played): FrequencyResponse | undefined;
}

export type { Played };
