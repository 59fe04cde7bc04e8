/** Specs of any length for measuring: parts, one real mistake, and as many two-coil pickups as the length allows. */
export interface GeneratedSpec {
  readonly text: string;
  /** Offsets in the pickup in the middle: behind a digit of its turns, behind `wire `, in a fact's word, in a coil's name. */
  readonly digit: number;
  readonly name: number;
  readonly word: number;
  readonly coil: number;
}

export function generatedSpec(lines: number): GeneratedSpec {
  const count = Math.max(1, Math.round((lines - PARTS.split('\n').length) / (PICKUP.split('\n').length - 1)));
  const pickups = Array.from({ length: count }, (_, index) => PICKUP.replaceAll('NUMBER', String(index)));
  const text = PARTS + pickups.join('');
  const middle = text.indexOf(`pickup p${count >> 1} `);
  const behind = (piece: string): number => text.indexOf(piece, middle) + piece.length;
  return { text, digit: behind('turns 4_8'), name: behind('wire '), word: behind('pack'), coil: behind('coil scr') };
}

const PARTS = `wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
  enamel plain
}
wire wrong {
  gauge 42
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
  poles 6 spread 50.0 mm
  pole rod alnico-5 4.8 x 16.5 mm
  plastic fibre
}
`;

const PICKUP = `pickup pNUMBER "Pickup NUMBER" {
  strings 6
  conductors turquoise orange grey pink
  shield bare
  coil screw {
    bobbin rod-six
    wire plain-42
    turns 4_800
    wound clockwise
    packing 0.66
    start gold to pink
    finish brown to grey
    polarity north-up
  }
  coil slug {
    bobbin rod-six
    wire plain-42
    turns 4_800
    wound clockwise
    packing 0.66
    start gold to turquoise
    finish brown to orange
    polarity south-up
  }
  baseplate nickel-silver tied to bare
  cover none
  hookup {
    hot turquoise
    link orange grey
    ground pink bare
  }
}
`;
