/** Shelves and pickups made by chance, as text: for searches that are held against what they were made from, and against all turns. */
import { type Chance, chance } from './chance.ts';

export interface SeededCoil {
  readonly name: string;
  readonly bobbin: string;
  readonly spool: string;
  readonly turns: number;
}

export interface SeededBuild {
  readonly shelf: string;
  readonly coils: readonly SeededCoil[];
  readonly magnet: string | undefined;
  readonly bobbins: readonly string[];
  readonly spools: readonly string[];
  readonly magnets: readonly string[];
}

const GAUGES = [41, 42, 43, 44] as const;
/** Of copper by its table at 20 degC, ohm/m (handbook, rounded). */
const OHM_PER_M = { 41: 4.33, 42: 5.45, 43: 7.0, 44: 8.51 } as const;
const MAGNETS = ['alnico-2', 'alnico-5', 'ferrite'] as const;

export function seededBuild(seed: number, { bobbins = 3, spools = 3 } = {}): SeededBuild {
  const by = chance(seed);
  const isPair = by.whole(2) === 0;
  const bobbinNames = Array.from({ length: bobbins }, (_, index) => `bobbin-${index + 1}`);
  const spoolNames = Array.from({ length: spools }, (_, index) => `SP-${index + 1}`);
  const magnets = isPair ? MAGNETS.map((material) => `bar-${material}`) : [];
  const wires = GAUGES.map((gauge) => `wire w${gauge} {\n  gauge ${gauge} AWG\n}\n`);
  const shelf = [
    ...wires,
    ...spoolNames.map((name, index) => spoolText(name, GAUGES[(index + by.whole(2)) % GAUGES.length] ?? 42, by)),
    ...bobbinNames.map((name) => bobbinText(name, isPair, by)),
    ...magnets.map((name) => `magnet ${name} {\n  material ${name.slice(4)}\n  size 63 x 12.7 x 3.2 mm\n}\n`),
  ].join('');
  const [bobbin = '', spool = ''] = [bobbinNames[by.whole(bobbins)], spoolNames[by.whole(spools)]];
  const turns = 10 * (isPair ? 380 + by.whole(140) : 560 + by.whole(240));
  const coil = (name: string): SeededCoil => ({ name, bobbin, spool, turns });
  return {
    shelf,
    coils: isPair ? [coil('slug'), coil('screw')] : [coil('main')],
    magnet: magnets[by.whole(Math.max(1, magnets.length))],
    bobbins: bobbinNames,
    spools: spoolNames,
    magnets,
  };
}

function spoolText(name: string, gauge: keyof typeof OHM_PER_M, by: Chance): string {
  const ohm = OHM_PER_M[gauge] * (1 + (by.whole(61) - 30) / 1000);
  return `spool ${name} {\n  wire w${gauge}\n  left ${120 + by.whole(200)} g\n  measures ${ohm.toFixed(3)} ohm/m at 20 degC\n}\n`;
}

function bobbinText(name: string, isPair: boolean, by: Chance): string {
  const core = `${(58 + by.whole(60) / 10).toFixed(1)} x ${(5 + by.whole(12) / 10).toFixed(1)} mm`;
  const window = isPair
    ? `${(6.6 + by.whole(12) / 10).toFixed(1)} x ${(4.8 + by.whole(12) / 10).toFixed(1)} mm`
    : `${(10 + by.whole(20) / 10).toFixed(1)} x ${(5 + by.whole(12) / 10).toFixed(1)} mm`;
  const pole = isPair ? 'slug steel 4.8 x 12.5 mm' : 'rod alnico-5 4.8 x 16.5 mm';
  return `bobbin ${name} {\n  core ${core}\n  window ${window}\n  poles 6 spread 50 mm\n  pole ${pole}\n}\n`;
}

/** The pickup with what is left out, and a target. */
export function seededSpec(
  { shelf, coils, magnet }: SeededBuild,
  {
    target,
    without,
  }: {
    readonly target: string;
    readonly without: {
      readonly turns?: boolean;
      readonly wire?: boolean;
      readonly bobbin?: boolean;
      readonly magnet?: boolean;
    };
  },
): string {
  const pair = coils.length > 1;
  const blocks = coils.map(({ name, bobbin, spool, turns }, index) => {
    const lines = [
      ...(without.bobbin ? [] : [`bobbin ${bobbin}`]),
      ...(without.wire ? [] : [`spool ${spool}`]),
      ...(without.turns ? [] : [`turns ${turns}`]),
      'wound clockwise',
      ...(pair ? [] : ['polarity north-up']),
      `start a${index + 1}`,
      `finish b${index + 1}`,
    ];
    return `  coil ${name} {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
  });
  const bar = magnet && !without.magnet ? `  magnet ${magnet} north toward ${coils[0]?.name ?? ''}\n` : '';
  const hookup = pair ? '    hot a2\n    link b1 b2\n    ground a1\n' : '    hot b1\n    ground a1\n';
  return `${shelf}pickup seeded {\n  strings 6\n${bar}${blocks.join('')}  cover none\n  hookup {\n${hookup}  }\n  target {\n${target}  }\n}\n`;
}
