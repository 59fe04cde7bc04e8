wire plain-42 {
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
%%
pickup p{{i}} "Pickup {{i}}" {
  serial RYD-{{i}}
  strings 6
  made 2026-03-11
  conductors turquoise orange grey pink
  shield bare
  coil screw {
    bobbin rod-six
    wire plain-42
    turns 4800
    wound clockwise
    packing 0.66{{i}}
    start gold to pink
    finish brown to grey
    polarity north-up
  }
  coil slug {
    bobbin rod-six
    wire plain-42
    turns 4_930
    wound clockwise
    packing 0.65{{i}}
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
    screw 3.9{{i}} kohm
    slug 3.9{{i}} kohm
    turquoise to baseplate 7.8{{i}} kohm
    kick turquoise to orange approach positive
  }
}
instrument i{{i}} "Instrument {{i}}" {
  scale 648 mm
  strings 6 spread 52.0 mm at bridge, 35.0 mm at nut
  pickup bridge p{{i}} at 43 mm
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
%%
