import type { NewFile } from './new-answers.ts';

/** A small invented shop that is complete and clean, to be changed line by line. */
export const STARTER_SHOP: readonly NewFile[] = [
  {
    path: 'shop.pickup',
    text: `# The bench: every spec of the shop uses this file and, through it, the parts.
use "parts/stock.pickup"
use "parts/switches.pickup"

bench {
  mains 50 Hz
  room 20 degC
  meter accuracy 1 % digits 3 resolution 10 ohm
}
`,
  },
  {
    path: 'parts/stock.pickup',
    text: `# Wires, spools, bobbins and magnets on the shelf.

wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm # by micrometer
  enamel plain
}

spool W1 {
  wire plain-42
  left 450 g
}

bobbin slug-six {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
  poles 6 spread 49.5 mm
  pole slug steel 4.8 x 12.5 mm
  plastic abs
}
bobbin screw-six like slug-six {
  pole screw steel 3.4 x 16 mm
}

magnet bar-5 {
  material alnico-5
  size 63.5 x 12.7 x 3.2 mm
}
`,
  },
  {
    path: 'parts/switches.pickup',
    text: `# Switches by their contact tables, for the shelf of any shop: what a meter finds in each detent. The names say no more than that.

switch lever-two-five "two poles, five throws" {
  pole a0 to a1 a2 a3 a4 a5 # in the n-th detent the common meets its n-th throw
  pole b0 to b1 b2 b3 b4 b5
}
switch lever-four-five "four poles, five throws" {
  pole a0 to a1 a2 a3 a4 a5
  pole b0 to b1 b2 b3 b4 b5
  pole c0 to c1 c2 c3 c4 c5
  pole d0 to d1 d2 d3 d4 d5
}
switch lever-two-bridging "two poles, three throws, five detents" {
  row a0 a1 a2 a3 # how the lugs lie, seen from the soldering side
  row b0 b1 b2 b3
  detent 1 joins a0 a1, joins b0 b1
  detent 2 joins a0 a1 a2, joins b0 b1 b2
  detent 3 joins a0 a2, joins b0 b2
  detent 4 joins a0 a2 a3, joins b0 b2 b3
  detent 5 joins a0 a3, joins b0 b3
  travel make-before-break
}
switch push-pull-two "two poles, two throws, on a pot" {
  row a1 a0 a2
  row b1 b0 b2
  detent down joins a0 a1, joins b0 b1
  detent up joins a0 a2, joins b0 b2
}
switch toggle-both "one pole, the middle joins both" {
  row a1 a0 a2
  detent up joins a0 a1
  detent middle joins a0 a1 a2
  detent down joins a0 a2
  travel make-before-break
}
switch on-on-on-a "two poles: in the middle a stays up, b is down already" like push-pull-two {
  detent up joins a0 a1, joins b0 b1
  detent middle joins a0 a1, joins b0 b2
  detent down joins a0 a2, joins b0 b2
}
switch centre-off "two poles, two throws, the middle joins nothing" like push-pull-two {
  detent up joins a0 a1, joins b0 b1
  detent middle open
  detent down joins a0 a2, joins b0 b2
}
switch rotary-two-six "two wafers of one pole, six throws" {
  row a0 a1 a2 a3 a4 a5 a6
  row b0 b1 b2 b3 b4 b5 b6
  pole a0 to a1 a2 a3 a4 a5 a6
  pole b0 to b1 b2 b3 b4 b5 b6
}
`,
  },
  {
    path: 'first-bridge.pickup',
    text: `# Two coils in series, in phase, hum-cancelling. Swap start and finish of one coil and see what check says.
use "shop.pickup"

pickup first-bridge "First, bridge" {
  serial 001
  position bridge
  strings 6

  conductors violet grey pink turquoise
  shield bare

  coil screw {
    bobbin screw-six
    spool W1
    turns 5_000
    wound clockwise
    packing 0.66
    start gold to pink
    finish brown to turquoise
  }
  coil slug like screw {
    bobbin slug-six
    start gold to violet
    finish brown to grey
  }

  magnet bar-5 north toward screw
  baseplate nickel-silver tied to bare
  cover none

  hookup {
    hot violet
    link grey turquoise
    ground pink
    shield bare
  }
}
`,
  },
  {
    path: 'first-guitar.pickup',
    text: `# An instrument with one pickup: both coils, or the slug coil alone.
use "first-bridge.pickup"

instrument first-guitar "First guitar" {
  scale 648 mm
  strings 6 spread 52.0 mm at bridge, 35.0 mm at nut
  pickup bridge first-bridge at 42 mm

  controls {
    volume 500 kohm audio
    tone 500 kohm audio with 22 nF
  }
  cable 4.5 m of 100 pF/m
  input 1 Mohm

  selector {
    1 "both coils" bridge
    2 "slug coil" bridge.slug
  }
}
`,
  },
];
