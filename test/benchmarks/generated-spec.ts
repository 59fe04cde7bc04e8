/**
 * Specs of any length for measuring, as a shop writes them: parts, one real mistake, and as many two-coil pickups as the length allows,
 * each with its readings and in an instrument.
 */
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
  serial TB-NUMBER
  strings 6
  made 2026-03-11
  conductors turquoise orange grey pink
  shield bare
  coil screw {
    bobbin rod-six
    wire plain-42
    turns 4_800
    wound clockwise
    packing 0.66NUMBER
    start gold to pink
    finish brown to grey
    polarity north-up
  }
  coil slug {
    bobbin rod-six
    wire plain-42
    turns 4_850
    wound clockwise
    packing 0.65NUMBER
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
  readings "before the cover" 2026-03-11 {
    room 21 degC
    screw 3.9NUMBER kohm
    slug 3.9NUMBER kohm
    turquoise to baseplate 7.8NUMBER kohm
    kick turquoise to orange approach positive
  }
}
instrument iNUMBER "Instrument NUMBER" {
  scale 648 mm
  strings 6 spread 52.0 mm at bridge, 35.0 mm at nut
  pickup bridge pNUMBER at 43 mm
  controls {
    volume 500 kohm audio
    tone 500 kohm audio with 22 nF
  }
  cable 4.5 m of 100 pF/m
  input 1 Mohm
  selector {
    1 "bridge" bridge
    2 "split" bridge.slug
    3 "parallel" (bridge.slug parallel reversed bridge.screw)
  }
}
`;
