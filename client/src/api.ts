import type { Event, Range, Uri } from 'vscode';

/**
 * What another extension may ask of this one:
 *
 *     const pickup = await extensions.getExtension<PickupSpecApi>('pickup-spec.pickup-spec')?.activate();
 *     const { findings } = await pickup.check(uri);
 *
 * Nothing is changed by it, and only specs of the open folders are read. Each answer that could not be given says why in `problem`.
 * Within a version, things are added and none is taken away.
 */
export interface PickupSpecApi {
  readonly apiVersion: 1;
  /** All that is found of a spec, open or not, as it is in the editor now, unsaved changes included. */
  check(uri: Uri): Promise<CheckedSpec>;
  /** What is computed of a spec, in words and numbers as the bench view prints them. */
  report(uri: Uri): Promise<ReportedSpec>;
  /** Specs whose findings, as the editor shows them, have changed. */
  readonly onDidChangeFindings: Event<readonly Uri[]>;
}

export interface CheckedSpec {
  readonly findings: readonly SpecFinding[];
  readonly problem?: string;
}

export interface SpecFinding {
  /** `phase/coils-cancel`. */
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  readonly message: string;
  readonly range: Range;
}

export interface ReportedSpec {
  readonly subjects: readonly ReportedSubject[];
  readonly problem?: string;
}

export interface ReportedSubject {
  readonly kind: 'pickup' | 'instrument';
  readonly name: string;
  readonly title: string;
  /** One of a pickup, one for each switch position of an instrument. */
  readonly tables: readonly ReportedTable[];
}

export interface ReportedTable {
  readonly caption: string;
  /** `name` has the unit; `value` its ±, one standard deviation; `restsOn` what it is known from. */
  readonly rows: readonly { readonly name: string; readonly value: string; readonly restsOn: string }[];
}
