/** The targets of a pickup beside what it comes to, for hover, report and bench view. */
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { type Place, samePlace } from '../model/place.ts';
import { aimWords, reachedText, toleranceWords, verdictWords } from '../words/aim-words.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { basisWords } from '../words/number-text.ts';
import type { EstimateRow } from './estimate-rows.ts';
import type { RichText } from './rich-text.ts';
import type { SyntaxAt } from './syntax-at.ts';

export interface AimRow extends EstimateRow {
  /** `reached`, `missed, 12 % above`, `not decidable …`; empty where there is nothing to judge yet. */
  readonly verdict: string;
  readonly place: Place;
}

export const aimRows = ({ aims }: PickupAnalysis, t = ENGLISH): readonly AimRow[] =>
  aims().map((judged) => ({
    name: `${aimWords(judged.aim, t)}${toleranceWords(judged.aim, t)}`,
    value: reachedText(judged, t),
    verdict: judged.reached === undefined ? '' : verdictWords(judged, t),
    restsOn: judged.reached ? basisWords(judged.reached, t) : '',
    place: judged.aim.place,
  }));

/** As a table of a hover. */
export function aimTable(rows: readonly AimRow[]): RichText {
  const told = rows.map(({ name, value, verdict, restsOn }) => ({
    name,
    value: verdict === '' ? value : `${value}: ${verdict}`,
    restsOn,
  }));
  return told.length === 0 ? [] : [{ kind: 'values', rows: told }];
}

/** Over a line of a target: what the build comes to. */
export function writtenAim(analysis: Analysis, { placed, fact, blocks }: SyntaxAt): RichText {
  if (!fact || blocks.at(-1)?.keyword.text !== 'target') return [];
  const line: Place = { chunk: placed.chunk, span: fact.span };
  const owner = analysis.pickups.find(({ pickup }) => pickup.place.chunk === placed.chunk);
  return owner ? aimTable(aimRows(owner).filter(({ place }) => samePlace(place, line))) : [];
}
