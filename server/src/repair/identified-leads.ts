/** What to write of leads that readings have identified: what they prove, and what a person may choose where they leave it open. */

import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { insertFirstLines, insertLineAfter, present, replaceAt } from '../checks/edits.ts';
import type { Edit } from '../checks/finding.ts';
import { ownEdits } from '../checks/own-edits.ts';
import { type Identification, type IdentifiedCoil, identifyLeads } from '../estimates/identify/identify.ts';
import { type Coil, type CoilEnd, opposite, type Rotation } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { list } from '../words/text.ts';

export interface LeadFacts {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** False: a choice that no reading decides. */
  readonly proven: boolean;
}

interface Candidate extends LeadFacts {
  /** The ends that are written, by coil. */
  readonly ends: ReadonlyMap<string, { readonly start: string; readonly finish: string }>;
}

export interface IdentifiedLeads {
  readonly pickup: Pickup;
  readonly identification: Identification;
  /** Each checked in the text: it changes no other coil's leads and brings no error. */
  readonly facts: readonly LeadFacts[];
}

export function identifiedLeads(analysis: Analysis, pickup: Pickup): IdentifiedLeads {
  const identification = identifyLeads(quickOf(analysis.bench)(pickup), analysis.bench);
  const candidates = present([
    provenEnds(pickup, identification.coils),
    ...identification.shields.slice(0, 1).map(({ lead }) => shieldFact(pickup, lead)),
    ...choices(pickup, identification.coils),
  ]);
  const facts = candidates.filter((each) => holds(analysis, pickup, each));
  return { pickup, identification, facts: facts.map(({ title, edits, proven }) => ({ title, edits, proven })) };
}

function provenEnds(pickup: Pickup, coils: readonly IdentifiedCoil[]): Candidate | undefined {
  const known = coils.flatMap(({ coil, start, finish }) =>
    start !== undefined && finish !== undefined ? [{ coil, start, finish }] : [],
  );
  if (known.length === 0) return undefined;
  const edits = ownEdits(
    known.map(({ coil, start, finish }) => insertFirstLines(coil.place, endLines(coil, start, finish))),
    pickup,
  );
  const words = known.map(({ coil, start, finish }) => `${coil.name} from ${start} to ${finish}`);
  const ends = new Map(known.map(({ coil, start, finish }) => [coil.name, { start, finish }]));
  return edits && { title: `Write the leads that the readings prove: ${list(words)}`, edits, proven: true, ends };
}

function endLines({ start, finish }: IdentifiedCoil['coil'], startLead: string, finishLead: string): readonly string[] {
  return [...(start ? [] : [`start to ${startLead}`]), ...(finish ? [] : [`finish to ${finishLead}`])];
}

/** The conductor that lies on the metal becomes the shield. */
function shieldFact(pickup: Pickup, lead: string): Candidate | undefined {
  const { conductors, conductorsPlace, shield } = pickup;
  const rest = conductors.filter(({ value }) => canonicalLeadName(value) !== lead);
  if (shield || !conductorsPlace || rest.length === 0 || rest.length === conductors.length) return undefined;
  const edits = ownEdits(
    [
      replaceAt(conductorsPlace, `conductors ${rest.map(({ value }) => value).join(' ')}`),
      insertLineAfter(conductorsPlace, `shield ${lead}`),
    ],
    pickup,
  );
  return edits && { title: `${lead} is the shield: write \`shield ${lead}\``, edits, proven: true, ends: new Map() };
}

/**
 * Either lead may be called the start; the wind then follows from the kick. Where several coils are open, one choice for all of them
 * comes first: a coil that is like another one takes its lines over, and is only said to be otherwise along with it.
 */
function choices(pickup: Pickup, coils: readonly IdentifiedCoil[]): readonly Candidate[] {
  const open = coils.flatMap((each): readonly (readonly Choice[])[] => {
    const { coil, leads, start, windIfFirstIsStart: wound } = each;
    if (!leads || start !== undefined || wound === undefined || coil.wound || coil.spindle) return [];
    const [a, b] = leads;
    return [
      [
        { coil, from: a, onto: b, wound },
        { coil, from: b, onto: a, wound: opposite(wound) },
      ],
    ];
  });
  const firstOfEach = open.flatMap(([first]) => first ?? []);
  const sets = [...(open.length > 1 ? [firstOfEach] : []), ...open.flat().map((choice) => [choice])];
  return sets.flatMap((set) => {
    const edits = ownEdits(
      set.map(({ coil, from, onto, wound }) =>
        insertFirstLines(coil.place, [...endLines(coil, from, onto), `wound ${wound}`]),
      ),
      pickup,
    );
    const words = set.map(
      ({ coil, from, wound }) => `${from} as the start of the ${coil.name} coil, then wound ${wound}`,
    );
    const title = `Choose ${list(words)} (no reading tells start from finish)`;
    const ends = new Map(set.map(({ coil, from, onto }) => [coil.name, { start: from, finish: onto }]));
    return edits ? [{ title, edits, proven: false, ends }] : [];
  });
}

interface Choice {
  readonly coil: Coil;
  readonly from: string;
  readonly onto: string;
  readonly wound: Rotation;
}

/** A coil that is like another one takes its lines over: what is written of one must not be said of the other. */
function holds(analysis: Analysis, pickup: Pickup, { edits, ends }: Candidate): boolean {
  const after = analysis.edited(edits);
  if (!after) return false;
  const errors = ({ findings }: Analysis) => findings.filter(({ severity }) => severity === 'error').length;
  if (errors(after) > errors(analysis)) return false;
  return analysis.model.pickups.every((each) => {
    const now = after.model.pickups.find(({ name }) => name === each.name);
    return each.coils.every((coil, index) => {
      const meant = each === pickup ? ends.get(coil.name) : undefined;
      const changed = now?.coils[index];
      return (['start', 'finish'] as const).every(
        (end) => leadOf(changed, end) === (leadOf(coil, end) ?? meant?.[end]),
      );
    });
  });
}

const leadOf = (coil: Coil | undefined, end: CoilEnd): string | undefined => {
  const lead = coil?.[end]?.value;
  return lead?.to?.value.text ?? lead?.own?.value;
};
