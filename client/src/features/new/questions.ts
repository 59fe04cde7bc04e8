import { type QuickPickItem, Uri, workspace } from 'vscode';
import {
  isAsked,
  MEASURE_NAMES,
  type Measured,
  measureIn,
  NEW_COILS,
  NEW_GAUGES,
  NEW_MAGNETS,
  NEW_MEASURES,
  NEW_POLES,
  NEW_POSITIONS,
  NEW_STRINGS,
  type NewAnswers,
  type NewChoicesResult,
  type NewParts,
  usualPole,
} from '../../../../server/src/lsp/protocol.ts';
import { t } from '../words.ts';
import { type Asker, inTurn } from './asker.ts';

/** Asks one thing after the other; `undefined` as soon as somebody leaves. */
export const askAnswers = (what: NewAnswers['what'], choices: NewChoicesResult): Promise<NewAnswers | undefined> =>
  inTurn((asker) => askAll(asker, what, choices));

async function askAll(
  asker: Asker,
  what: NewAnswers['what'],
  choices: NewChoicesResult,
): Promise<NewAnswers | undefined> {
  const title = await asker.type(t(what === 'pickup' ? 'New pickup' : 'New instrument'), {
    prompt: t('What is it called? Its file is named after it.'),
    value: t(what === 'pickup' ? 'My first pickup' : 'My first guitar'),
    refused: (text) => (text.trim() === '' ? t('A title is needed.') : undefined),
  });
  if (title === undefined) return undefined;
  const strings = await pick(asker, t('How many strings?'), NEW_STRINGS, 6);
  const coils = strings && (await pick(asker, t('How many coils has each pickup?'), NEW_COILS, 1));
  const positions = coils && (await askPositions(asker, what));
  const leads = positions && (await askLeads(asker, coils, choices.colours));
  const parts = leads && (await askParts(asker, choices.shelves, strings, coils));
  const turns = parts && (await askTurns(asker));
  return parts && turns !== undefined
    ? { what, title, strings, coils, positions, leads, parts, ...(turns === '' ? {} : { turns: Number(turns) }) }
    : undefined;
}

/** Empty where nobody knows them: a reading is to tell then. */
async function askTurns(asker: Asker): Promise<string | undefined> {
  const answer = await asker.type(t('How many turns has each coil?'), {
    prompt: t('Leave it empty where a resistance reading is to tell.'),
    refused: (text) => (/^\s*([1-9]\d{0,5})?\s*$/.test(text) ? undefined : t('A whole number, or nothing.')),
  });
  return answer?.trim();
}

async function pick<T extends string | number>(
  asker: Asker,
  title: string,
  offered: readonly T[],
  usual?: T,
): Promise<T | undefined> {
  // The usual answer stands first, so that Enter takes it.
  const sorted = [...offered].sort((a, b) => Number(b === usual) - Number(a === usual));
  const items = sorted.map((value) => ({ label: String(value), value }));
  return (await asker.pick(title, items))?.value;
}

async function askPositions(asker: Asker, what: NewAnswers['what']): Promise<NewAnswers['positions'] | undefined> {
  if (what === 'pickup') {
    const position = await pick(asker, t('Where will it sit?'), NEW_POSITIONS);
    return position && [position];
  }
  const items = NEW_POSITIONS.map((label) => ({ label, picked: label !== 'middle' }));
  const chosen = await asker.pickMany(t('Where does a pickup sit?'), items);
  return chosen && chosen.length > 0 ? chosen.map(({ label }) => label) : undefined;
}

async function askLeads(
  asker: Asker,
  coils: number,
  colours: NewChoicesResult['colours'],
): Promise<readonly string[] | undefined> {
  const leads: string[] = [];
  for (const question of coils === 1 ? ONE_COIL : TWO_COILS) {
    const items = colours
      .filter(({ name }) => !leads.includes(name))
      .map(({ code, name, swatch }): QuickPickItem => ({ label: name, description: code, iconPath: swatchOf(swatch) }));
    const chosen = await asker.pick(t(question), items);
    if (chosen === undefined) return undefined;
    leads.push(chosen.label);
  }
  return leads;
}

const ONE_COIL = ['Which lead is the start (inner end)?', 'Which lead is the finish (outer end)?'] as const;
const TWO_COILS = [
  'Which lead is the start (inner end) of the upper coil?',
  'Which lead is the finish (outer end) of the upper coil?',
  'Which lead is the start (inner end) of the lower coil?',
  'Which lead is the finish (outer end) of the lower coil?',
] as const;

/** A square in a colour; its grey edge keeps white and black apart from any ground. */
function swatchOf(colour: string): Uri {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="16" height="16"><rect x="1.5" y="1.5" width="13" height="13" rx="2" fill="${colour}" stroke="#808080"/></svg>`;
  return Uri.parse(`data:image/svg+xml;base64,${btoa(svg)}`, true);
}

async function askParts(
  asker: Asker,
  shelves: NewChoicesResult['shelves'],
  strings: number,
  coils: number,
): Promise<NewParts | undefined> {
  const described = { label: t('Usual measures'), description: t('to be corrected by what the caliper shows') };
  const measuring = { label: t('Measured now'), description: t('a few questions for caliper, micrometer and eye') };
  const items = [
    ...shelves.map((shelf) => ({
      label: t('From {0}', workspace.asRelativePath(Uri.parse(shelf.uri, true), false)),
      description: shelf.bobbins.map(({ name }) => name).join(', '),
      shelf,
    })),
    { ...measuring, shelf: undefined },
    { ...described, shelf: undefined },
  ];
  const chosen = await asker.pick(t('Bobbin, wire and magnet'), items);
  if (chosen === undefined) return undefined;
  const { shelf, label } = chosen;
  if (label === measuring.label) {
    const measured = await askMeasured(asker, coils);
    return measured && { kind: 'described', gauge: USUAL_GAUGE, measured };
  }
  if (shelf === undefined) {
    const gauge = await pick(asker, t('Gauge of the wire, AWG'), NEW_GAUGES, USUAL_GAUGE);
    return gauge && { kind: 'described', gauge };
  }
  // Those with another number of poles serve other strings; where no other is there, all are offered.
  const fitting = shelf.bobbins.filter(({ poles }) => poles === undefined || poles === strings);
  const name = await pick(
    asker,
    t('Which bobbin?'),
    (fitting.length > 0 ? fitting : shelf.bobbins).map((each) => each.name),
  );
  const bobbin = shelf.bobbins.find((each) => each.name === name);
  const wire = bobbin && (await askWire(asker, shelf));
  if (bobbin === undefined || wire === undefined) return undefined;
  const base = { kind: 'shelf', use: workspace.asRelativePath(Uri.parse(shelf.uri, true), false), wire } as const;
  const ownMagnets = bobbin.ownMagnets;
  if (ownMagnets || shelf.magnets.length === 0) return { ...base, bobbin: bobbin.name, ownMagnets };
  const magnet = await pick(asker, t('Which magnet lies below?'), shelf.magnets);
  return magnet === undefined ? undefined : { ...base, bobbin: bobbin.name, ownMagnets, magnet };
}

const USUAL_GAUGE = 42;

/** What is left empty keeps its usual measure, and the spec says so. */
async function askMeasured(asker: Asker, coils: number): Promise<Measured | undefined> {
  const pole = await pick(asker, t('What are the poles?'), NEW_POLES, usualPole(coils));
  const about = t(pole === 'rod' ? 'Of what are the rods?' : 'Of what is the bar magnet below?');
  const magnet = pole && (await pick(asker, about, [...NEW_MAGNETS, NOT_KNOWN], NOT_KNOWN));
  if (pole === undefined || magnet === undefined) return undefined;
  const measures: Record<string, string> = {};
  for (const name of MEASURE_NAMES.filter((each) => isAsked(each, pole))) {
    const typed = await asker.type(NEW_MEASURES[name].asks, {
      prompt: t('Left empty, the usual measure stands there.'),
      refused: (text) =>
        text.trim() === '' || measureIn(name, text) !== undefined ? undefined : t('Numbers as the question has them.'),
    });
    if (typed === undefined) return undefined;
    if (typed.trim() !== '') measures[name] = typed;
  }
  return { pole, ...(magnet === NOT_KNOWN ? {} : { magnet }), ...measures };
}

const NOT_KNOWN = 'not known';

async function askWire(asker: Asker, shelf: NewChoicesResult['shelves'][number]) {
  const items = [
    ...shelf.spools.map((name) => ({ label: name, description: t('spool'), wire: { kind: 'spool', name } as const })),
    ...shelf.wires.map((name) => ({ label: name, description: t('wire'), wire: { kind: 'wire', name } as const })),
  ];
  return (await asker.pick(t('Which wire?'), items))?.wire;
}
