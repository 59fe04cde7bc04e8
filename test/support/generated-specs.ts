/**
 * Specs made up from a seed: pickups of one to four coils of every kind, joined well or badly, with facts left out; and
 * instruments of two or three pickups with every kind of position. They use the parts of the samples' shop.
 */
import { type Chance, chance } from './chance.ts';

export interface MadeUpSpec {
  readonly name: string;
  readonly text: string;
}

/** The same number and seed give the same specs. Every fourth holds an instrument. */
export function generatedSpecs(count: number, seed = 1): readonly MadeUpSpec[] {
  return Array.from({ length: count }, (_, index) => {
    const luck = chance(seed * 100_003 + index);
    const kind = index % 4 === 3 ? 'instrument' : (SHAPES[index % SHAPES.length] ?? 'one');
    const body = kind === 'instrument' ? instrument(luck) : pickup(`made-${index}`, kind, luck).text;
    return { name: `${index}, ${kind}`, text: `use "shop.pickup"\n${body}` };
  });
}

const SHAPES = ['one', 'two', 'three', 'four', 'stacked', 'tapped', 'split bass', 'parallel', 'unknown leads'] as const;
type Shape = (typeof SHAPES)[number];

const COLOURS = ['violet', 'grey', 'pink', 'turquoise', 'orange', 'brown', 'white', 'RDBU', 'GNYE', 'black'] as const;
const TITLES = [
  'Plain',
  'Wren, bridge',
  'The one with a name that goes on and on until no sheet of paper could hold all of it on one line',
  'WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW',
  '<b>"Marked & up"</b>',
  'Größe Ωμ 弦 гитара',
  '\u202Edrawkcab',
] as const;

interface MadeCoil {
  readonly name: string;
  readonly start: string;
  readonly finish: string;
}

interface MadePickup {
  readonly text: string;
  readonly coils: readonly MadeCoil[];
  readonly tap: string | undefined;
}

function pickup(name: string, shape: Shape, luck: Chance, sound = false): MadePickup {
  const odds = (of: number) => luck.whole(of) === 0;
  const leads = shuffled(COLOURS, luck);
  const coils = NAMES[shape].map((coil, index) => ({
    name: coil,
    start: leads[2 * index] ?? 'red',
    finish: leads[2 * index + 1] ?? 'blue',
  }));
  const hasCable = shape === 'unknown leads' || odds(2);
  const tap = shape === 'tapped' ? leads[8] : undefined;
  const spare = hasCable && !sound && odds(4) ? leads[9] : undefined;
  const conductors = [
    ...coils.flatMap(({ start, finish }) => [start, finish]),
    ...(spare === undefined ? [] : [spare]),
  ];
  const shield = hasCable && odds(2);
  const metal = metalOf(shield, luck);
  const text = [
    `pickup ${name} "${luck.pick(TITLES).replaceAll('"', '\\"')}" {`,
    ...(odds(2) ? [`  serial RYD-${100 + luck.whole(900)}`] : []),
    ...(odds(2) ? ['  made 2026-03-14'] : []),
    ...(odds(4) ? [] : [`  strings ${shape === 'split bass' ? 4 : 6}`]),
    ...(hasCable ? [`  conductors ${conductors.join(' ')}`] : []),
    ...(shield ? ['  shield bare'] : []),
    ...(coils.length === 2 && shape !== 'stacked' && odds(2)
      ? [`  coils 18.5 mm apart, ${coils[luck.whole(2)]?.name} toward ${luck.pick(['bridge', 'neck'])}`]
      : []),
    ...coils.flatMap((coil, index) => coilLines(coil, index, { shape, hasCable, tap, luck })),
    ...metal,
    ...hookup(coils, { shape, spare, tap, shield, sound, luck }),
    ...readings(coils, shape, luck),
    '}',
    '',
  ].join('\n');
  return { text, coils, tap };
}

const NAMES: Readonly<Record<Shape, readonly string[]>> = {
  one: ['main'],
  two: ['screw', 'slug'],
  three: ['one', 'two', 'three'],
  four: ['outer-low', 'inner-low', 'inner-high', 'outer-high'],
  stacked: ['upper', 'lower'],
  tapped: ['main'],
  'split bass': ['low', 'high'],
  parallel: ['screw', 'slug'],
  'unknown leads': ['screw', 'slug'],
};

function coilLines(
  { name, start, finish }: MadeCoil,
  index: number,
  context: { shape: Shape; hasCable: boolean; tap: string | undefined; luck: Chance },
): readonly string[] {
  const { shape, hasCable, tap, luck } = context;
  const mostly = () => luck.whole(12) > 0;
  const bobbin = {
    stacked: index === 0 ? 'stack-upper' : 'stack-lower',
    'split bass': 'bass-half',
    one: luck.pick(['rod-six', 'slug-six', 'rod-eight']),
    tapped: 'rod-six',
  } as const;
  const wind = luck.pick(['clockwise', 'counterclockwise']);
  const pole = index % 2 === 0 || luck.whole(6) === 0 ? 'north-up' : 'south-up';
  const soldered = (lead: string) => (hasCable ? `${luck.pick(['', 'yellow ', 'gold ', 'BN '])}to ${lead}` : lead);
  const known = shape !== 'unknown leads';
  return [
    `  coil ${name} {`,
    `    bobbin ${shape in bobbin ? bobbin[shape as keyof typeof bobbin] : luck.pick(['slug-six', 'screw-six', 'rod-six'])}`,
    `    ${luck.pick(['wire plain-42', 'wire poly-43', 'spool RYD-W7', 'spool RYD-W9'])}`,
    ...(mostly()
      ? [`    ${luck.pick(['turns', 'counted'])} ${3800 + 10 * luck.whole(300)}${luck.pick(['', ' ± 20'])}`]
      : []),
    ...(mostly() && known ? [`    wound ${wind}`] : []),
    ...(shape === 'stacked' && index === 1 ? ['    below upper'] : mostly() ? [`    polarity ${pole}`] : []),
    ...(shape === 'split bass' ? [`    serves strings ${index === 0 ? '3 to 4' : '1 to 2'}`] : []),
    ...(known && mostly() ? [`    start ${soldered(start)}`] : []),
    ...(known && mostly() ? [`    finish ${soldered(finish)}`] : []),
    ...(tap === undefined ? [] : [`    tap ${2000 + 10 * luck.whole(150)} turns ${tap}`]),
    '  }',
  ];
}

function metalOf(shield: boolean, luck: Chance): readonly string[] {
  const tie = shield ? luck.pick([' tied to bare', ' tied to bare', '']) : '';
  return [
    ...(luck.whole(2) === 0 ? [`  baseplate ${luck.pick(['nickel-silver', 'brass', 'steel'])}${tie}`] : []),
    luck.pick(['  cover none', '  cover nickel-silver', `  cover brass${tie}`]),
  ];
}

/** Mostly as a winder means it, now and then with leads swapped, left out or joined wrongly. */
function hookup(
  coils: readonly MadeCoil[],
  {
    shape,
    spare,
    tap,
    shield,
    sound,
    luck,
  }: {
    shape: Shape;
    spare: string | undefined;
    tap: string | undefined;
    shield: boolean;
    sound: boolean;
    luck: Chance;
  },
): readonly string[] {
  const turned = coils.map(({ start, finish }, index) =>
    (index + luck.whole(4)) % 2 === 0 ? [start, finish] : [finish, start],
  );
  const enter = turned.map(([first = '']) => first);
  const leave = turned.map(([, second = '']) => second);
  const mistake = sound ? 9 : luck.whole(10);
  const isParallel = shape === 'parallel' || (shape === 'four' && luck.whole(3) === 0);
  const drain = shield ? ' bare' : '';
  const links = coils.slice(1).map((_, index) => `link ${leave[index]} ${enter[index + 1]}`);
  const lines = isParallel
    ? [`hot ${leave.join(' ')}`, `ground ${enter.join(' ')}${drain}`]
    : [
        `hot ${leave.at(-1)}`,
        ...(mistake === 0 ? links.slice(1) : links),
        `ground ${enter[0]}${mistake === 1 ? '' : drain}`,
      ];
  const split =
    mistake === 2 && coils.length === 2
      ? [`hot ${leave[1]}`, `ground ${enter[1]}`, `free ${enter[0]} ${leave[0]}`]
      : lines;
  const loose = [
    ...(spare === undefined || mistake === 3 ? [] : [spare]),
    ...(tap === undefined || mistake === 4 ? [] : [tap]),
  ];
  const free = loose.length === 0 ? [] : [`free ${loose.join(' ')}`];
  return ['  hookup {', ...[...split, ...free].map((line) => `    ${line}`), '  }'];
}

function readings(coils: readonly MadeCoil[], shape: Shape, luck: Chance): readonly string[] {
  if (shape !== 'unknown leads' && luck.whole(2) === 0) return [];
  const ohms = () => `${(3 + luck.whole(300) / 100).toFixed(2)} kohm`;
  const lines = coils.flatMap(({ name, start, finish }) =>
    shape === 'unknown leads'
      ? [
          `${start} to ${finish} ${ohms()}`,
          ...(luck.whole(4) === 0
            ? []
            : [`kick ${start} to ${finish} at ${name} approach ${luck.pick(['positive', 'negative'])}`]),
        ]
      : luck.whole(2) === 0
        ? [`${name} ${ohms()}`]
        : [`compass ${name} ${luck.pick(['north-up', 'south-up'])}`],
  );
  return ['  readings "on the bench" 2026-03-15 {', '    room 21 degC', ...lines.map((line) => `    ${line}`), '  }'];
}

function instrument(luck: Chance): string {
  const slots = luck.whole(2) === 0 ? ['neck', 'bridge'] : ['neck', 'middle', 'bridge'];
  const made = slots.map((slot) =>
    pickup(
      `made-${slot}`,
      luck.pick(['one', 'two', 'two', 'three', 'tapped', 'parallel', 'stacked']),
      luck,
      luck.whole(4) > 0,
    ),
  );
  const parts = slots.flatMap((slot, index) => {
    const { coils, tap } = made[index] ?? { coils: [], tap: undefined };
    const splits =
      coils.length < 2 ? [] : coils.flatMap(({ name }) => [`${slot}.${name}`, `${slot}.${name} through 4.7 kohm`]);
    return [slot, slot, ...splits, ...(tap === undefined ? [] : [`${slot}.${tap}`])];
  });
  const part = () => parts[luck.whole(parts.length)] ?? 'bridge';
  const position = () =>
    luck.pick([
      () => part(),
      () => `${part()} parallel ${part()}`,
      () => `${slots[0]} series ${slots.at(-1)}`,
      () => `${slots[0]} parallel reversed ${slots.at(-1)}`,
      () => `${slots[0]} parallel reversed ${slots.at(-1)}, on purpose`,
      () => `(${slots[0]} series ${slots.at(-1)}) parallel ${part()}`,
    ])();
  // Half of the selectors hold what contacts alone can make; the others also what needs crossings.
  const plain = luck.whole(2) === 0;
  const simple = () => luck.pick([() => part(), () => `${slots[0]} parallel ${slots.at(-1)}`])();
  const positions = Array.from({ length: 3 + luck.whole(3) }, (_, index) => {
    const title = luck.pick(['both', 'a title that goes on for far too long to fit anywhere', 'x', '<i>&amp;']);
    return `    ${index + 1} "${title}" ${plain ? simple() : position()}`;
  });
  return [
    ...made.map(({ text }) => text),
    `instrument made-up "${luck.pick(TITLES).replaceAll('"', '\\"')}" {`,
    '  scale 648 mm',
    '  strings 6 spread 52 mm at bridge, 35 mm at nut',
    ...slots.map((slot, index) => `  pickup ${slot} made-${slot} at ${160 - 55 * index} mm`),
    '  controls {',
    '    volume 500 kohm audio',
    ...(luck.whole(3) > 0 ? ['    tone 250 kohm audio with 22 nF'] : []),
    ...(luck.whole(3) === 0 ? ['    bleed 680 pF parallel 150 kohm'] : []),
    ...(luck.whole(3) === 0 ? [`    volume 500 kohm audio for ${slots[0]}`] : []),
    '  }',
    '  cable 4.5 m of 100 pF/m',
    '  input 1 Mohm',
    '  selector {',
    ...positions,
    '  }',
    '}',
    '',
  ].join('\n');
}

function shuffled<T>(from: readonly T[], luck: Chance): readonly T[] {
  const rest = [...from];
  return from.flatMap(() => rest.splice(luck.whole(rest.length), 1));
}
