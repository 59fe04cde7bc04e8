/** The text of a new spec from a few answers: complete but for its readings, in the one layout. */
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { rotationOf } from '../model/coil.ts';
import type { NewAnswers, NewFile, NewParts } from './new-answers.ts';

/** The file, or why the answers give none. */
export function newSpec(answers: NewAnswers): NewFile | { readonly problem: string } {
  const problem = problemOf(answers);
  if (problem !== undefined) return { problem };
  const name = nameFrom(answers.title, answers.what);
  return { path: `${name}.pickup`, text: `${textOf(answers, name).join('\n')}\n` };
}

function problemOf({ title, coils, leads, positions }: NewAnswers): string | undefined {
  if (title.trim() === '') return 'A title is needed.';
  if (positions.length === 0 || new Set(positions).size < positions.length) return 'Each position is named once.';
  if (leads.length !== 2 * coils) return `${2 * coils} leads are needed: start and finish of each coil.`;
  if (leads.some((lead) => !/^\p{L}[\p{L}\p{N}_-]*$/u.test(lead))) return 'A lead is a colour or another single word.';
  if (new Set(leads.map(canonicalLeadName)).size < leads.length) return 'Each lead has a name of its own.';
  return undefined;
}

/** `Heron, bridge` is `heron-bridge`. */
function nameFrom(title: string, otherwise: string): string {
  const name = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^[-\p{N}]+|-+$/gu, '')
    .slice(0, 40);
  return name === '' ? `new-${otherwise}` : name;
}

function textOf(answers: NewAnswers, name: string): readonly string[] {
  const { what, positions } = answers;
  const pickups = positions.flatMap((position, index) => {
    const own =
      what === 'pickup'
        ? { name, title: answers.title }
        : { name: `${name}-${position}`, title: `${answers.title}, ${position}` };
    return ['', ...pickupLines(answers, { ...own, position, isReversed: isReversed(index, positions.length) })];
  });
  return [
    '# Begun with a few answers. What is not known yet is left out: the bench view lists the readings still missing.',
    ...partLines(answers),
    ...pickups,
    ...(what === 'instrument' ? ['', ...instrumentLines(answers, name)] : []),
  ];
}

/** The second of the pickups is wound and magnetised the other way, so that it and its neighbours sound in phase without hum. */
const isReversed = (index: number, count: number): boolean => count > 1 && index === 1;

/**
 * Of an instrument by its strings: scale and string spread in mm. Common practice, no published source; the maker's own
 * measures take their place.
 */
const MEASURES = {
  4: { scale: 864, bridge: 57, nut: 30, poles: 53, at: { bridge: 58, middle: 138, neck: 217 } },
  5: { scale: 864, bridge: 72, nut: 46, poles: 68, at: { bridge: 58, middle: 138, neck: 217 } },
  6: { scale: 648, bridge: 52.5, nut: 35.5, poles: 50, at: { bridge: 44, middle: 104, neck: 163 } },
  7: { scale: 648, bridge: 63, nut: 43, poles: 60, at: { bridge: 44, middle: 104, neck: 163 } },
  8: { scale: 686, bridge: 73.5, nut: 50, poles: 70, at: { bridge: 46, middle: 110, neck: 172 } },
} as const satisfies Readonly<Record<NewAnswers['strings'], unknown>>;

function partLines({ parts, coils, strings }: NewAnswers): readonly string[] {
  if (parts.kind === 'shelf') {
    return [
      `use ${quoted(parts.use)}`,
      ...(parts.ownMagnets || parts.magnet !== undefined ? [] : ['', ...barLines(strings)]),
    ];
  }
  const { poles } = MEASURES[strings];
  return [
    '',
    '# Usual measures: write what the caliper shows.',
    `wire new-wire {`,
    `  gauge ${parts.gauge} AWG`,
    '}',
    'bobbin new-bobbin {',
    `  core ${poles + 12} x 5.8 mm`,
    `  window ${coils === 1 ? '11 x 5.2' : '7.2 x 4.8'} mm`,
    `  poles ${strings} spread ${poles} mm`,
    coils === 1 ? '  pole rod alnico-5 4.8 x 16.5 mm' : '  pole slug steel 4.8 x 12.5 mm',
    '}',
    ...(coils === 1 ? [] : barLines(strings)),
  ];
}

const barLines = (strings: NewAnswers['strings']): readonly string[] => [
  'magnet new-bar {',
  '  material alnico-5',
  `  size ${MEASURES[strings].poles + 13} x 12.7 x 3.2 mm`,
  '}',
];

interface NewPickup {
  readonly name: string;
  readonly title: string;
  readonly position: string;
  readonly isReversed: boolean;
}

function pickupLines(answers: NewAnswers, { name, title, position, isReversed }: NewPickup): readonly string[] {
  const { strings, coils, leads, parts, turns } = answers;
  const [firstStart = '', firstFinish = '', secondStart = '', secondFinish = ''] = leads;
  const wound = rotationOf(isReversed ? 1 : -1);
  const [up, down] = isReversed ? (['south', 'north'] as const) : (['north', 'south'] as const);
  const bar = barOf(parts, coils);
  const coil = (coilName: string, start: string, finish: string, pole: string) => [
    `  coil ${coilName} {`,
    `    bobbin ${parts.kind === 'shelf' ? parts.bobbin : 'new-bobbin'}`,
    `    ${parts.kind === 'shelf' ? `${parts.wire.kind} ${parts.wire.name}` : 'wire new-wire'}`,
    ...(turns === undefined ? [] : [`    turns ${turns}`]),
    `    wound ${wound}`,
    ...(bar === undefined ? [`    polarity ${pole}-up`] : []),
    `    start ${start}`,
    `    finish ${finish}`,
    '  }',
  ];
  const first = coils === 1 ? 'main' : 'upper';
  return [
    `pickup ${name} ${quoted(title)} {`,
    `  position ${position}`,
    `  strings ${strings}`,
    ...coil(first, firstStart, firstFinish, up),
    ...(coils === 1 ? [] : coil('lower', secondStart, secondFinish, down)),
    ...(bar === undefined ? [] : [`  magnet ${bar} ${up} toward ${first}`]),
    '  cover none',
    '  hookup {',
    ...(coils === 1
      ? [`    hot ${firstFinish}`, `    ground ${firstStart}`]
      : [`    hot ${secondStart}`, `    link ${firstFinish} ${secondFinish}`, `    ground ${firstStart}`]),
    '  }',
    '}',
  ];
}

/** The bar below the coils; none where their poles are magnets. */
function barOf(parts: NewParts, coils: NewAnswers['coils']): string | undefined {
  if (parts.kind === 'shelf') return parts.ownMagnets ? undefined : (parts.magnet ?? 'new-bar');
  return coils === 1 ? undefined : 'new-bar';
}

function instrumentLines({ title, strings, coils, positions }: NewAnswers, name: string): readonly string[] {
  const { scale, bridge, nut, at } = MEASURES[strings];
  const track = coils === 1 ? '250 kohm' : '500 kohm';
  return [
    '# Usual measures: write those of the instrument.',
    `instrument ${name} ${quoted(title)} {`,
    `  scale ${scale} mm`,
    `  strings ${strings} spread ${bridge} mm at bridge, ${nut} mm at nut`,
    ...positions.map((position) => `  pickup ${position} ${name}-${position} at ${at[position]} mm`),
    '  controls {',
    `    volume ${track} audio`,
    `    tone ${track} audio with ${coils === 1 ? 47 : 22} nF`,
    '  }',
    '  selector {',
    ...sounding(positions).map((heard, index) => `    ${index + 1} "${heard.join(' + ')}" ${heard.join(' parallel ')}`),
    '  }',
    '}',
  ];
}

/** Each pickup alone, and between two neighbours both. */
const sounding = (positions: NewAnswers['positions']): readonly (readonly string[])[] =>
  positions.flatMap((position, index) => {
    const next = positions[index + 1];
    return next === undefined ? [[position]] : [[position], [position, next]];
  });

/** A text as the language writes it, on one line. */
const quoted = (text: string): string =>
  `"${text
    .replace(/\p{Cc}+/gu, ' ')
    .trim()
    .replace(/[\\"]/g, '\\$&')}"`;
