import { type QuickPickItem, Uri, window, workspace } from 'vscode';
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

/** Asks one thing after the other; `undefined` as soon as somebody leaves. */
export async function askAnswers(what: NewAnswers['what'], choices: NewChoicesResult): Promise<NewAnswers | undefined> {
  const title = await window.showInputBox({
    title: t(what === 'pickup' ? 'New pickup' : 'New instrument'),
    prompt: t('What is it called? Its file is named after it.'),
    value: t(what === 'pickup' ? 'My first pickup' : 'My first guitar'),
    validateInput: (text) => (text.trim() === '' ? t('A title is needed.') : undefined),
  });
  if (title === undefined) return undefined;
  const strings = await pick(t('How many strings?'), NEW_STRINGS, 6);
  const coils = strings && (await pick(t('How many coils has each pickup?'), NEW_COILS, 1));
  const positions = coils && (await askPositions(what));
  const leads = positions && (await askLeads(coils, choices.colours));
  const parts = leads && (await askParts(choices.shelves, strings, coils));
  const turns = parts && (await askTurns());
  return parts && turns !== undefined
    ? { what, title, strings, coils, positions, leads, parts, ...(turns === '' ? {} : { turns: Number(turns) }) }
    : undefined;
}

/** Empty where nobody knows them: a reading is to tell then. */
async function askTurns(): Promise<string | undefined> {
  const answer = await window.showInputBox({
    title: t('How many turns has each coil?'),
    prompt: t('Leave it empty where a resistance reading is to tell.'),
    validateInput: (text) => (/^\s*([1-9]\d{0,5})?\s*$/.test(text) ? undefined : t('A whole number, or nothing.')),
  });
  return answer?.trim();
}

async function pick<T extends string | number>(
  title: string,
  offered: readonly T[],
  usual?: T,
): Promise<T | undefined> {
  // The usual answer stands first, so that Enter takes it.
  const sorted = [...offered].sort((a, b) => Number(b === usual) - Number(a === usual));
  const items = sorted.map((value) => ({ label: String(value), value }));
  return (await window.showQuickPick(items, { title }))?.value;
}

async function askPositions(what: NewAnswers['what']): Promise<NewAnswers['positions'] | undefined> {
  if (what === 'pickup') {
    const position = await pick(t('Where will it sit?'), NEW_POSITIONS);
    return position && [position];
  }
  const items = NEW_POSITIONS.map((label) => ({ label, picked: label !== 'middle' }));
  const chosen = await window.showQuickPick(items, { title: t('Where does a pickup sit?'), canPickMany: true });
  return chosen && chosen.length > 0 ? chosen.map(({ label }) => label) : undefined;
}

async function askLeads(coils: number, colours: NewChoicesResult['colours']): Promise<readonly string[] | undefined> {
  const leads: string[] = [];
  for (const question of coils === 1 ? ONE_COIL : TWO_COILS) {
    const items = colours
      .filter(({ name }) => !leads.includes(name))
      .map(({ code, name, swatch }): QuickPickItem => ({ label: name, description: code, iconPath: swatchOf(swatch) }));
    const chosen = await window.showQuickPick(items, { title: t(question), matchOnDescription: true });
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
  const chosen = await window.showQuickPick(items, { title: t('Bobbin, wire and magnet') });
  if (chosen === undefined) return undefined;
  const { shelf, label } = chosen;
  if (label === measuring.label) {
    const measured = await askMeasured(coils);
    return measured && { kind: 'described', gauge: USUAL_GAUGE, measured };
  }
  if (shelf === undefined) {
    const gauge = await pick(t('Gauge of the wire, AWG'), NEW_GAUGES, USUAL_GAUGE);
    return gauge && { kind: 'described', gauge };
  }
  // Those with another number of poles serve other strings; where no other is there, all are offered.
  const fitting = shelf.bobbins.filter(({ poles }) => poles === undefined || poles === strings);
  const name = await pick(
    t('Which bobbin?'),
    (fitting.length > 0 ? fitting : shelf.bobbins).map((each) => each.name),
  );
  const bobbin = shelf.bobbins.find((each) => each.name === name);
  const wire = bobbin && (await askWire(shelf));
  if (bobbin === undefined || wire === undefined) return undefined;
  const base = { kind: 'shelf', use: workspace.asRelativePath(Uri.parse(shelf.uri, true), false), wire } as const;
  const ownMagnets = bobbin.ownMagnets;
  if (ownMagnets || shelf.magnets.length === 0) return { ...base, bobbin: bobbin.name, ownMagnets };
  const magnet = await pick(t('Which magnet lies below?'), shelf.magnets);
  return magnet === undefined ? undefined : { ...base, bobbin: bobbin.name, ownMagnets, magnet };
}

const USUAL_GAUGE = 42;

/** What is left empty keeps its usual measure, and the spec says so. */
async function askMeasured(coils: number): Promise<Measured | undefined> {
  const pole = await pick(t('What are the poles?'), NEW_POLES, usualPole(coils));
  const about = t(pole === 'rod' ? 'Of what are the rods?' : 'Of what is the bar magnet below?');
  const magnet = pole && (await pick(about, [...NEW_MAGNETS, NOT_KNOWN], NOT_KNOWN));
  if (pole === undefined || magnet === undefined) return undefined;
  const measures: Record<string, string> = {};
  for (const name of MEASURE_NAMES.filter((each) => isAsked(each, pole))) {
    const typed = await window.showInputBox({
      title: NEW_MEASURES[name].asks,
      prompt: t('Left empty, the usual measure stands there.'),
      validateInput: (text) =>
        text.trim() === '' || measureIn(name, text) !== undefined ? undefined : t('Numbers as the question has them.'),
    });
    if (typed === undefined) return undefined;
    if (typed.trim() !== '') measures[name] = typed;
  }
  return { pole, ...(magnet === NOT_KNOWN ? {} : { magnet }), ...measures };
}

const NOT_KNOWN = 'not known';

async function askWire(shelf: NewChoicesResult['shelves'][number]) {
  const items = [
    ...shelf.spools.map((name) => ({ label: name, description: t('spool'), wire: { kind: 'spool', name } as const })),
    ...shelf.wires.map((name) => ({ label: name, description: t('wire'), wire: { kind: 'wire', name } as const })),
  ];
  return (await window.showQuickPick(items, { title: t('Which wire?') }))?.wire;
}
