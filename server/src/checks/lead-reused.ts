import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { COIL_ENDS, type Coil, type CoilEnd } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Stated } from '../model/place.ts';
import type { Language } from '../words/languages/language.ts';
import { listIn } from '../words/text.ts';
import type { Found } from './check.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const leadReused = definePickupCheck({
  code: 'lead/reused',
  severity: 'error',
  yieldsTo: ['lead/undeclared'],
  run: (context) => {
    const { netlist } = context;
    const twice = netlist.reused.filter(({ why }) => why === 'brought out twice');
    // A lead of hot and ground at once is a shorted output, and a coil's two ends in one net a shorted coil: told there.
    const shorted = netlist.hot !== undefined && netlist.hot === netlist.ground;
    const told = twice.length > 0 ? twice : shorted ? [] : netlist.reused;
    const ofCable = endsOfCable(context);
    const [first] = ofCable;
    const others = told.filter(({ name }) => !ofCable.some(({ own }) => isSame(own.value, name)));
    return [
      ...(first ? [alsoOfCable(first, ofCable, context)] : []),
      ...others.map((each) => ({
        ...(each.why === 'in two joints'
          ? {
              what: (t: Language) =>
                t('{0} is named in two joints; a lead is soldered once, or the two joints are one.', each.name),
              action: (t: Language) => t('Name it in one of them, or make one joint of the two.'),
            }
          : {
              what: (t: Language) =>
                t('Two parts bring out a lead called {0}, so a joint that names it could mean either.', each.name),
              action: (t: Language) => t('Name the ends of the coils in its place.'),
              remedies: () => nameTheEnds(context, each.name),
            }),
        place: each.place,
        related: [{ message: (t: Language) => t('{0} for the first time', each.name), place: each.first }],
        subject: { nodes: [`lead:${canonicalLeadName(each.name)}`] },
      })),
    ];
  },
});

/** Who writes one end of a coil by the conductor that it goes to writes them all so: told once. */
function alsoOfCable(first: NamedEnd, ends: readonly NamedEnd[], { netlist }: PickupContext): Found {
  const lead = netlist.leads.get(canonicalLeadName(first.own.value));
  return {
    what: (t) =>
      t('The cable and the coils both bring out {0}, so a joint that names one could mean either.', named(t, ends)),
    action: (t) =>
      t(
        'Where the end of the coil is soldered to that lead of the cable, say so (`{0}`); where it leaves the pickup by itself, the cable has none of that name.',
        soldered(first),
      ),
    place: first.own.place,
    related: lead ? { message: (t) => t('{0} for the first time', first.own.value), place: lead.place } : [],
    remedies: () =>
      remedy(
        (t) => t('Soldered to the cable: {0}', ends.map((each) => `\`${soldered(each)}\``).join(', ')),
        ends.map(({ own }) => replaceAt(own.place, `to ${own.value}`)),
        true,
      ),
    subject: { nodes: ends.map(({ own }) => `lead:${canonicalLeadName(own.value)}`) },
  };
}

const named = (t: Language, ends: readonly NamedEnd[]): string =>
  listIn(
    t,
    ends.map(({ own }) => own.value),
  );

const soldered = ({ end, own }: NamedEnd): string => `${end} to ${own.value}`;

interface NamedEnd {
  readonly coil: Coil;
  readonly end: CoilEnd;
  readonly own: Stated<string>;
}

/** The ends of coils that leave the pickup by themselves, under their own names. */
const ownEnds = ({ coils }: Pickup): readonly NamedEnd[] =>
  coils.flatMap((coil) =>
    COIL_ENDS.flatMap((end) => {
      const lead = coil[end]?.value;
      return lead?.own && !lead.to ? [{ coil, end, own: lead.own }] : [];
    }),
  );

const isSame = (one: string, other: string): boolean => canonicalLeadName(one) === canonicalLeadName(other);

const endsCalled = (name: string, pickup: Pickup): readonly NamedEnd[] =>
  ownEnds(pickup).filter(({ own }) => isSame(own.value, name));

/** The ends that are called as a lead of the cable is, each alone with that name. */
const endsOfCable = ({ pickup, netlist: { leads, reused } }: PickupContext): readonly NamedEnd[] =>
  ownEnds(pickup).filter(({ own }) => {
    const what = leads.get(canonicalLeadName(own.value))?.what;
    return (
      (what === 'conductor' || what === 'shield') &&
      reused.some(({ name, why }) => why === 'brought out twice' && isSame(name, own.value)) &&
      endsCalled(own.value, pickup).length === 1
    );
  });

/** Names the ends of the coils instead of the colour that both bring out. */
function nameTheEnds({ pickup }: PickupContext, written: string): Remedy | undefined {
  const ends = endsCalled(written, pickup).map(({ coil, end }) => `${coil.name}.${end}`);
  const uses = (pickup.hookup?.joints ?? []).flatMap(({ leads }) => leads.filter((path) => isSame(path.text, written)));
  if (uses.length === 0 || uses.length !== ends.length) return undefined;
  const order = [...ends].reverse();
  const edits = order.map((end, index) => {
    const path = uses[index];
    return path && replaceAt(path.place, end);
  });
  return remedy((t) => t('Name the ends: {0}', order.join(' ')), edits, true);
}
