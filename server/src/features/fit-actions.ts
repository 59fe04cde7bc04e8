/**
 * How a winding that does not fit may be mended without fewer turns: finer wire or a deeper bobbin of the shelf, with what that does to
 * resistance and resonance. Another part than was typed is a choice of its own, never a quick fix.
 */
import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { replaceAt } from '../checks/edits.ts';
import type { Edit, Finding } from '../checks/finding.ts';
import { ownEdits } from '../checks/own-edits.ts';
import { benchRoomC } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { wireWords } from '../proposal/build-words.ts';
import { bobbinOptions, shelfOf, wireOptions } from '../proposal/shelf.ts';
import { printNumber, printValue } from '../quantities/print.ts';
import { findingSpan } from './diagnostics.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';

const CODE = 'winding/does-not-fit';
/** Of each kind, the nearest to what is stated. */
const MOST_OFFERED = 3;

export const fitActions = (analysis: Analysis, span: Span): readonly Refactoring[] =>
  analysis.findings.flatMap((finding) => {
    const at = finding.code === CODE ? findingSpan(analysis, finding) : undefined;
    if (!at || at.start > span.end || at.end < span.start) return [];
    const owner = analysis.pickups.find(({ pickup }) => pickup.name === finding.subject.pickup);
    const coil = owner?.pickup.coils.find(({ name }) => finding.subject.coils?.includes(name));
    return owner && coil ? insteadOf(analysis, owner, coil, finding) : [];
  });

function insteadOf(analysis: Analysis, owner: PickupAnalysis, coil: Coil, finding: Finding): readonly Refactoring[] {
  const shelf = shelfOf(analysis);
  const { pickup } = owner;
  const wires = wireOptions(shelf, pickup, coil).flatMap(({ wire, spool, isUndeclared }) =>
    isUndeclared || wire === coil.wire || !coil.wirePlace
      ? []
      : [
          {
            what: `${wireWords(wire)}${spool ? ` from spool ${spool.name}` : ''}`,
            edit: replaceAt(coil.wirePlace, spool ? `spool ${spool.name}` : `wire ${wire.name}`),
          },
        ],
  );
  const depthOf = ({ window }: { readonly window: (typeof shelf.bobbins)[number]['window'] }) =>
    window?.value.depth.si ?? 0;
  const bobbins = bobbinOptions(shelf, pickup, coil)
    .filter((bobbin) => coil.bobbin && depthOf(bobbin) > depthOf(coil.bobbin))
    .sort((a, b) => depthOf(a) - depthOf(b))
    .flatMap((bobbin) =>
      coil.bobbinPlace ? [{ what: bobbin.name, edit: replaceAt(coil.bobbinPlace, `bobbin ${bobbin.name}`) }] : [],
    );
  return [wires, bobbins].flatMap((each) =>
    each.flatMap(({ what, edit }) => offered(analysis, owner, coil, { finding, what, edit })).slice(0, MOST_OFFERED),
  );
}

interface Change {
  readonly finding: Finding;
  readonly what: string;
  readonly edit: Edit;
}

/** Only where the whole spec, analysed again, no longer has the finding and no new error or warning. */
function offered(
  analysis: Analysis,
  before: PickupAnalysis,
  coil: Coil,
  { finding, what, edit }: Change,
): readonly Refactoring[] {
  const edits = ownEdits([edit], before.pickup);
  const after = edits && analysis.edited(edits);
  const now = after?.pickups.find(({ pickup }) => pickup.name === before.pickup.name);
  const written = edits && locateEdits(analysis, edits);
  if (!after || !now || !written) return [];
  const told = new Set(analysis.findings.map(keyOf));
  const isWorse = after.findings.some(
    (each) => (each.severity === 'error' || each.severity === 'warning') && !told.has(keyOf(each)),
  );
  if (isWorse || after.findings.some((each) => keyOf(each) === keyOf(finding))) return [];
  const filled = now.quick.coils.get(coil.name)?.windowFilled?.value;
  const fits = filled === undefined ? '' : ` (fits, ${printNumber(100 * filled, 0)}\u202F% of the window)`;
  return [{ title: `Take ${what} instead${fits}: ${changes(analysis, before, now).join(', ')}`, edits: written }];
}

const keyOf = ({ code, subject: { pickup, coils } }: Finding): string => JSON.stringify([code, pickup, coils]);

/** `resistance 7.9 to 9.6 kΩ`, `resonance 3.4 to 3.3 kHz` */
function changes({ bench }: Analysis, before: PickupAnalysis, now: PickupAnalysis): readonly string[] {
  const [was, is] = [before.estimates(), now.estimates()];
  const atRoom = copperTemperatureFactor(benchRoomC(bench));
  const ohms = [was, is].map(({ resistance20COhm }) => resistance20COhm && resistance20COhm.value * atRoom);
  const hertz = [was, is].map(({ resonanceHz }) => resonanceHz?.value);
  return [...change('resistance', 'resistance', ohms, 'kohm'), ...change('resonance', 'frequency', hertz, 'kHz')];
}

function change(
  what: string,
  dimension: 'resistance' | 'frequency',
  [was, is]: readonly (number | null | undefined)[],
  unit: string,
): readonly string[] {
  if (!was || !is) return [];
  const [from, to] = [was, is].map((value) => printValue({ value, dimension, unit, digits: 3 }));
  return [`${what} ${from} to ${to}`];
}
