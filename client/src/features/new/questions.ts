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

/** Asks one thing after the other; `undefined` as soon as somebody leaves. */
export async function askAnswers(what: NewAnswers['what'], choices: NewChoicesResult): Promise<NewAnswers | undefined> {
  const title = await window.showInputBox({
    title: what === 'pickup' ? 'New pickup' : 'New instrument',
    prompt: 'What is it called? Its file is named after it.',
    value: what === 'pickup' ? 'My first pickup' : 'My first guitar',
    validateInput: (text) => (text.trim() === '' ? 'A title is needed.' : undefined),
  });
  if (title === undefined) return undefined;
  const strings = await pick('How many strings?', NEW_STRINGS, 6);
  const coils = strings && (await pick('How many coils has each pickup?', NEW_COILS, 1));
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
    title: 'How many turns has each coil?',
    prompt: 'Leave it empty where a resistance reading is to tell.',
    validateInput: (text) => (/^\s*([1-9]\d{0,5})?\s*$/.test(text) ? undefined : 'A whole number, or nothing.'),
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
    const position = await pick('Where will it sit?', NEW_POSITIONS);
    return position && [position];
  }
  const items = NEW_POSITIONS.map((label) => ({ label, picked: label !== 'middle' }));
  const chosen = await window.showQuickPick(items, { title: 'Where does a pickup sit?', canPickMany: true });
  return chosen && chosen.length > 0 ? chosen.map(({ label }) => label) : undefined;
}

async function askLeads(coils: number, colours: NewChoicesResult['colours']): Promise<readonly string[] | undefined> {
  const ends = coils === 1 ? [''] : [' of the upper coil', ' of the lower coil'];
  const leads: string[] = [];
  for (const end of ends.flatMap((coil) => [`start (inner end)${coil}`, `finish (outer end)${coil}`])) {
    const items = colours
      .filter(({ name }) => !leads.includes(name))
      .map(({ code, name, swatch }): QuickPickItem => ({ label: name, description: code, iconPath: swatchOf(swatch) }));
    const chosen = await window.showQuickPick(items, { title: `Which lead is the ${end}?`, matchOnDescription: true });
    if (chosen === undefined) return undefined;
    leads.push(chosen.label);
  }
  return leads;
}

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
  const described = { label: 'Usual measures', description: 'to be corrected by what the caliper shows' };
  const measuring = { label: 'Measured now', description: 'a few questions for caliper, micrometer and eye' };
  const items = [
    ...shelves.map((shelf) => ({
      label: `From ${workspace.asRelativePath(Uri.parse(shelf.uri, true), false)}`,
      description: shelf.bobbins.map(({ name }) => name).join(', '),
      shelf,
    })),
    { ...measuring, shelf: undefined },
    { ...described, shelf: undefined },
  ];
  const chosen = await window.showQuickPick(items, { title: 'Bobbin, wire and magnet' });
  if (chosen === undefined) return undefined;
  const { shelf, label } = chosen;
  if (label === measuring.label) {
    const measured = await askMeasured(coils);
    return measured && { kind: 'described', gauge: USUAL_GAUGE, measured };
  }
  if (shelf === undefined) {
    const gauge = await pick('Gauge of the wire, AWG', NEW_GAUGES, USUAL_GAUGE);
    return gauge && { kind: 'described', gauge };
  }
  // Those with another number of poles serve other strings; where no other is there, all are offered.
  const fitting = shelf.bobbins.filter(({ poles }) => poles === undefined || poles === strings);
  const name = await pick(
    'Which bobbin?',
    (fitting.length > 0 ? fitting : shelf.bobbins).map((each) => each.name),
  );
  const bobbin = shelf.bobbins.find((each) => each.name === name);
  const wire = bobbin && (await askWire(shelf));
  if (bobbin === undefined || wire === undefined) return undefined;
  const base = { kind: 'shelf', use: workspace.asRelativePath(Uri.parse(shelf.uri, true), false), wire } as const;
  const ownMagnets = bobbin.ownMagnets;
  if (ownMagnets || shelf.magnets.length === 0) return { ...base, bobbin: bobbin.name, ownMagnets };
  const magnet = await pick('Which magnet lies below?', shelf.magnets);
  return magnet === undefined ? undefined : { ...base, bobbin: bobbin.name, ownMagnets, magnet };
}

const USUAL_GAUGE = 42;

/** What is left empty keeps its usual measure, and the spec says so. */
async function askMeasured(coils: number): Promise<Measured | undefined> {
  const pole = await pick('What are the poles?', NEW_POLES, usualPole(coils));
  const about = pole === 'rod' ? 'Of what are the rods?' : 'Of what is the bar magnet below?';
  const magnet = pole && (await pick(about, [...NEW_MAGNETS, NOT_KNOWN], NOT_KNOWN));
  if (pole === undefined || magnet === undefined) return undefined;
  const measures: Record<string, string> = {};
  for (const name of MEASURE_NAMES.filter((each) => isAsked(each, pole))) {
    const typed = await window.showInputBox({
      title: NEW_MEASURES[name].asks,
      prompt: 'Left empty, the usual measure stands there.',
      validateInput: (text) =>
        text.trim() === '' || measureIn(name, text) !== undefined ? undefined : 'Numbers as the question has them.',
    });
    if (typed === undefined) return undefined;
    if (typed.trim() !== '') measures[name] = typed;
  }
  return { pole, ...(magnet === NOT_KNOWN ? {} : { magnet }), ...measures };
}

const NOT_KNOWN = 'not known';

async function askWire(shelf: NewChoicesResult['shelves'][number]) {
  const items = [
    ...shelf.spools.map((name) => ({ label: name, description: 'spool', wire: { kind: 'spool', name } as const })),
    ...shelf.wires.map((name) => ({ label: name, description: 'wire', wire: { kind: 'wire', name } as const })),
  ];
  return (await window.showQuickPick(items, { title: 'Which wire?' }))?.wire;
}
