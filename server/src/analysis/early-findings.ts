/**
 * What can be told of a new text before anything of it is solved: findings of the text itself, those of pickups and instruments that
 * are as they were, and for the others what stood there before, moved along with the text until they are solved.
 */

import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { changeBetween, movedSpan, type TextChange } from '../../../grammar/src/text-change.ts';
import { acceptedFindings } from '../checks/accepted.ts';
import type { Finding, Subject } from '../checks/finding.ts';
import { firstLine } from '../model/from-syntax.ts';
import type { Place } from '../model/place.ts';
import type { Analysis, InstrumentAnalysis, PickupAnalysis } from './analysis-types.ts';
import { createFaults } from './faults.ts';
import { type FileState, knownParts, pickupsInScope, wiresInScope } from './file-state.ts';
import { fittedFormers } from './former-states.ts';
import { type NamedPhoto, photoFindings, photosIn } from './photos.ts';
import { fileWideFindings, pieceFindings } from './text-findings.ts';
import { declaredName, namesOf } from './use-graph.ts';

/** Findings for which nothing is solved. */
export const unsolvedFindings = (state: FileState, photos: readonly NamedPhoto[]): readonly Finding[] => [
  ...state.unread,
  ...state.models.flatMap((each) => pieceFindings(each, () => wiresInScope(state))),
  ...fileWideFindings(state),
  ...(state.model.instruments.length > 0 ? fittedFormers(state.model.instruments, pickupsInScope(state)) : []),
  ...photoFindings(photos, state.host),
];

export function earlyFindings(state: FileState, before: Analysis | undefined): readonly Finding[] {
  const { model, graph } = state;
  const faults = createFaults();
  const known = knownParts(state, faults);
  const found = [...faults.found, ...unsolvedFindings(state, photosIn(model, state.uri, state.host))];
  for (const part of known) {
    found.push(...part.findings);
    if (part.lateAreKnown()) found.push(...part.lateFindings());
  }
  // What else an acceptance covers is not known yet: which of them are over is said by what stood before.
  const accepted = acceptedFindings(found, [...model.pickups, ...model.instruments], false).filter(
    ({ code }) => code !== 'accept/unused',
  );
  const offsetOf = ({ place }: Finding) => (graph.homeOf(place.chunk)?.offset ?? 0) + place.span.start;
  const settled = [...known.map(subjectOf), ...faults.found.map(({ subject }) => subject)];
  const stood = before ? carried(before, state, settled) : [];
  return [...accepted, ...stood].sort((a, b) => offsetOf(a) - offsetOf(b));
}

const subjectOf = (part: PickupAnalysis | InstrumentAnalysis): Subject =>
  'pickup' in part ? { pickup: part.pickup.name } : { instrument: part.instrument.name };

/** What stood of all but the `settled` ones, at its places of now. */
function carried(before: Analysis, { graph, uri }: FileState, settled: readonly Subject[]): readonly Finding[] {
  const pieces = graph.fileOf(uri)?.pieces;
  if (!pieces) return [];
  const pickups = new Set(settled.map(({ pickup }) => pickup));
  const instruments = new Set(settled.map(({ instrument }) => instrument));
  const isOpen = (finding: Finding): boolean => {
    const { pickup, instrument } = finding.subject;
    if (!isOfCircuit(finding)) return false;
    if (instrument !== undefined) return !instruments.has(instrument);
    return pickup === undefined || !pickups.has(pickup);
  };
  const names = namesOf(pieces);
  const changes = new Map<Chunk, Change | undefined>();
  const changeOf = (chunk: Chunk): Change | undefined => {
    if (changes.has(chunk)) return changes.get(chunk);
    const name = declaredName(chunk);
    const now = name && names.get(name.kind)?.get(name.text);
    const change = now && { now, change: changeBetween(chunk.text, now.text) };
    changes.set(chunk, change);
    return change;
  };
  const placeNow = (place: Place): Place | undefined => {
    if (graph.homeOf(place.chunk)) return place;
    const changed = changeOf(place.chunk);
    const span = changed && (movedSpan(place.span, changed.change) ?? firstLine(changed.now).span);
    return span && { chunk: changed.now, span };
  };
  return before.findings.filter(isOpen).flatMap((finding) => {
    const place = placeNow(finding.place);
    if (!place) return [];
    const related = finding.related.flatMap((each) => {
      const now = placeNow(each.place);
      return now ? [{ ...each, place: now }] : [];
    });
    const stands = place === finding.place && related.every((each, at) => each.place === finding.related[at]?.place);
    return stands && related.length === finding.related.length ? [finding] : [{ ...finding, place, related }];
  });
}

/** What has become of a piece that was typed in. */
interface Change {
  readonly now: Chunk;
  readonly change: TextChange;
}

/** Found by solving, or said by what was: it stands until that is done again. */
export const isOfCircuit = ({ code, subject: { pickup, instrument } }: Finding): boolean =>
  code === 'accept/unused' || (code !== 'fit/former-state' && (pickup !== undefined || instrument !== undefined));
