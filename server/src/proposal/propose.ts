/**
 * Builds that reach a pickup's target with what lies on the shelf. They are searched by the models at hand; each one is then written into
 * the text, analysed again as any text is, and told only if nothing new is wrong with it.
 */
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import type { Edit, Finding } from '../checks/finding.ts';
import { type Aim, aimsOf, type JudgedAim, judgedAims } from '../estimates/aims.ts';
import { USUAL_TURNS } from '../estimates/common-practice.ts';
import { pickupMagnetics } from '../estimates/magnetics.ts';
import { type QuickEstimates, quickEstimates } from '../estimates/quick.ts';
import type { Bench } from '../model/bench.ts';
import { barPole } from '../model/coil.ts';
import { pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { modelAtHand, type WoundCoils } from './at-hand.ts';
import { type BarChoice, type Build, buildEdits, buildOf, builtPickup } from './build.ts';
import { type Candidate, candidatesOf } from './candidates.ts';
import { heldBy, type InTheWay, otherwise } from './in-the-way.ts';
import { jointOdds } from './odds.ts';
import { type Openings, openingsOf } from './openings.ts';
import { type Cost, type SearchProblem, search } from './search.ts';
import { type Shelf, shelfOf } from './shelf.ts';
import { inductancesPerTurns } from './winding-curve.ts';

export interface ProposedBuild {
  readonly build: Build;
  /** Written into the spec, what the pickup comes to. */
  readonly pickup: PickupAnalysis;
  readonly judged: readonly JudgedAim[];
  /** That all targets come out within their tolerances, 0 to 1. */
  readonly odds: number;
  readonly cost: Cost;
  /** Findings that it brings, none of them an error or a warning but of a spool that is too short. */
  readonly brings: readonly Finding[];
  readonly edits: readonly Edit[];
}

export interface Proposal {
  readonly pickup: Pickup;
  readonly openings: Openings;
  readonly builds: readonly ProposedBuild[];
  /** Where none reaches the target with what is at hand. */
  readonly inTheWay: InTheWay | undefined;
}

/** Why there is nothing to propose. */
export type NoProposal = 'no target' | 'made already' | 'nothing left out' | 'nothing to choose from';

export function proposeBuilds(analysis: Analysis, { pickup }: Pick<PickupAnalysis, 'pickup'>): Proposal | NoProposal {
  const quick = quickOf(analysis.bench)(pickup);
  if (aimsOf(pickup).length === 0) return 'no target';
  if (pickup.made) return 'made already';
  const openings = openingsOf(quick);
  if (!openings) return 'nothing left out';
  const proposing = { analysis, pickup, quick, shelf: shelfOf(analysis) };
  const asked = askFor(proposing, openings);
  if (!asked) return 'nothing to choose from';
  const written = writer(proposing, asked.candidates);
  const searched = search({ ...asked, holds: ({ candidate, turns }) => written(candidate, turns) !== undefined });
  const builds = searched.builds.flatMap(({ candidate, turns, cost }) => {
    const each = written(candidate, turns);
    return each ? [{ ...each, cost }] : [];
  });
  const reaching = searched.builds.filter(({ reaches }) => reaches);
  const isAtHand = reaching.some(({ cost }) => cost.buys === 0);
  return {
    pickup,
    openings,
    builds,
    inTheWay: isAtHand
      ? undefined
      : {
          ...heldBy(asked, searched),
          otherwise: reaching.length > 0 ? undefined : otherwise(openings, (wider) => askFor(proposing, wider)),
        },
  };
}

interface Proposing {
  readonly analysis: Analysis;
  readonly pickup: Pickup;
  readonly quick: QuickEstimates;
  readonly shelf: Shelf;
}

const NEEDS_INDUCTANCE: ReadonlySet<Aim['kind']> = new Set(['inductance', 'resonance', 'peak']);

/** What is searched; `undefined` where there is nothing to choose from. */
function askFor(
  { analysis: { bench }, pickup, quick, shelf }: Proposing,
  openings: Openings,
): Omit<SearchProblem, 'holds'> | undefined {
  const aims = aimsOf(pickup);
  const needsInductance = aims.some(({ kind }) => NEEDS_INDUCTANCE.has(kind));
  const perTurns = needsInductance ? inductancesPerTurns() : undefined;
  const candidates = candidatesOf(openings, { pickup, aims, shelf, perTurns });
  const [first] = candidates;
  if (!first) return undefined;
  const fixed = fixedCoils(quick, openings, needsInductance);
  return {
    aims,
    candidates,
    fixed,
    model: modelAtHand({ ...referenceOf(first, pickup, bench, fixed), bench, needsInductance }),
    analysed: (candidate, turns) => judgedOf(pickup, bench, buildOf(candidate, turns, barsFor(pickup, candidate)[0])),
  };
}

/** Each build as it stands in the text, made once. */
function writer({ analysis, pickup }: Proposing, candidates: readonly Candidate[]) {
  const written = new Map<string, ProposedBuild | undefined>();
  return (candidate: Candidate, turns: readonly number[]): ProposedBuild | undefined => {
    const key = JSON.stringify([candidates.indexOf(candidate), turns]);
    if (!written.has(key))
      written.set(key, writtenBuild(analysis, pickup, barsFor(pickup, candidate), candidate, turns));
    return written.get(key);
  };
}

function judgedOf(pickup: Pickup, bench: Bench | undefined, build: Build): readonly JudgedAim[] {
  const built = builtPickup(pickup, build);
  return judgedAims(quickEstimates(pickupNetlist(built), bench), bench);
}

/** Which way round a bar lies: as a coil's polarity says, else either way, of which the analysis keeps one. */
function barsFor(pickup: Pickup, { magnet }: Candidate): readonly (BarChoice | undefined)[] {
  const toward = pickup.coils.find(({ polarity }) => polarity) ?? pickup.coils[0];
  if (!magnet || !toward) return [undefined];
  const bar = (pole: BarChoice['pole']): BarChoice => ({ bar: magnet, pole, toward });
  if (toward.polarity) return [bar(barPole(toward.polarity.value))];
  return [bar('north'), bar('south')];
}

/** Of coils that leave nothing out, what is known of them. */
export function fixedCoils(
  quick: QuickEstimates,
  { coils }: Pick<Openings, 'coils'>,
  needsInductance: boolean,
): WoundCoils {
  const open = new Set(coils.map(({ coil }) => coil));
  const magnetics = needsInductance ? pickupMagnetics(quick) : undefined;
  return new Map(
    [...quick.windings].flatMap(([coil, winding]) =>
      open.has(coil)
        ? []
        : [
            [
              coil.name,
              {
                ohm: winding.resistance20COhm?.value ?? 0,
                henry: magnetics?.coils.get(coil)?.totalH.value ?? 1,
                farad: magnetics?.coils.get(coil)?.capacitances.windingF.value ?? 0,
                areaM2: winding.turnAreaM2?.value ?? 0,
                kg: 0,
                turns: winding.turns?.value ?? 0,
              },
            ] as const,
          ],
    ),
  );
}

/** The first candidate with usual turns, solved. */
function referenceOf(candidate: Candidate, pickup: Pickup, bench: Bench | undefined, fixed: WoundCoils) {
  const turns = candidate.options.map(({ opening }, index) =>
    opening.turns
      ? USUAL_TURNS * Math.exp(candidate.logRatios[index] ?? 0)
      : (opening.coil.turns?.value.si ?? USUAL_TURNS),
  );
  const build = buildOf(candidate, turns, barsFor(pickup, candidate)[0]);
  const quick = quickEstimates(pickupNetlist(builtPickup(pickup, build)), bench);
  const coils: WoundCoils = new Map([
    ...fixed,
    ...candidate.options.map(({ opening, curve }, index) => {
      const count = turns[index] ?? USUAL_TURNS;
      return [opening.coil.name, { ...curve.at(Math.log(count)), turns: count }] as const;
    }),
  ]);
  return { quick, coils };
}

/** The build in the text, with the first way round of its bar that holds. */
function writtenBuild(
  analysis: Analysis,
  pickup: Pickup,
  bars: readonly (BarChoice | undefined)[],
  candidate: Candidate,
  turns: readonly number[],
): ProposedBuild | undefined {
  for (const bar of bars) {
    const build = buildOf(candidate, turns, bar);
    const edits = buildEdits(pickup, build);
    const after = edits && analysis.edited(edits);
    const now = after?.pickups.find((each) => each.pickup.name === pickup.name);
    if (!edits || !after || !now) continue;
    const come = broughtBy(analysis, after);
    if (come.some(isSerious)) continue;
    const brings = come.filter(({ subject }) => subject.pickup === pickup.name && subject.position === undefined);
    const judged = now.aims();
    return { build, pickup: now, judged, odds: jointOdds(judged), brings, edits, cost: { buys: 0, kg: 0, unlike: 0 } };
  }
  return undefined;
}

const isSerious = ({ severity, code }: Finding): boolean =>
  (severity === 'error' || severity === 'warning') && code !== 'winding/spool-too-short';

const keyOf = ({ code, subject: { pickup, instrument, position } }: Finding): string =>
  [code, pickup, instrument, position].join('|');

/** What was not told before. */
function broughtBy(before: Analysis, after: Analysis): readonly Finding[] {
  const told = new Set(before.findings.map(keyOf));
  return after.findings.filter((finding) => !told.has(keyOf(finding)) && !finding.code.startsWith('target/'));
}
