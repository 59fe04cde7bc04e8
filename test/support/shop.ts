/** The test shop: parts and pickups as text, for tests that change one thing in them. All of them are made up. */

/** A shop with one of each part, so that a test writes only what it is about. */
export const PARTS = `wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
  enamel plain
}
spool RYD-W7 {
  wire plain-42
  measures 5.52 ohm/m at 20 degC
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
  poles 6 spread 50.0 mm
  pole rod alnico-5 4.8 x 16.5 mm
  plastic fibre
}
magnet bar-5 {
  material alnico-5
  size 63.5 x 12.7 x 3.2 mm
}
`;

/** One coil, its two leads as hot and ground: reads without a finding. */
export const SINGLE = `use "parts.pickup"

pickup wren "Wren" {
  strings 6
  coil main {
    bobbin rod-six
    wire plain-42
    turns 7_700
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  cover none
  hookup {
    hot violet
    ground grey
  }
}
`;

/** The shop of the two-coil pickup. */
export const SHOP = `bench {
  room 21 degC
  meter accuracy 0.8 % digits 2 resolution 10 ohm
}
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
spool RYD-W7 {
  wire plain-42
  measures 5.52 ohm/m at 20 degC
}
bobbin six {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
}
`;

const JOINED = 'hot turquoise\n    link orange grey\n    ground pink bare';

/** Coils of 5,000 turns from one spool: about 4.02 kohm each at 21 degC. `inside` is what follows the hookup. */
export const twoCoils = (inside = '', { hookup = JOINED, turns = '    turns 5_000\n' } = {}) => `use "shop.pickup"
pickup heron {
  conductors turquoise orange grey pink
  shield bare
  coil screw {
    bobbin six
    spool RYD-W7
${turns}    wound clockwise
    packing 0.66
    start to pink
    finish to grey
    polarity north-up
  }
  coil slug like screw {
    start to turquoise
    finish to orange
    polarity south-up
  }
  baseplate nickel-silver tied to bare
  hookup {
    ${hookup}
  }
${inside}}
`;

export const WITH_SHOP = { 'shop.pickup': SHOP };

export interface CoilText {
  readonly name?: string;
  /** Length and width of the core, corner radius where its ends are not round, mm. */
  readonly coreMm?: readonly [number, number] | readonly [number, number, number];
  readonly heightMm?: number;
  readonly bareMm?: number;
  readonly overallMm?: number;
  /** Further facts of the coil, one a line. */
  readonly facts?: string;
  readonly wound?: 'clockwise' | 'counterclockwise';
  /** Poles of its bobbin. */
  readonly pole?: string;
}

/**
 * Specs put together from numbers, as a winder would write them: one or more coils, each with leads `a1 b1`, `a2 b2`; `hookup` joins
 * them.
 */
export function pickupText(
  coils: readonly CoilText[],
  {
    hookup,
    readings = '',
    facts = '',
    bench = '',
  }: { hookup: string; readings?: string; facts?: string; bench?: string },
): string {
  const parts = coils.map((coil, index) => {
    const { coreMm = [60, 6], heightMm = 7, bareMm = 0.0635, overallMm = 0.07, pole = 'pole none' } = coil;
    const [length, width, corner] = coreMm;
    const n = index + 1;
    return `wire w${n} {\n  diameter ${bareMm} mm\n  overall ${overallMm} mm\n}
bobbin f${n} {\n  core ${length} x ${width} mm${corner === undefined ? '' : ` corner ${corner} mm`}\n  window ${heightMm} x 25 mm\n  ${pole}\n}\n`;
  });
  const blocks = coils.map(
    ({ name, facts: own = '', wound = 'clockwise' }, index) => `  coil ${name ?? `c${index + 1}`} {
    bobbin f${index + 1}
    wire w${index + 1}
    wound ${wound}
    polarity ${index % 2 === 0 ? 'north-up' : 'south-up'}
    start a${index + 1}
    finish b${index + 1}
${own}
  }\n`,
  );
  return `${bench}${parts.join('')}pickup wren {\n${facts}\n${blocks.join('')}  hookup {\n${hookup}\n  }\n${readings}}\n`;
}

/** Hookups for them. */
export const ALONE = '    hot b1\n    ground a1';
/** Series, finish to finish: coils wound alike are in phase with opposite poles, hum cancels. */
export const HUM_CANCELLING = '    hot a2\n    link b1 b2\n    ground a1';
export const PARALLEL = '    hot b1 a2\n    ground a1 b2';

/** The bobbin of the pickup below. */
export const plainBobbin = (poles = '') => `bobbin b {
  core 60 x 5.8 mm
  window 11 x 6 mm
${poles}}
`;

/** One coil `c` from blue to orange, by its resistance as read; the lines of `facts` stand in the coil. */
export const plainPickup = ({
  name = 'p',
  strings = '',
  facts = '',
  readings = read('6.00 kohm'),
} = {}) => `pickup ${name} {
${strings}  coil c {
    bobbin b
    wire w
${facts}    wound clockwise
    polarity north-up
    start blue
    finish orange
  }
  hookup {
    hot orange
    ground blue
  }
${readings}}
`;

export const read = (resistance: string) => `  readings "bench" {\n    c ${resistance} at 20 degC\n  }\n`;

/** A sound pickup of one coil: `built` says what it is wound from and on, `inside` is what follows the hookup. */
export const single = (
  name: string,
  { head = '', built = '', turns = '7_700', wound = 'clockwise', hot = 'violet', ground = 'grey', inside = '' } = {},
) => `pickup ${name} {
${head}  coil main {
${built}    turns ${turns}
    wound ${wound}
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot ${hot}
    ground ${ground}
  }
${inside}}
`;
