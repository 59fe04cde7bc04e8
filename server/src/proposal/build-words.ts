/** How builds that are proposed are told: what each is wound from, what it reaches, what it gives up. */
import { wireForCoils } from '../estimates/coils-to-wind.ts';
import type { Wire } from '../model/wire.ts';
import { printCount, printNumber, printQuantity } from '../quantities/print.ts';
import { aimWords, oddsWords, verdictWords } from '../words/aim-words.ts';
import { cautionsOf } from '../words/cautions.ts';
import { gaugeWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import { WIRE_SPARE } from '../words/wire-spare.ts';
import type { Build, CoilChoice } from './build.ts';
import type { InTheWay } from './in-the-way.ts';
import { type CoilOpening, type Openings, openParts } from './openings.ts';
import type { NoProposal, ProposedBuild } from './propose.ts';

/** One coil of a build in the figures that a winder asks for. */
export interface CoilFacts {
  readonly choice: CoilChoice;
  /** Build over the window's depth. */
  readonly windowFilled: number | undefined;
  readonly wireM: number | undefined;
  /** With what is lost at both ends and in breaks. */
  readonly wireKg: number | undefined;
  /** The spool lacks that much, or there is none. */
  readonly isBought: boolean;
}

export function coilFacts({ build, pickup }: ProposedBuild): readonly CoilFacts[] {
  const facts = build.coils.map((choice) => {
    const numbers = pickup.quick.coils.get(choice.opening.coil.name);
    const needed = wireForCoils([numbers?.wireMassKg]);
    return {
      choice,
      windowFilled: numbers?.windowFilled?.value,
      wireM: numbers?.wireLengthM?.value,
      wireKg: needed?.withSpareKg.value,
    };
  });
  const fromSpool = (name: string) =>
    facts.reduce((sum, { choice, wireKg = 0 }) => sum + (choice.spool?.name === name ? wireKg : 0), 0);
  return facts.map((each) => {
    const { spool } = each.choice;
    return { ...each, isBought: !spool || fromSpool(spool.name) > (spool.left?.value.si ?? Number.POSITIVE_INFINITY) };
  });
}

/** `43 AWG`, `poly-43 (43 AWG)` */
export function wireWords({ name, gaugeAwg }: Wire, isUndeclared = false): string {
  const gauge = gaugeAwg && gaugeWords(gaugeAwg.value);
  if (isUndeclared && gauge) return gauge;
  return gauge ? `${name} (${gauge})` : name;
}

/** `8 820 turns of w43 (43 AWG) from spool reel-2 on rods` */
export function choiceWords({ turns, wire, spool, bobbin, isUndeclared }: CoilChoice): string {
  const from = spool ? ` from spool ${spool.name}` : '';
  return `${printCount(turns)} turns of ${wireWords(wire, isUndeclared)}${from} on ${bobbin.name}`;
}

/** `slug 5 240 turns of … on slug-six; screw …; bar-5 north toward slug` */
export const buildTitle = ({ coils, magnet }: Build): string =>
  [
    ...coils.map((choice) => `${choice.opening.coil.name} ${choiceWords(choice)}`),
    ...(magnet ? [`${magnet.bar.name} ${magnet.pole} toward ${magnet.toward.name}`] : []),
  ].join('; ');

/** `690 m of wire, 30 g with 10 % spare, 78 % of the window` */
export function coilWords({ wireM, wireKg, windowFilled, isBought, choice }: CoilFacts): string {
  const length =
    wireM === undefined ? [] : [`${printQuantity({ value: wireM, dimension: 'length', unit: 'm' })} of wire`];
  const mass =
    wireKg === undefined
      ? []
      : [`${printQuantity({ value: wireKg, dimension: 'mass', unit: 'g', digits: 2 })} with ${WIRE_SPARE}`];
  const filled = windowFilled === undefined ? [] : [`${printNumber(100 * windowFilled, 0)}\u202F% of the window`];
  const left = choice.spool?.left?.value.written;
  const held = isBought ? [choice.spool ? `to buy: the spool has ${left ?? 'less'}` : 'to buy'] : [];
  return [...length, ...mass, ...filled, ...held].join(', ');
}

/** What the build does not reach, and what else is told of it. */
export const givesUp = ({ judged, brings }: ProposedBuild): readonly string[] => [
  ...judged.flatMap((each) =>
    each.verdict === undefined || each.verdict === 'reached' ? [] : [`${aimWords(each.aim)}: ${verdictWords(each)}`],
  ),
  ...brings.map(({ what }) => what),
];

/** `odds 64 in 100` */
export const oddsText = ({ odds }: ProposedBuild): string => `odds ${oddsWords(odds)}`;

/** `turns, wire and bobbin of main; a bar magnet` */
export const openWords = ({ coils, magnet }: Openings): string =>
  [...coils.map(openingWords), ...(magnet ? ['a bar magnet'] : [])].join('; ');

const openingWords = (opening: CoilOpening): string => `${list(openParts(opening))} of ${opening.coil.name}`;

/** What is in the way of the nearest miss, a sentence each. */
export function inTheWayWords({ holds, held, filled, otherwise }: InTheWay): readonly string[] {
  const build = held && list(held.coils.map(choiceWords));
  const reason = {
    window: `The window: ${build} would reach it and fill ${printNumber(100 * filled, 0)}\u202F% of it${deepEnough(held, filled)}.`,
    spool: `The wire: ${build} would reach it, and the spool does not hold as much.`,
    targets: 'The targets, one against the other: no turns of any wire on these bobbins bring all of them.',
    shelf: 'The shelf: nothing that is left on its spools reaches the target.',
  }[holds];
  const instead =
    otherwise && holds !== 'spool'
      ? [
          `${otherwise.change === 'wire' ? 'Another wire' : 'Another bobbin'} than stated would: ${list(otherwise.build.coils.map(choiceWords))}${otherwise.cost.buys > 0 ? `, ${printQuantity({ value: otherwise.cost.kg, dimension: 'mass', unit: 'g', digits: 2 })} to buy` : ''}.`,
        ]
      : [];
  return [reason, ...instead];
}

/** `, which asks for one 6.2 mm deep` */
function deepEnough(held: Build | undefined, filled: number): string {
  const depths = held?.coils.map(({ bobbin }) => bobbin.window?.value.depth.si ?? 0) ?? [];
  const depthM = filled * Math.max(0, ...depths);
  return depthM > 0
    ? `, which asks for one ${printQuantity({ value: depthM, dimension: 'length', unit: 'mm', decimals: 1 })} deep`
    : '';
}

export const NO_PROPOSAL_WORDS: Readonly<Record<NoProposal, string>> = {
  'no target': 'states no target: say what it should reach, as in `target { resonance 2.4 kHz loaded }`',
  'nothing left out':
    'leaves nothing out of a coil that is still to be wound: take the turns, the wire or the bobbin out of it',
  'nothing to choose from':
    'has nothing to choose from: declare bobbins with core and window, in this file or in one that it uses',
};

/** What the work of winding can do to a person. */
export const windingCautions = ({ build }: ProposedBuild): readonly string[] =>
  cautionsOf('winder', 'enamel', 'solder', ...(build.magnet ? (['magnets'] as const) : []));
