/** The text of a new spec from a few answers: complete but for its readings, in the one layout. */
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { rotationOf } from '../model/coil.ts';
import {
  isAsked,
  MEASURE_NAMES,
  type Measured,
  type MeasureName,
  measureIn,
  NEW_MAGNETS,
  NEW_POLES,
  type NewAnswers,
  type NewFile,
  type NewParts,
  usualPole,
} from './new-answers.ts';

/** The file, or why the answers give none. */
export function newSpec(answers: NewAnswers): NewFile | { readonly problem: string } {
  const problem = problemOf(answers);
  if (problem !== undefined) return { problem };
  const name = nameFrom(answers.title, answers.what);
  return { path: `${name}.pickup`, text: `${textOf(answers, name).join('\n')}\n` };
}

function problemOf({ title, coils, leads, positions, parts }: NewAnswers): string | undefined {
  if (title.trim() === '') return 'A title is needed.';
  if (positions.length === 0 || new Set(positions).size < positions.length) return 'Each position is named once.';
  if (leads.length !== 2 * coils) return `${2 * coils} leads are needed: start and finish of each coil.`;
  if (leads.some((lead) => !/^\p{L}[\p{L}\p{N}_-]*$/u.test(lead))) return 'A lead is a colour or another single word.';
  if (new Set(leads.map(canonicalLeadName)).size < leads.length) return 'Each lead has a name of its own.';
  const { pole = 'rod', magnet = 'alnico-5' } = measuredIn(parts);
  if (!NEW_POLES.includes(pole) || !NEW_MAGNETS.includes(magnet)) return `A pole is one of ${NEW_POLES.join(', ')}.`;
  const wrong = MEASURE_NAMES.find((name) => {
    const typed = measuredIn(parts)[name];
    return typed !== undefined && measureIn(name, typed) === undefined;
  });
  return wrong === undefined ? undefined : `${measuredIn(parts)[wrong]} is no such measure.`;
}

const measuredIn = (parts: NewParts): Measured => (parts.kind === 'described' ? (parts.measured ?? {}) : {});

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
  const measured = measuredIn(parts);
  const pole = measured.pole ?? usualPole(coils);
  const of = (name: MeasureName, usual: string): string => measureIn(name, measured[name] ?? '') ?? usual;
  const wire = of('wire', `${parts.gauge} AWG`);
  const grade = measured.magnet ?? 'alnico-5';
  const isOpen = MEASURE_NAMES.some((name) => isAsked(name, pole) && measured[name] === undefined);
  return [
    '',
    isOpen ? '# Usual measures where none was taken: write what the caliper shows.' : '# As measured on the bench.',
    ...(parts.measured !== undefined && measured.magnet === undefined
      ? ['# The grade of the magnet is not known; alnico-5 stands in its place.']
      : []),
    'wire new-wire {',
    `  ${wire.endsWith('AWG') ? 'gauge' : 'diameter'} ${wire}`,
    '}',
    'bobbin new-bobbin {',
    `  core ${of('core', `${poles + 12} x 5.8 mm`)}`,
    `  window ${of('window', coils === 1 ? '11 x 5.2 mm' : '7.2 x 4.8 mm')}`,
    `  poles ${of('poles', String(strings))} spread ${of('spread', `${poles} mm`)}`,
    `  pole ${pole} ${pole === 'rod' ? grade : 'steel'} ${of('poleSize', pole === 'rod' ? '4.8 x 16.5 mm' : pole === 'slug' ? '4.8 x 12.5 mm' : '3.4 x 16 mm')}`,
    '}',
    ...(pole === 'rod' ? [] : barLines(strings, grade, of('bar', usualBar(strings)))),
  ];
}

const usualBar = (strings: NewAnswers['strings']): string => `${MEASURES[strings].poles + 13} x 12.7 x 3.2 mm`;

const barLines = (strings: NewAnswers['strings'], grade = 'alnico-5', size = usualBar(strings)): readonly string[] => [
  'magnet new-bar {',
  `  material ${grade}`,
  `  size ${size}`,
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
  return (measuredIn(parts).pole ?? usualPole(coils)) === 'rod' ? undefined : 'new-bar';
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
