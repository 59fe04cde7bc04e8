/** How builds that are proposed are told: what each is wound from, what it reaches, what it gives up. */
import { tellIn } from '../checks/telling.ts';
import { wireForCoils } from '../estimates/coils-to-wind.ts';
import type { Wire } from '../model/wire.ts';
import { printCount, printNumber, printQuantity } from '../quantities/print.ts';
import { aimWords, oddsWords, verdictWords } from '../words/aim-words.ts';
import { cautionsOf } from '../words/cautions.ts';
import { ENGLISH, type Language, type PlainText } from '../words/languages/language.ts';
import { gaugeWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import { WIRE_SPARE_SHARE } from '../words/wire-spare.ts';
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
export function choiceWords({ turns, wire, spool, bobbin, isUndeclared }: CoilChoice, t = ENGLISH): string {
  const called = wireWords(wire, isUndeclared);
  const of = t('{0} turns of {1}', printCount(turns, t.numbers), called);
  return spool ? t('{0} from spool {1} on {2}', of, spool.name, bobbin.name) : t('{0} on {1}', of, bobbin.name);
}

/** `slug 5 240 turns of … on slug-six; screw …; bar-5, north toward slug` */
export const buildTitle = (build: Build, t = ENGLISH): string =>
  [
    ...build.coils.map((choice) => `${choice.opening.coil.name} ${choiceWords(choice, t)}`),
    ...magnetWords(build, t),
  ].join('; ');

/** `bar-5, north toward slug`, where a bar is chosen. */
export const magnetWords = ({ magnet }: Build, t = ENGLISH): readonly string[] =>
  magnet ? [t('{0}, {1} toward {2}', magnet.bar.name, t.word(magnet.pole), magnet.toward.name)] : [];

/** `690 m of wire, 30 g with 10 % spare, 78 % of the window` */
export function coilWords({ wireM, wireKg, windowFilled, isBought, choice }: CoilFacts, t = ENGLISH): string {
  const style = t.numbers;
  const length =
    wireM === undefined
      ? []
      : [t('{0} of wire', printQuantity({ value: wireM, dimension: 'length', unit: 'm', style }))];
  const mass =
    wireKg === undefined
      ? []
      : [
          t(
            '{0} with {1} spare',
            printQuantity({ value: wireKg, dimension: 'mass', unit: 'g', digits: 2, style }),
            WIRE_SPARE_SHARE,
          ),
        ];
  const filled =
    windowFilled === undefined ? [] : [t('{0} of the window', `${printNumber(100 * windowFilled, 0, style)}\u202F%`)];
  const left = choice.spool?.left?.value.written;
  const held = isBought ? [choice.spool ? t('to buy: the spool has {0}', left ?? t('less')) : t('to buy')] : [];
  return [...length, ...mass, ...filled, ...held].join(', ');
}

/** What the build does not reach, and what else is told of it. */
export const givesUp = ({ judged, brings }: ProposedBuild, t = ENGLISH): readonly string[] => [
  ...judged.flatMap((each) =>
    each.verdict === undefined || each.verdict === 'reached'
      ? []
      : [`${aimWords(each.aim, t)}: ${verdictWords(each, t)}`],
  ),
  ...brings.map((each) => tellIn(each, t).what),
];

/** `odds 64 in 100` */
export const oddsText = ({ odds }: ProposedBuild, t = ENGLISH): string => t('odds {0}', oddsWords(odds, t));

/** `turns, wire and bobbin of main; a bar magnet` */
export const openWords = ({ coils, magnet }: Openings, t = ENGLISH): string =>
  [...coils.map((each) => openingWords(each, t)), ...(magnet ? [t('a bar magnet')] : [])].join('; ');

const openingWords = (opening: CoilOpening, t: Language): string =>
  t(
    '{0} of {1}',
    list(
      openParts(opening).map((each) => t(each)),
      t('and'),
    ),
    opening.coil.name,
  );

/** What is in the way of the nearest miss, a sentence each. */
export function inTheWayWords({ holds, held, filled, otherwise }: InTheWay, t = ENGLISH): readonly string[] {
  const told = ({ coils }: Build): string =>
    list(
      coils.map((each) => choiceWords(each, t)),
      t('and'),
    );
  const build = held ? told(held) : '';
  const share = `${printNumber(100 * filled, 0, t.numbers)}\u202F%`;
  const depth = deepEnough(held, filled, t);
  const reason = {
    window: depth
      ? t('The window: {0} would reach it and fill {1} of it, which asks for one {2} deep.', build, share, depth)
      : t('The window: {0} would reach it and fill {1} of it.', build, share),
    spool: t('The wire: {0} would reach it, and the spool does not hold as much.', build),
    targets: t('The targets, one against the other: no turns of any wire on these bobbins bring all of them.'),
    shelf: t('The shelf: nothing that is left on its spools reaches the target.'),
  }[holds];
  if (!otherwise || holds === 'spool') return [reason];
  const { change, cost } = otherwise;
  const kg = printQuantity({ value: cost.kg, dimension: 'mass', unit: 'g', digits: 2, style: t.numbers });
  const instead = [told(otherwise.build), ...(cost.buys > 0 ? [t('{0} to buy', kg)] : [])].join(', ');
  return [
    reason,
    t(change === 'wire' ? 'Another wire than stated would: {0}.' : 'Another bobbin than stated would: {0}.', instead),
  ];
}

/** `6.2 mm`, in which it would lie. */
function deepEnough(held: Build | undefined, filled: number, t: Language): string | undefined {
  const depths = held?.coils.map(({ bobbin }) => bobbin.window?.value.depth.si ?? 0) ?? [];
  const depthM = filled * Math.max(0, ...depths);
  return depthM > 0
    ? printQuantity({ value: depthM, dimension: 'length', unit: 'mm', decimals: 1, style: t.numbers })
    : undefined;
}

export const NO_PROPOSAL_WORDS: Readonly<Record<NoProposal, string>> = {
  'no target': 'states no target: say what it should reach, as in `target { resonance 2.4 kHz loaded }`',
  'made already': 'has been made: where it is still to be wound, take its `made` line out',
  'nothing left out':
    'leaves nothing out of a coil that is still to be wound: take the turns, the wire or the bobbin out of it',
  'nothing to choose from':
    'has nothing to choose from: declare bobbins with core and window, in this file or in one that it uses',
};

/** What the work of winding can do to a person. */
export const windingCautions = ({ build }: ProposedBuild): readonly PlainText[] =>
  cautionsOf('winder', 'enamel', 'solder', ...(build.magnet ? (['magnets'] as const) : []));
