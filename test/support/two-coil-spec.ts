/** A sound two-coil pickup as text, for tests that change one thing in it. */
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
