import type { PickupAnalysis } from '../analysis/analysis-types.ts';
import { aimRows } from '../features/aim-rows.ts';
import {
  choiceWords,
  coilFacts,
  coilWords,
  givesUp,
  inTheWayWords,
  NO_PROPOSAL_WORDS,
  oddsText,
  openWords,
  windingCautions,
} from '../proposal/build-words.ts';
import { type NoProposal, type Proposal, type ProposedBuild, proposeBuilds } from '../proposal/propose.ts';
import { changedLines } from './changed-lines.ts';
import { chooseOrAll } from './choose.ts';
import { defineCommand } from './command.ts';
import { plainSpaces } from './figures-text.ts';
import { editsJson, type Locate, locateEdits, locator } from './located-finding.ts';
import { aimData } from './report-data.ts';
import { aimLines } from './report-text.ts';
import { analysed, SOURCE_OPTIONS } from './source.ts';
import type { Styles } from './styles.ts';
import { jsonText, visible } from './visible.ts';

/** Of a file with several, those that have nothing to propose are passed over; where all have, a target says which were meant. */
function worthTelling(proposed: readonly Proposed[]): readonly Proposed[] {
  const found = proposed.filter(({ proposal }) => typeof proposal !== 'string');
  return found.length > 0 ? found : proposed.filter(({ proposal }) => proposal !== 'no target');
}

export const propose = defineCommand({
  name: 'propose',
  summary: 'what to wind: builds that reach the target with what lies on the shelf, each with its odds',
  positionals: 'FILE',
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the builds are written' },
    pickup: { type: 'text', value: 'NAME', meaning: 'only this pickup' },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'Free is what a coil that is still to be wound leaves out: turns, wire, bobbin; and the bar magnet. The shelf is what the file and\n' +
      'the files that it uses declare, with the wire that is left on each spool.',
    'Every build was written into the spec, analysed as a whole, and is told only if nothing new was wrong. The file itself is not\n' +
      'changed. Exit code 1 where nothing at hand reaches a target by the best estimate.',
  ],
  example: {
    line: 'pickup-spec propose samples/knapweed-neck.pickup',
    meaning: 'turns and wire for the target of a pickup that is still to be wound, from the spools of the shop',
  },
  async run(values, [file = ''], context) {
    const { analysis, shown } = await analysed(file, values, context);
    const { pickups } = analysis;
    const wanted = chooseOrAll(pickups, ({ pickup }) => pickup.name, { what: 'pickup', name: values.pickup, shown });
    const proposed = wanted.map((each): Proposed => {
      context.progress.step(`${shown}: ${each.pickup.name}`);
      return { pickup: each, proposal: proposeBuilds(analysis, each) };
    });
    const told = proposed.length > 1 ? worthTelling(proposed) : proposed;
    context.progress.clear();
    const locate = locator(analysis, context.cwd);
    context.stdout.write(
      values.format === 'json'
        ? proposalsJson(told, locate)
        : [...told.map((each) => proposalText(each, shown, locate, context.styles)), ...cautionsFor(told)].join('\n') ||
            `${visible(shown)} holds no pickup with something to propose\n`,
    );
    return told.some(({ proposal }) => typeof proposal !== 'string' && proposal.inTheWay) ? 1 : 0;
  },
});

interface Proposed {
  readonly pickup: PickupAnalysis;
  readonly proposal: Proposal | NoProposal;
}

function proposalText({ pickup, proposal }: Proposed, path: string, locate: Locate, styles: Styles): string {
  const heading = styles.strong(visible(`pickup ${pickup.pickup.name}`));
  if (typeof proposal === 'string') return `${heading} ${NO_PROPOSAL_WORDS[proposal]}\n`;
  const { builds, inTheWay, openings } = proposal;
  return [
    `${heading}: free are ${visible(openWords(openings))}`,
    ...builds.flatMap((build, index) => buildText(build, index, path, locate, styles)),
    ...(inTheWay ? ['', '  in the way', ...inTheWayWords(inTheWay).map((each) => `    ${shown(each)}`)] : []),
    '',
  ].join('\n');
}

/** Once, behind all that is proposed. */
function cautionsFor(proposed: readonly Proposed[]): readonly string[] {
  const builds = proposed.flatMap(({ proposal }) => (typeof proposal === 'string' ? [] : proposal.builds));
  const all = [...new Set(builds.flatMap(windingCautions))];
  return all.length > 0 ? [`mind\n${all.map((each) => `  ${each}\n`).join('')}`] : [];
}

function buildText(
  build: ProposedBuild,
  index: number,
  path: string,
  locate: Locate,
  styles: Styles,
): readonly string[] {
  const { magnet } = build.build;
  return [
    '',
    `  ${styles.strong(`build ${index + 1}`)}, ${shown(oddsText(build))}`,
    ...coilFacts(build).flatMap((each) => [
      `    ${shown(`${each.choice.opening.coil.name}: ${choiceWords(each.choice)}`)}`,
      `      ${styles.faint(shown(coilWords(each)))}`,
    ]),
    ...(magnet ? [`    ${shown(`${magnet.bar.name} ${magnet.pole} toward ${magnet.toward.name}`)}`] : []),
    '    reaches',
    ...aimLines(aimRows(build.pickup)).map((line) => `  ${line}`),
    ...(build.brings.length > 0 ? ['    gives up', ...build.brings.map(({ what }) => `      ${shown(what)}`)] : []),
    '    to write',
    ...changedLines(locateEdits(build.edits, locate) ?? [], path, styles),
  ];
}

const shown = (text: string): string => visible(plainSpaces(text));

/** Keys are named one by one, so that nothing internal becomes part of a published output. */
function proposalsJson(proposed: readonly Proposed[], locate: Locate): string {
  return jsonText({
    schema: 'propose/1',
    pickups: proposed.map(({ pickup, proposal }) => ({
      pickup: pickup.pickup.name,
      ...(typeof proposal === 'string'
        ? { builds: [], nothing: NO_PROPOSAL_WORDS[proposal] }
        : {
            free: proposal.openings.coils.map(({ coil, turns, wire, bobbin }) => ({
              coil: coil.name,
              turns,
              wire,
              bobbin,
            })),
            freeMagnet: proposal.openings.magnet,
            builds: proposal.builds.map((build) => buildJson(build, locate)),
            inTheWay: proposal.inTheWay && {
              holds: proposal.inTheWay.holds,
              words: inTheWayWords(proposal.inTheWay),
            },
          }),
    })),
  });
}

const buildJson = (build: ProposedBuild, locate: Locate) => ({
  coils: coilFacts(build).map(({ choice, windowFilled, wireM, wireKg, isBought }) => ({
    coil: choice.opening.coil.name,
    turns: choice.turns,
    bobbin: choice.bobbin.name,
    wire: choice.wire.name,
    spool: choice.spool?.name,
    windowFilled,
    wireM,
    wireKg,
    isBought,
  })),
  magnet: build.build.magnet && {
    magnet: build.build.magnet.bar.name,
    pole: build.build.magnet.pole,
    toward: build.build.magnet.toward.name,
  },
  reaches: build.judged.map(aimData),
  odds: build.odds,
  givesUp: givesUp(build),
  edits: editsJson(build.edits, locate),
});
