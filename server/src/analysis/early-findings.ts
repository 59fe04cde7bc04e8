/**
 * What can be told of a new text before anything of it is solved: findings of the text itself, those of pickups and instruments that
 * are as they were, and for the others what stood there before, moved along with the text until they are solved.
 */

import { changeBetween, movedSpan } from '../../../grammar/src/text-change.ts';
import { acceptedFindings } from '../checks/accepted.ts';
import type { Finding } from '../checks/finding.ts';
import { firstLine } from '../model/from-syntax.ts';
import type { Analysis } from './analysis-types.ts';
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
  return [...accepted, ...(before ? carried(before, state, known) : [])].sort((a, b) => offsetOf(a) - offsetOf(b));
}

function carried(
  before: Analysis,
  { graph, uri }: FileState,
  known: ReturnType<typeof knownParts>,
): readonly Finding[] {
  const pieces = graph.fileOf(uri)?.pieces;
  if (!pieces) return [];
  const pickups = new Set<string>();
  const instruments = new Set<string>();
  for (const part of known)
    if ('pickup' in part) pickups.add(part.pickup.name);
    else instruments.add(part.instrument.name);
  const isOpen = (finding: Finding): boolean => {
    const { pickup, instrument } = finding.subject;
    if (instrument !== undefined) return isOfCircuit(finding) && !instruments.has(instrument);
    return isOfCircuit(finding) && (pickup === undefined || !pickups.has(pickup));
  };
  const names = namesOf(pieces);
  return before.findings.filter(isOpen).flatMap((finding) => {
    const { chunk, span } = finding.place;
    if (graph.isOwn(chunk)) return [finding];
    const name = declaredName(chunk);
    const now = name && names.get(name.kind)?.get(name.text);
    return now
      ? [
          {
            ...finding,
            place: { chunk: now, span: movedSpan(span, changeBetween(chunk.text, now.text)) ?? firstLine(now).span },
          },
        ]
      : [];
  });
}

/** Found by solving, or said by what was: it stands until that is done again. */
export const isOfCircuit = ({ code, subject: { pickup, instrument } }: Finding): boolean =>
  code === 'accept/unused' || (code !== 'fit/former-state' && (pickup !== undefined || instrument !== undefined));
