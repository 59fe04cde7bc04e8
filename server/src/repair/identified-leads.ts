import { present } from '../../../grammar/values/present.ts';
/** What to write of leads that readings have identified: what they prove, and what a person may choose where they leave it open. */

import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { insertFirstLines, insertLastLines, insertLineAfter, replaceAt } from '../checks/edits.ts';
import type { Edit, Finding } from '../checks/finding.ts';
import { ownEdits } from '../checks/own-edits.ts';
import { type Identification, type IdentifiedCoil, identifyLeads } from '../estimates/identify/identify.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { COIL_ENDS, type Coil, type CoilEnd, opposite, type Rotation } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { ENGLISH, type Language, type PlainText } from '../words/languages/language.ts';
import { endLead } from '../words/parts.ts';
import { list } from '../words/text.ts';

export interface LeadFacts {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** False: a choice that no reading decides. */
  readonly proven: boolean;
  /** What of it is a choice, or still open. */
  readonly hint?: string;
  /** It says what to solder: no reading is wanted for that any more. */
  readonly isHookup?: boolean;
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

export function identifiedLeads(analysis: Analysis, pickup: Pickup, t = ENGLISH): IdentifiedLeads {
  const quick = quickOf(analysis.bench)(pickup);
  const identification = identifyLeads(quick, analysis.bench);
  const candidates = present([
    provenEnds(pickup, identification.coils, t),
    ...identification.shields.slice(0, 1).map(({ lead }) => shieldFact(pickup, lead, t)),
    hookupToSolder(quick, identification, t),
    ...choices(pickup, identification.coils, t),
  ]);
  const facts = candidates.filter((each) => holds(analysis, pickup, each));
  return { pickup, identification, facts: facts.map(({ ends: _, ...fact }) => fact) };
}

function provenEnds(pickup: Pickup, coils: readonly IdentifiedCoil[], t: Language): Candidate | undefined {
  const known = coils.flatMap(({ coil, start, finish }) =>
    start !== undefined && finish !== undefined ? [{ coil, start, finish }] : [],
  );
  if (known.length === 0) return undefined;
  const edits = ownEdits(
    known.map(({ coil, start, finish }) => insertFirstLines(coil.place, endLines(coil, start, finish))),
    pickup,
  );
  const words = known.map(({ coil, start, finish }) => t('{0} from {1} to {2}', coil.name, start, finish));
  const ends = new Map(known.map(({ coil, start, finish }) => [coil.name, { start, finish }]));
  const title = t('Write the leads that the readings prove: {0}', list(words, t('and')));
  return edits && { title, edits, proven: true, ends };
}

function endLines({ start, finish }: IdentifiedCoil['coil'], startLead: string, finishLead: string): readonly string[] {
  return [...(start ? [] : [`start to ${startLead}`]), ...(finish ? [] : [`finish to ${finishLead}`])];
}

/**
 * Two coils in series and in phase, as their kicks prove it: the plus of one with the minus of the other. The lower coil of a stack goes
 * the other way, for hum. Neither needs to know which end is the start.
 */
function hookupToSolder(quick: QuickEstimates, { coils, shields }: Identification, t: Language): Candidate | undefined {
  const { pickup } = quick.netlist;
  const [first, second] = pickup.coils.map((coil) => plusAndMinus(quick, coil, coils));
  if (pickup.hookup || pickup.coils.length !== 2 || !first || !second) return undefined;
  if (pickup.coils.some(({ serves }) => serves)) return undefined;
  // A lead that both coils share joins them already: the coil whose plus it is not lies on hot.
  const [upper, lower] = first[0] === second[1] ? [second, first] : [first, second];
  const shared = upper[1] === lower[0] ? upper[1] : undefined;
  if (new Set([...upper, ...lower]).size < (shared === undefined ? 4 : 3)) return undefined;
  const shield = pickup.shield?.value ?? shields[0]?.lead;
  const ground = [lower[1], ...(shield === undefined ? [] : [shield])];
  const joint = shared === undefined ? `link ${upper[1]} ${lower[0]}` : `free ${shared}`;
  const lines = [`hot ${upper[0]}`, joint, `ground ${ground.join(' ')}`];
  const edit = insertLastLines(pickup.place, ['hookup {', ...lines.map((line) => `  ${line}`), '}']);
  const edits = edit && ownEdits([edit], pickup);
  const middle = shared === undefined ? t('{0} with {1}', upper[1], lower[0]) : t('{0} taped off', shared);
  const title = t('Solder in series, in phase: hot {0}, {1}, ground {2}', upper[0], middle, list(ground, t('and')));
  const choice = t(
    'Which coil lies on hot, and which way round both are together, is a choice: hear it beside the other pickups.',
  );
  const hint = `${choice} ${t(humHint(pickup))}`;
  return edits && { title, edits, proven: true, hint, isHookup: true, ends: new Map() };
}

/** Plus first: the lead that reads positive as steel comes near; for the lower coil of a stack the other one. */
function plusAndMinus(
  { netlist, signs }: QuickEstimates,
  coil: Coil,
  found: readonly IdentifiedCoil[],
): readonly [string, string] | undefined {
  const open = found.find((each) => each.coil === coil);
  const windPole = signs.find((each) => each.coil === coil)?.windPole?.sign;
  const leads = open ? open.leads : ([endLead(netlist, coil, 'start'), endLead(netlist, coil, 'finish')] as const);
  const firstOnApproach = open ? open.firstOnApproach : windPole;
  if (!leads || firstOnApproach === undefined) return undefined;
  const [a, b] = leads;
  return (firstOnApproach === 1) === (coil.below === undefined) ? [a, b] : [b, a];
}

function humHint({ coils, barMagnet, readings }: Pickup): PlainText {
  if (coils.some(({ below }) => below)) return 'Hum then cancels: the lower coil lies on the same poles.';
  const compass = readings.flatMap(({ lines }) => lines.filter((line) => line.kind === 'compass'));
  const shown = coils.map(
    ({ name, polarity }) => polarity?.value ?? compass.findLast(({ coil }) => coil.text === name)?.shows,
  );
  if (barMagnet || (shown.every((each) => each !== undefined) && shown[0] !== shown[1]))
    return 'The poles are unlike, so its hum cancels.';
  return shown.every((each) => each !== undefined)
    ? 'The poles are alike, so its hum adds: no wiring of these coils changes that.'
    : 'Whether its hum cancels, a compass over each coil tells: it does where their poles are unlike.';
}

/** The conductor that lies on the metal becomes the shield. */
function shieldFact(pickup: Pickup, lead: string, t: Language): Candidate | undefined {
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
  const title = t('{0} is the shield: write `shield {0}`', lead);
  return edits && { title, edits, proven: true, ends: new Map() };
}

/**
 * Either lead may be called the start; the wind then follows from the kick. Where several coils are open, one choice for all of them
 * comes first: a coil that is like another one takes its lines over, and is only said to be otherwise along with it.
 */
function choices(pickup: Pickup, coils: readonly IdentifiedCoil[], t: Language): readonly Candidate[] {
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
    const words = set.map(({ coil, from, wound }) =>
      t('{0} as the start of the {1} coil, then wound {2}', from, coil.name, t(wound)),
    );
    const title = t('Choose {0} (no reading tells start from finish)', list(words, t('and')));
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
function holds(analysis: Analysis, pickup: Pickup, { edits, ends, isHookup }: Candidate): boolean {
  const after = analysis.edited(edits);
  if (!after) return false;
  // Poles alike hum however they are soldered: the hint of the joints says so.
  const counts = ({ code, severity }: Finding) => severity === 'error' && !(isHookup && code === 'hum/not-cancelled');
  const errors = ({ findings }: Analysis): number => findings.filter(counts).length;
  if (errors(after) > errors(analysis)) return false;
  return analysis.model.pickups.every((each) => {
    const now = after.model.pickups.find(({ name }) => name === each.name);
    return each.coils.every((coil, index) => {
      const meant = each === pickup ? ends.get(coil.name) : undefined;
      const changed = now?.coils[index];
      return COIL_ENDS.every((end) => leadOf(changed, end) === (leadOf(coil, end) ?? meant?.[end]));
    });
  });
}

const leadOf = (coil: Coil | undefined, end: CoilEnd): string | undefined => {
  const lead = coil?.[end]?.value;
  return lead?.to?.value.text ?? lead?.own?.value;
};
