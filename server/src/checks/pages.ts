/** Generated from the pages beside this file by `npm run generate`; change a page, then run that. */

const pages = {
  'accept/unused': `# accept/unused

Warning. An acceptance covers nothing.

## What is wrong

The finding that this line accepts is not found in its block any more.

## Why it matters

An acceptance is a promise that somebody looked. Left behind, it would hide the same fault when it comes back.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  accept potting/too-hot "tried on a scrap bobbin"
  potting {
    wax paraffin 80 % beeswax 20 %
    bath 60 degC
    soak 15 min
    batch 400 g
  }
}
\`\`\`

## Corrected example

The bath was lowered, and the line removed.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  potting {
    wax paraffin 80 % beeswax 20 %
    bath 60 degC
    soak 15 min
    batch 400 g
  }
}
\`\`\`
`,
  'analysis/incomplete': `# analysis/incomplete

Error. Something here was not analysed.

## What is wrong

The text goes past a limit that the message states (parentheses, blocks, or blocks made from each other, too deep to be read), or the program itself failed at this place. What is told of other pickups and files still holds; of this place nothing is known.

## Why it matters

A place that nobody looked at must not look clean.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument bower {
  pickup bridge wren
  selector {
    1 "bridge" ((((((((((((((((((((((((((((((((((bridge))))))))))))))))))))))))))))))))))
  }
}
\`\`\`

## Corrected example

A name needs no parentheses.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument bower {
  pickup bridge wren
  selector {
    1 "bridge" bridge
  }
}
\`\`\`
`,
  'circuit/coil-shorted': `# circuit/coil-shorted

Error. Both ends of a coil are joined.

## What is wrong

The coil's start and finish are joined, so it drives nothing.

## Why it matters

A shorted coil neither sounds nor cancels hum, and half the resistance is missing at the meter. It happens where the link of a series pair is tied to ground as for a split.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    ground pink grey turquoise
  }
}
\`\`\`

## Corrected example

The link stands by itself; only the free end of the screw coil goes to ground.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`
`,
  'circuit/open': `# circuit/open

Error. No path leads from hot to ground.

## What is wrong

The coils do not form a path between hot and ground: a link is missing, or no lead is hot or ground. The message names the leads that are joined to nothing because of it. In a selector position: it takes a lead that no coil is soldered to, or nothing of what it names drives the output.

## Why it matters

Without a path no current flows and the pickup is silent; a meter reads open. One missing series link leaves two leads floating: both are told here, once.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    ground pink
  }
}
\`\`\`

## Corrected example

The series link joins the two finishes.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`
`,
  'circuit/output-shorted': `# circuit/output-shorted

Error. Hot and ground are joined.

## What is wrong

Something joins hot and ground: a lead named in both lines, or a shield soldered under hot while it lies on ground. In a selector position: a tap that is taken at the ground lead of its pickup.

## Why it matters

A short across the output silences the pickup, and a meter reads next to nothing. What else follows (metal on hot, a lead in two nets) is told in the same message.

## Faulty example

\`\`\`pickup
pickup heron {
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet bare
    link grey turquoise
    ground pink bare
  }
}
\`\`\`

## Corrected example

The drain wire goes to ground only.

\`\`\`pickup
pickup heron {
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink bare
  }
}
\`\`\`
`,
  'controls/pot-too-small': `# controls/pot-too-small

Information. A volume or tone control is small against the pickup that it loads.

## What is wrong

The track is less than about 20 times the resistance of the largest pickup that the control serves.

## Why it matters

A pot lies across the pickup, full up too. Against a coil of some kilohm, 250 to 500 kΩ barely touch the level but set how high the resonance peak stands; a track of some tens of kilohm flattens it and takes the treble away. The factor of 20 is common practice, no published source: 250 kΩ behind 6 to 8 kΩ and 500 kΩ behind 8 to 17 kΩ are usual.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren-bridge {
  coil main {
    wire plain-42
    bobbin rod-six
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  coil main {
    wire plain-42
    bobbin rod-six
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  controls {
    volume 100 kohm audio
  }
  selector {
    1 "bridge" bridge
    2 "both" bridge parallel neck
    3 "neck" neck
  }
}
\`\`\`

## Corrected example

A usual value for single coils.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren-bridge {
  coil main {
    wire plain-42
    bobbin rod-six
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  coil main {
    wire plain-42
    bobbin rod-six
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  controls {
    volume 250 kohm audio
  }
  selector {
    1 "bridge" bridge
    2 "both" bridge parallel neck
    3 "neck" neck
  }
}
\`\`\`

## Take care

Where the dark sound is wanted, accept the finding with a word why: \`accept controls/pot-too-small "as dark as the old one"\`.
`,
  'fit/former-state': `# fit/former-state

Warning. An instrument fits a pickup that another one reworks.

## What is wrong

A pickup that is named by \`reworks\` stays in the file as a record of how it was. The instrument names that record, not the pickup as it is now.

## Why it matters

Phase, hum, output and the reading at the jack are then told of coils, a magnet or joints that are no more. Only the newest state can be fitted.

## Faulty example

\`\`\`pickup
pickup heron-found {
  coil main {
    turns 7_500
    wound clockwise
    polarity north-up
    start pink
    finish violet
  }
  hookup {
    hot violet
    ground pink
  }
}
pickup heron reworks heron-found {
  coil main {
    polarity south-up, turned
  }
}
instrument wren {
  pickup neck heron-found
  selector {
    1 neck
  }
}
\`\`\`

## Corrected example

\`\`\`pickup
pickup heron-found {
  coil main {
    turns 7_500
    wound clockwise
    polarity north-up
    start pink
    finish violet
  }
  hookup {
    hot violet
    ground pink
  }
}
pickup heron reworks heron-found {
  coil main {
    polarity south-up, turned
  }
}
instrument wren {
  pickup neck heron
  selector {
    1 neck
  }
}
\`\`\`
`,
  'fit/pole-spread': `# fit/pole-spread

Warning. The outer poles do not lie under the outer strings.

## What is wrong

At the pickup's place the strings are more than 1.5 mm beside the outer poles. The spread of the strings there lies between that at the bridge and that at the nut, in proportion to the distance from the saddle over the scale.

## Why it matters

A string beside its pole is heard weaker, and weaker still when it is bent outward. Up to 1 mm is good, beyond 1.5 mm is heard (common practice, no published source).

## Faulty example

\`\`\`pickup
bobbin wide-six {
  poles 6 spread 51.0 mm
  pole rod alnico-5 4.8 x 16.5 mm
}
bobbin neck-six {
  poles 6 spread 52.0 mm
  pole rod alnico-5 4.8 x 16.5 mm
}
pickup wren-bridge {
  coil main {
    bobbin wide-six
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  coil main {
    bobbin neck-six
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  scale 648 mm
  strings 6 spread 52.0 mm at bridge, 35.0 mm at nut
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  selector {
    1 "bridge" bridge
    2 "both" bridge parallel neck
    3 "neck" neck
  }
}
\`\`\`

## Corrected example

A bobbin for the neck: 49.5 mm where the strings are 47.8 mm apart.

\`\`\`pickup
bobbin wide-six {
  poles 6 spread 51.0 mm
  pole rod alnico-5 4.8 x 16.5 mm
}
bobbin neck-six {
  poles 6 spread 49.5 mm
  pole rod alnico-5 4.8 x 16.5 mm
}
pickup wren-bridge {
  coil main {
    bobbin wide-six
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  coil main {
    bobbin neck-six
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  scale 648 mm
  strings 6 spread 52.0 mm at bridge, 35.0 mm at nut
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  selector {
    1 "bridge" bridge
    2 "both" bridge parallel neck
    3 "neck" neck
  }
}
\`\`\`
`,
  'fit/strings': `# fit/strings

Information. A pickup is made for another number of strings than the instrument has.

## What is wrong

The pickup says how many strings it is for, and the instrument it is fitted in has more or fewer.

## Why it matters

A string without a pole of its own is weak, and a pole without a string costs nothing but looks. Rails and wide coils may serve all the same: then accept the finding with a word why.

## Faulty example

\`\`\`pickup
pickup wren-bridge {
  strings 7
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  strings 6
  coil main {
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  scale 648 mm
  strings 6 spread 52.0 mm at bridge, 35.0 mm at nut
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  selector {
    1 "bridge" bridge
    2 "both" bridge parallel neck
    3 "neck" neck
  }
}
\`\`\`

## Corrected example

The pickup for six strings.

\`\`\`pickup
pickup wren-bridge {
  strings 6
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  strings 6
  coil main {
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  scale 648 mm
  strings 6 spread 52.0 mm at bridge, 35.0 mm at nut
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  selector {
    1 "bridge" bridge
    2 "both" bridge parallel neck
    3 "neck" neck
  }
}
\`\`\`
`,
  'ground/metal-floating': `# ground/metal-floating

Warning. Baseplate, cover or shield is joined to nothing.

## What is wrong

A metal part near the coils is tied to no lead.

## Why it matters

Metal that is joined to nothing couples the field of the mains, and of the hand that touches it, into the coils: it buzzes when touched instead of shielding. Tie it to the shield, or to another part that is tied.

## Faulty example

\`\`\`pickup
pickup heron {
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink bare
  }
  cover nickel-silver
}
\`\`\`

## Corrected example

The cover is tied to the shield's lead.

\`\`\`pickup
pickup heron {
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink bare
  }
  cover nickel-silver tied to bare
}
\`\`\`

## Take care

A cover takes much heat: solder it quickly at one or two spots, away from wax and coils.
`,
  'ground/metal-hot': `# ground/metal-hot

Error. Metal lies on hot or in the middle of the circuit.

## What is wrong

Baseplate, cover or shield is joined to hot, or to a point between the coils, instead of to ground.

## Why it matters

Touching such metal hums, and where it meets grounded foil or strings the pickup falls silent. It happens where a pickup whose braid carries a coil's end is reversed by its two leads: to reverse it, turn the bar magnet over (rods are magnetised the other way where they are), or bring the metal out on a \`shield\` line of its own.

## Faulty example

\`\`\`pickup
pickup heron {
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet bare
    link grey turquoise
    ground pink
  }
}
\`\`\`

## Corrected example

The shield goes to ground by itself, so the two leads of the pickup can change places without it.

\`\`\`pickup
pickup heron {
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
    shield bare
  }
}
\`\`\`

## Take care

Mark the face toward the screw coil before a magnet moves.
`,
  'hum/not-cancelled': `# hum/not-cancelled

Error. Coils of one pickup add their hum.

## What is wrong

The coils are in phase, or never sound together, but the path turns the same way round in each of them, so a stray mains field induces the same sign in all.

## Why it matters

A mains field reaches all coils alike and knows nothing of poles: its sign depends on the winding direction and on the end where the path enters. Hum cancels where these are opposite; for the strings still to add, the poles must be unlike. Two coils with like poles can do one or the other, never both, and the message says so. A single coil hums by nature and is not reported.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    start turquoise
    finish violet
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`

## Corrected example

The slug coil's poles are turned over and its leads swapped: both changes together keep the two in phase and cancel hum. Where the hum is meant, say \`on purpose\` in the hookup.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`

## Take care

Mark the face toward the screw coil before a magnet moves.
`,
  'hum/partly-cancelled': `# hum/partly-cancelled

Information. Unequal coils leave a part of the hum.

## What is wrong

The coils cancel hum, but not all of it: by the best estimate more than -30 dB of the stronger coil's hum is left. The message says how much, and what one standard deviation more would leave.

## Why it matters

What a mains field induces goes with turns times the area they enclose. A difference of 1 % leaves -40 dB, 5 % -26 dB, 20 % -14 dB. Resistance says little: finer wire reads higher at the same turns, so coils are matched by turns. In parallel each coil also weighs by its resistance, and equal turns of two gauges no longer null. Steel poles limit a real null to about -30 dB, which is why less is not reported.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin six {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
}
pickup heron {
  coil screw {
    bobbin six
    wire plain-42
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    turns 4_000
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`

## Corrected example

Both coils have the same turns. Where the mismatch is meant, say \`on purpose\` in the hookup.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin six {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
}
pickup heron {
  coil screw {
    bobbin six
    wire plain-42
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`
`,
  'hum/position-hums': `# hum/position-hums

Warning. A selector position hums although another choice of its coils would hum at most half as much.

## What is wrong

The coils that sound in this position add their hum; another coil of the same pickups would take at least 6 dB off it. Or a dummy coil, which no string drives and which is there for its hum alone, adds its hum: \`reversed\` turns it round; told as an error.

## Why it matters

A split keeps one coil. Whether it cancels hum with a neighbour depends on which one: in an instrument that is in phase everywhere, two coils cancel hum exactly where their poles are unlike. So the split has to keep the coil whose poles differ from the neighbour's.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
pickup wren {
  coil main {
    turns 5_000
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  pickup middle wren at 100 mm
  pickup bridge heron at 42 mm
  selector {
    1 "bridge" bridge
    2 "bridge, split, and middle" bridge.screw parallel middle
    3 "middle" middle
  }
}
\`\`\`

## Corrected example

The split keeps the other coil, whose poles are unlike those of the middle pickup.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
pickup wren {
  coil main {
    turns 5_000
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  pickup middle wren at 100 mm
  pickup bridge heron at 42 mm
  selector {
    1 "bridge" bridge
    2 "bridge, split, and middle" bridge.slug parallel middle
    3 "middle" middle
  }
}
\`\`\`
`,
  'lead/floating': `# lead/floating

Error. A lead is joined to nothing.

## What is wrong

The lead leaves the pickup, and neither a coil nor the hookup joins it to anything.

## Why it matters

An open end is an aerial: it carries noise along the cable. If it was meant for a switch or is to be taped off, the spec says so with \`free\`; if it was forgotten, the joint is missing.

## Faulty example

\`\`\`pickup
pickup heron {
  conductors orange
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`

## Corrected example

The spare conductor is taped off and stated as \`free\`.

\`\`\`pickup
pickup heron {
  conductors orange
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
    free orange
  }
}
\`\`\`
`,
  'lead/reused': `# lead/reused

Error. A lead lies in two joints, or two parts bring out leads of one name.

## What is wrong

A name in the hookup must mean one lead. Here two parts bring out the same colour, or one lead is named in two lines.

## Why it matters

Colours of two coils need not agree, and a kept coil beside a new one often repeats them: then a line such as \`link brown grey\` can mean either. A lead in two lines makes both lines one joint, which is seldom what was meant.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start grey
    finish turquoise
  }
  hookup {
    hot grey
    link grey turquoise
    ground pink
  }
}
\`\`\`

## Corrected example

The link names the screw coil's end, so it is plain which lead it joins: that end is then an inner joint and leaves the pickup no more, and the one grey lead left is the slug coil's.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start grey
    finish turquoise
  }
  hookup {
    hot grey
    link screw.finish turquoise
    ground pink
  }
}
\`\`\`
`,
  'lead/undeclared': `# lead/undeclared

Error. A line names a lead that no part brings out.

## What is wrong

The hookup or a coil names a lead that is neither a conductor, a coil's lead, the shield nor a metal part. What follows from it (an end left open, a broken path) is not reported apart.

## Why it matters

A slip of the pen in a colour's name leaves a joint that is not there. Colours are those of IEC 60757, by name or by code.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link gray turquoise
    ground pink
  }
}
\`\`\`

## Corrected example

The colour is written as IEC 60757 spells it: \`grey\`.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`
`,
  'name/cycle': `# name/cycle

Error. Blocks are made from each other.

## What is wrong

\`like\` leads back to where it began: each of these blocks takes its design from the other.

## Why it matters

Neither has facts of its own to start from, so nothing can be taken over.

## Faulty example

\`\`\`pickup
bobbin tall-six like low-six {
  plastic abs
}
bobbin low-six like tall-six {
  plastic fibre
}
\`\`\`

## Corrected example

One of the two stands by itself.

\`\`\`pickup
bobbin tall-six {
  plastic abs
}
bobbin low-six like tall-six {
  plastic fibre
}
\`\`\`
`,
  'name/duplicate': `# name/duplicate

Error. A name, or a fact that is stated once, is stated twice.

## What is wrong

Two blocks of one kind share a name, or one block states a single fact twice. Two positions of a selector share a number.

## Why it matters

A name belongs to one thing, and a coil has one number of turns: with two of them, which one counts is left to chance.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}
wire plain-42 {
  gauge 43 AWG
}
\`\`\`

## Corrected example

Each wire has a name of its own.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}
wire plain-43 {
  gauge 43 AWG
}
\`\`\`
`,
  'name/unknown': `# name/unknown

Error. A name is declared nowhere.

## What is wrong

There is no block of that kind and name in this file or in the files it uses.

## Why it matters

A wire, bobbin or magnet that is not found leaves everything open that rests on it. That turns or resistance cannot be computed then follows from it and is not reported apart. While a used file is missing, names that may have come from it are not reported.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}
spool RYD-W7 {
  wire plane-42
}
\`\`\`

## Corrected example

The name as it is declared.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}
spool RYD-W7 {
  wire plain-42
}
\`\`\`
`,
  'output/level-jump': `# output/level-jump

Information. Two neighbouring positions of the selector differ much in level.

## What is wrong

By turns and load the output of one position is more than 8 dB above that of its neighbour. Positions that join pickups in series, that are out of phase or that are said to be on purpose are left out.

## Why it matters

The player hears a jump with every switch. Turns decide the level where coils are alike; the height under the strings and the place along them add to it and are not known here. The limit of 8 dB is common practice, no published source.

## Faulty example

\`\`\`pickup
pickup wren-bridge {
  coil main {
    turns 8_300
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  coil main {
    turns 3_000
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  selector {
    1 "bridge" bridge
    2 "neck" neck
  }
}
\`\`\`

## Corrected example

The neck pickup has turns to match.

\`\`\`pickup
pickup wren-bridge {
  coil main {
    turns 8_300
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  coil main {
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  selector {
    1 "bridge" bridge
    2 "neck" neck
  }
}
\`\`\`

## Take care

A weaker pickup may be brought nearer to the strings for a few decibels; against more than that, turns help.
`,
  'phase/coils-cancel': `# phase/coils-cancel

Error. Coils that sound together work against each other.

## What is wrong

The path from ground to hot runs through the coils so that what a string induces in one is taken away by the other. The message names the coil that stands against the rest, its start and its finish.

## Why it matters

Seen from the strings, three things fix the direction of a coil's signal: which way it is wound from start to finish, which pole is up, and at which end the path enters. Turning over any one of the three turns the signal over. Two coils that differ in an odd number of them subtract: the sound is thin and weak. Where the poles are unlike, the same slip makes hum add, so the message then tells both; a coil stated \`below\` another is meant to oppose it and is not reported.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link pink turquoise
    ground grey
  }
}
\`\`\`

## Corrected example

The screw coil's leads change places: the path now enters both coils so that their signals add, and hum cancels. Turning one coil's poles over would put them in phase as well, but then hum adds: what is offered has been solved again first.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`

## Take care

Mark the face toward the screw coil before a magnet moves.
`,
  'phase/position-cancels': `# phase/position-cancels

Error. Pickups of a selector position work against each other.

## What is wrong

In this position the string signals of two pickups subtract, although each is right inside.

## Why it matters

A pickup that is turned over as a whole (its magnet put back the other way up, or its two leads swapped) sounds as before alone and thin beside another. Nothing inside it needs a change: turn its bar magnet over (rods are magnetised the other way where they are), or swap its leads where no metal lies on its ground.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup lark like wren {
  coil main {
    polarity south-up
  }
}
instrument juniper {
  pickup neck wren at 160 mm
  pickup bridge lark at 42 mm
  selector {
    1 "neck" neck
    2 "both" neck parallel bridge
    3 "bridge" bridge
  }
}
\`\`\`

## Corrected example

One of the two is wound the other way as well as having the other pole up: the two are in phase, and the position cancels hum. Where the thin sound is meant, say \`on purpose\` after the combination.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup lark like wren {
  coil main {
    wound counterclockwise
    polarity south-up
  }
}
instrument juniper {
  pickup neck wren at 160 mm
  pickup bridge lark at 42 mm
  selector {
    1 "neck" neck
    2 "both" neck parallel bridge
    3 "bridge" bridge
  }
}
\`\`\`

## Take care

Mark the face toward the screw coil before a magnet moves.
`,
  'phase/unproven': `# phase/unproven

Information. A sign that phase or hum depends on is neither stated nor measured.

## What is wrong

How a coil is wound, or which pole it has up, is nowhere stated, and no reading fixes it. The message names the one measurement that settles it. Between pickups it is told once, at the first selector position that needs the sign.

## Why it matters

A direction is never assumed. A kick (steel brought near the poles, the meter on the coil's leads) fixes winding direction and pole taken together, which is all that phase needs; a compass fixes the pole, and with a kick it settles hum too. Approach and pull-off read opposite, so the line says which it was.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    wound clockwise
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
\`\`\`

## Corrected example

A kick was taken: with its pole known, the winding direction follows.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    wound clockwise
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
  readings "on the bench" 2026-10-02 {
    kick grey to pink approach positive
  }
}
\`\`\`

## Take care

Check the compass on a known pole first; a strong magnet can turn its needle over for good.
`,
  'photo/missing': `# photo/missing

Warning. The file of a photograph does not exist.

## What is wrong

There is no file at this path, counted from the file that names it.

## Why it matters

A photograph is looked for when the wiring can no longer be seen: a wrong path is better found now than then. Correct it, or take the line out.

## Faulty example

\`\`\`pickup
instrument juniper "Juniper" {
  photo "photos/heron-laeds.jpg" "leads as found"
}
\`\`\`

## Corrected example

\`\`\`pickup
instrument juniper "Juniper" {
  photo "photos/heron-leads.jpg" "leads as found"
}
\`\`\`
`,
  'photo/outside': `# photo/outside

Error. A photograph lies outside the workspace.

## What is wrong

The path is absolute, or climbs out of the workspace, or a link on it leads out.

## Why it matters

A spec may come from anyone: nothing outside the folder that was opened is ever read, whether or not it exists. Copy the photograph into the workspace.

## Faulty example

\`\`\`pickup
instrument juniper "Juniper" {
  photo "../../../heron-leads.jpg" "leads as found"
}
\`\`\`

## Corrected example

\`\`\`pickup
instrument juniper "Juniper" {
  photo "photos/heron-leads.jpg" "leads as found"
}
\`\`\`
`,
  'photo/too-large': `# photo/too-large

Warning. A photograph is larger than is shown.

## What is wrong

The file has more than 20 MB, or its picture more than 50 megapixels.

## Why it matters

A bench view or a hand-over card with such pictures no longer opens in reasonable time. A copy of a few megapixels shows every lead and joint.

## Faulty example

\`\`\`pickup
instrument juniper "Juniper" {
  photo "photos/scan.png" "leads as found"
}
\`\`\`

## Corrected example

\`\`\`pickup
instrument juniper "Juniper" {
  photo "photos/heron-leads.jpg" "leads as found"
}
\`\`\`
`,
  'photo/unreadable': `# photo/unreadable

Warning. A photograph cannot be shown.

## What is wrong

The file is no JPEG, PNG or WebP, whatever its name says; or it is damaged, ends before its picture does, or may not be read.

## Why it matters

A file that was not copied whole from the camera looks like the others in a folder. As long as the camera still has it, it can be copied once more.

## Faulty example

\`\`\`pickup
instrument juniper "Juniper" {
  photo "photos/cut-off.jpg" "leads as found"
}
\`\`\`

## Corrected example

\`\`\`pickup
instrument juniper "Juniper" {
  photo "photos/heron-leads.jpg" "leads as found"
}
\`\`\`
`,
  'potting/parts': `# potting/parts

Error. The parts of the wax do not sum to 100 %.

## What is wrong

The percentages of the mix sum to more or less than 100 %.

## Why it matters

The masses to weigh out are the batch times the percentages: with a wrong sum they stay open.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  potting {
    wax paraffin 80 % beeswax 25 %
    bath 60 degC
    soak 15 min
    batch 400 g
  }
}
\`\`\`

## Corrected example

Four parts paraffin, one part beeswax.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  potting {
    wax paraffin 80 % beeswax 20 %
    bath 60 degC
    soak 15 min
    batch 400 g
  }
}
\`\`\`
`,
  'potting/too-cold': `# potting/too-cold

Hint. The bath does not melt the main wax of the mix.

## What is wrong

The bath lies below the melting range of the softest grade of the wax that makes up most of the mix.

## Why it matters

Wax that does not melt does not soak in, and a pickup that is only coated still howls. Paraffin melts at 46 to 68 °C by grade, beeswax at 61 to 66 °C.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  potting {
    wax paraffin 80 % beeswax 20 %
    bath 38 degC
    soak 15 min
    batch 400 g
  }
}
\`\`\`

## Corrected example

A bath in which the mix is liquid.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  potting {
    wax paraffin 80 % beeswax 20 %
    bath 60 degC
    soak 15 min
    batch 400 g
  }
}
\`\`\`
`,
  'potting/too-hot': `# potting/too-hot

Error. The bath is hotter than plastic, enamel or wax allow.

## What is wrong

The bath lies above the lowest of these limits: the ceiling of the mix (65 °C for paraffin and beeswax, common practice), the softening of the bobbins' plastic, the class of the enamel, and a margin below the flash point of the wax.

## Why it matters

A bobbin of ABS deflects from 68 °C on, by its grade; one of butyrate softens from 58 °C on, by its plasticiser; fibre does not. A warped bobbin breaks its coil. Hotter wax soaks no better: it only runs out again while it cools.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  potting {
    wax paraffin 80 % beeswax 20 %
    bath 92 degC
    soak 15 min
    batch 400 g
  }
}
\`\`\`

## Corrected example

The usual bath for this mix. Where a hotter one was tried on a scrap bobbin, say so with \`accept potting/too-hot\`.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  potting {
    wax paraffin 80 % beeswax 20 %
    bath 60 degC
    soak 15 min
    batch 400 g
  }
}
\`\`\`
`,
  'reading/contradicts': `# reading/contradicts

Warning. A kick, a compass or the spindle contradicts what is stated.

## What is wrong

A measurement or the record of the machine says the opposite of what is stated: \`wound\`, \`polarity\`, the bar magnet, or which end is the start.

## Why it matters

A kick fixes winding direction and pole taken together: north-up, wound clockwise, red probe on the finish, steel approaching reads positive; each of them that is the other way turns the reading over once. A compass fixes the pole alone. A bobbin that turns clockwise lays the wire counterclockwise, seen from the same side: a spindle's direction written down as the wire's is the usual slip. One cause is told once: a bar put back turned over shows on every compass and kick.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  readings "on the bench" 2026-10-02 {
    kick violet to grey approach negative
  }
}
\`\`\`

## Corrected example

The outer end was looked at: the coil is wound the other way.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound counterclockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  readings "on the bench" 2026-10-02 {
    kick violet to grey approach negative
  }
}
\`\`\`

## Take care

Take a kick three times, and check the compass on a known pole first. Mark the face toward the screw coil before a magnet moves.
`,
  'reading/sum': `# reading/sum

Warning. A reading through several coils is not what their own readings make.

## What is wrong

Each coil was read by itself, and what the whole reads is not their sum (or, in parallel, what the circuit makes of them) within the meter's limits.

## Why it matters

The coils' own readings replace what turns compute to, so wire and turns are out of the question: something else lies in the path. Less than the sum is a resistance beside it, hands on the probes or a pot when the pickup is read in circuit; more is a poor joint, or coils that were read cold and the whole warm.

## Faulty example

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
  readings "before potting" 2026-10-02 {
    room 21 degC
    screw 4.01 kohm
    slug 4.02 kohm
    hot to ground 7.62 kohm
  }
}
\`\`\`

## Corrected example

Read again, out of circuit and with no hand on the probes.

\`\`\`pickup
pickup heron {
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
  readings "before potting" 2026-10-02 {
    room 21 degC
    screw 4.01 kohm
    slug 4.02 kohm
    hot to ground 8.03 kohm
  }
}
\`\`\`
`,
  'reading/unlikely': `# reading/unlikely

Warning. A reading lies outside what is computed.

## What is wrong

A resistance differs from what turns, wire and bobbin compute to by more than the meter's limit and three standard deviations of the computed value together; or it is open where copper should read, or reads where it should be open. A reading taken before the work (\`found\`) is not judged. A reading at the jack (\`position 1 7.20 kohm\`) is judged with all controls full up and nothing plugged in, with the tolerance of the pots.

## Why it matters

The reading is compared at its own temperature: copper gains 0.393 % per kelvin. The likeliest causes are named by how well each explains all lines of the block: a coil still warm, hands on the probes (some 200 kilohms beside the coil), shorted turns or a counter that started late, wire of another gauge, a poor joint or an open coil, probes on other leads, a slip of the decimal point. Resistance alone does not tell shorted turns from the wrong wire: an inductance reading does.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
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
  hookup {
    hot violet
    ground grey
  }
  readings "after winding" 2026-10-02 {
    room 21 degC
    main 4.10 kohm
  }
}
\`\`\`

## Corrected example

The coil was wound again, and reads what its turns compute to.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
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
  hookup {
    hot violet
    ground grey
  }
  readings "after winding" 2026-10-02 {
    room 21 degC
    main 5.92 kohm
  }
}
\`\`\`
`,
  'reading/whose-coil': `# reading/whose-coil

Warning. A reading as found does not fit the stated turns of its coil, and nothing says whether that coil was kept.

## What is wrong

A coil in \`readings found\` read something else than the turns that are stated for it compute to, by more than the meter and the wire explain. Either the coil was wound anew, and the reading is of the one that came out; or it was kept, and its turns or its wire are not what is stated. The reading is used for nothing until it is said which.

## Why it matters

Taken for the new coil's, the reading of an old one puts every sum wrong: a sound joint looks poor, a good coil looks short, and the label gets a resistance that nobody will ever read. Thrown away though the coil was kept, it takes with it what was measured of the coil's direction.

## Faulty example

\`\`\`pickup
wire plain-44 {
  gauge 44 AWG
}
bobbin tall {
  core 60.0 x 5.6 mm
  window 7.2 x 6.0 mm
}
pickup heron {
  coil main {
    bobbin tall
    wire plain-44
    counted 7_600
    wound clockwise
    polarity north-up
    start pink
    finish violet
  }
  hookup {
    hot violet
    ground pink
  }
  readings found "as received" {
    main 4.02 kohm
  }
}
\`\`\`

## Corrected example

The coil was wound in this job: what was read as found is of the one that came out, and stays on record.

\`\`\`pickup
wire plain-44 {
  gauge 44 AWG
}
bobbin tall {
  core 60.0 x 5.6 mm
  window 7.2 x 6.0 mm
}
pickup heron {
  coil main {
    new
    bobbin tall
    wire plain-44
    counted 7_600
    wound clockwise
    polarity north-up
    start pink
    finish violet
  }
  hookup {
    hot violet
    ground pink
  }
  readings found "as received" {
    main 4.02 kohm
  }
}
\`\`\`
`,
  'selector/position-missing': `# selector/position-missing

Warning. The numbers of the selector's positions leave one out.

## What is wrong

Positions are numbered from 1, push-pull positions too, and a number between two others is not there.

## Why it matters

A position that the sheet leaves out was forgotten, or two are one number apart from what the switch does: readings at the jack and the hand-over card are then read against the wrong line.

## Faulty example

\`\`\`pickup
pickup wren-bridge {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  coil main {
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  selector {
    1 "bridge" bridge
    3 "neck" neck
  }
}
\`\`\`

## Corrected example

The middle position is written down.

\`\`\`pickup
pickup wren-bridge {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
pickup wren-neck {
  coil main {
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
instrument juniper {
  pickup neck wren-neck at 160 mm
  pickup bridge wren-bridge at 42 mm
  selector {
    1 "bridge" bridge
    2 "both" bridge parallel neck
    3 "neck" neck
  }
}
\`\`\`
`,
  'syntax/incomplete': `# syntax/incomplete

Error. A fact is cut short.

## What is wrong

The line stops before all that its fact needs is said.

## Why it matters

What is missing is named, so it can be filled in; nothing is guessed in its place.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge
}
\`\`\`

## Corrected example

The fact is complete.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}
\`\`\`
`,
  'syntax/number': `# syntax/number

Error. A number is written in a way that leaves its value open.

## What is wrong

There is a comma between digits, a point in a count, or a digit group is broken.

## Why it matters

A comma also parts items, and in some countries it groups thousands: 60,0 may be 60.0 or 600, and 5.000 turns five or five thousand. What may be meant is offered; nothing is taken for granted. The decimal sign is a point, and \`5_000\` groups digits.

## Faulty example

\`\`\`pickup
bobbin rod-six {
  core 60,0 x 5.8 mm
}
\`\`\`

## Corrected example

A decimal point.

\`\`\`pickup
bobbin rod-six {
  core 60.0 x 5.8 mm
}
\`\`\`
`,
  'syntax/unclosed': `# syntax/unclosed

Error. A brace, parenthesis or quote is not closed.

## What is wrong

The \`}\` of a block, a \`)\` or the closing quote of a text is missing.

## Why it matters

A block word at the start of a line that this block cannot hold begins a new block, so what follows is still known.

## Faulty example

\`\`\`pickup
bobbin rod-six {
  plastic fibre

wire plain-42 {
  gauge 42 AWG
}
\`\`\`

## Corrected example

The block is closed before the next one begins.

\`\`\`pickup
bobbin rod-six {
  plastic fibre
}

wire plain-42 {
  gauge 42 AWG
}
\`\`\`
`,
  'syntax/unexpected': `# syntax/unexpected

Error. Something is written where it does not fit.

## What is wrong

A word, number or sign is written where the fact has no place for it.

## Why it matters

Each fact has a shape, such as length x width. What does not fit is pointed at, and the rest of the file is read as if the line were not there.

## Faulty example

\`\`\`pickup
bobbin rod-six {
  window 11.0 x x 5.2 mm
}
\`\`\`

## Corrected example

One \`x\` between height and depth.

\`\`\`pickup
bobbin rod-six {
  window 11.0 x 5.2 mm
}
\`\`\`
`,
  'syntax/unknown-word': `# syntax/unknown-word

Error. The block has no fact of that word.

## What is wrong

The line begins with a word that this block does not know.

## Why it matters

The nearest right word is offered. What seems to be missing because of it is not reported apart.

## Faulty example

\`\`\`pickup
wire plain-42 {
  guage 42 AWG
}
\`\`\`

## Corrected example

The word as the language has it.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}
\`\`\`
`,
  'target/missed': `# target/missed

Information. The build does not reach its target.

## What is wrong

By the best estimate, resistance, inductance or resonance lies further from the target than two standard deviations of what is known, and more than 2 %.

## Why it matters

A target is what was promised or planned. Where turns and wire lead elsewhere, one of them was written by mistake, or the target was set for another bobbin. A reading counts where there is one; without, the tolerance of the wire is part of the estimate, so a measured spool makes this finding sharper. Turns come first, resistance second: a target of resistance alone, met with other wire, gives another pickup.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
spool RYD-W7 {
  wire plain-42
  measures 5.52 ohm/m at 20 degC
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
  coil main {
    bobbin rod-six
    spool RYD-W7
    turns 7_700
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  target {
    resistance 6.4 kohm
  }
}
\`\`\`

## Corrected example

The turns that reach it on this bobbin, from this spool.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
spool RYD-W7 {
  wire plain-42
  measures 5.52 ohm/m at 20 degC
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
  coil main {
    bobbin rod-six
    spool RYD-W7
    turns 8_320
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  target {
    resistance 6.4 kohm
  }
}
\`\`\`
`,
  'unit/missing': `# unit/missing

Error. A quantity lacks its unit.

## What is wrong

A number is written where a quantity with a unit belongs. The likely unit is offered.

## Why it matters

A bare number is a count. 7.3 may be ohms or kilohms: two years later nobody knows.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  target {
    resistance 7.3
  }
}
\`\`\`

## Corrected example

The unit is written.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  target {
    resistance 7.3 kohm
  }
}
\`\`\`
`,
  'unit/wrong': `# unit/wrong

Error. A unit does not fit its quantity.

## What is wrong

The unit belongs to another kind of quantity than this fact states.

## Why it matters

A gauge is stated in AWG and a bare diameter in millimetres: each has its own fact.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 mm
}
\`\`\`

## Corrected example

A gauge takes AWG.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}
\`\`\`
`,
  'use/cycle': `# use/cycle

Error. Files use each other.

## What is wrong

A file uses another that, directly or through others, uses it again.

## Why it matters

Names of both stay known, but nobody can tell which of the two is the base. Move what both need into a file that uses neither.

## Faulty example

\`\`\`pickup
# this file is example.pickup
use "example.pickup"

wire plain-42 {
  gauge 42 AWG
}
\`\`\`

## Corrected example

The file does without itself.

\`\`\`pickup
# this file is example.pickup
wire plain-42 {
  gauge 42 AWG
}
\`\`\`
`,
  'use/missing': `# use/missing

Error. A used file does not exist.

## What is wrong

There is no file at this path, counted from the file that names it.

## Why it matters

What the file would bring along is missing. Names that may have come from it are not reported as unknown, so one wrong path is one finding.

## Faulty example

\`\`\`pickup
use "parts/stok.pickup"

spool RYD-W7 {
  wire plain-42
}
\`\`\`

## Corrected example

The wire is declared in the file itself; a \`use\` line with the right path serves as well.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}

spool RYD-W7 {
  wire plain-42
}
\`\`\`
`,
  'use/outside': `# use/outside

Error. A used path leaves the workspace.

## What is wrong

The path is absolute, or climbs out of the workspace.

## Why it matters

A spec may come from anyone: nothing outside the folder that was opened is ever read, whether or not it exists. Copy the file into the workspace.

## Faulty example

\`\`\`pickup
use "../../../stock.pickup"

wire plain-42 {
  gauge 42 AWG
}
\`\`\`

## Corrected example

What was needed is declared in the workspace.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
}
\`\`\`
`,
  'value/range': `# value/range

Error. A value cannot be.

## What is wrong

The number lies outside what its fact can be: a packing above the densest one, a day that the month does not have, nothing or less than nothing where something is counted.

## Why it matters

Such a value is a slip of the pen, mostly of the decimal point. Computing on with it would spread the error to everything that rests on it.

## Faulty example

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    packing 6.6
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
\`\`\`

## Corrected example

A packing lies above 0 and below 0.907, the densest packing of round wires.

\`\`\`pickup
pickup wren {
  coil main {
    turns 7_700
    packing 0.66
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
\`\`\`
`,
  'winding/does-not-fit': `# winding/does-not-fit

Error. The winding is deeper than its window; a warning where the ± of its build reaches into the window.

## What is wrong

So many turns of this wire, at this packing, build deeper than the bobbin's window.

## Why it matters

What fills the window is the wire over its enamel, not the bare copper, and round wires leave gaps: the packing says how much of the space is wire. An overfilled bobbin bulges, the outer turns fall over the flange and break. It often comes from matching a new coil to a kept one by resistance with thicker wire: match by turns.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
  coil main {
    bobbin rod-six
    wire plain-42
    turns 11_500
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
\`\`\`

## Corrected example

Fewer turns, with room below the flange.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
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
  hookup {
    hot violet
    ground grey
  }
}
\`\`\`
`,
  'winding/spool-too-short': `# winding/spool-too-short

Warning. The spool holds less wire than the coils to be wound take.

## What is wrong

All coils of this pickup that are still to be wound from one spool, with a tenth more for leads and a restart, take more wire than is \`left\` on it.

## Why it matters

A splice in a coil of this wire is a weak spot, so a spool that runs out costs the coil. Coils that were counted or read, and those of a pickup that states when it was \`made\`, have already left the reel and are not counted.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
spool RYD-W7 {
  wire plain-42
  left 20 g
}
pickup wren {
  coil main {
    bobbin rod-six
    spool RYD-W7
    turns 7_700
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
\`\`\`

## Corrected example

A spool with enough wire.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
spool RYD-W7 {
  wire plain-42
  left 180 g
}
pickup wren {
  coil main {
    bobbin rod-six
    spool RYD-W7
    turns 7_700
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
\`\`\`
`,
  'winding/turns-unknown': `# winding/turns-unknown

Information. Neither turns nor a reading of the coil is stated.

## What is wrong

Nothing says how many turns the coil has, and no reading lets them be inferred.

## Why it matters

From a reading with its temperature, the wire and the bobbin, the turns follow by the length of wire that reads so. Without either, resistance, inductance and hum of this coil stay open. Where a target is stated, the turns that reach it are proposed, with what they take of window and spool.

## Faulty example

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
  coil main {
    bobbin rod-six
    wire plain-42
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
\`\`\`

## Corrected example

The coil was read; its turns follow.

\`\`\`pickup
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
  coil main {
    bobbin rod-six
    wire plain-42
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  readings "as received" 2026-10-02 {
    main 5.92 kohm at 22 degC
  }
}
\`\`\`
`,
};

/** Every code of a finding: each has its page. */
export type Code = keyof typeof pages;

export const isCode = (text: string): text is Code => Object.hasOwn(pages, text);

/** The page of a finding as it is written, in Markdown. */
export const pageOf = (code: Code): string => pages[code];

/** Every code, in alphabetical order of its page. */
export const codes: readonly Code[] = Object.keys(pages).filter(isCode);
