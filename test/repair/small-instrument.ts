/** Small instruments with whatever mistakes come: every lead, wind, pole, shield and split by chance, from a seed. */
import { type Chance, chance } from '../support/chance.ts';

const wound = (by: Chance) => by.pick(['clockwise', 'counterclockwise']);
const poles = (by: Chance) => by.pick(['north-up', 'south-up']);

function single(name: string, by: Chance): string {
  const ends = by.pick([
    ['grey', 'violet'],
    ['violet', 'grey'],
  ]);
  return `pickup ${name} {
  coil main {
    turns 7_700
    wound ${wound(by)}
    polarity ${poles(by)}
    start grey
    finish violet
  }
  hookup {
    hot ${ends[0]}
    ground ${ends[1]}
  }
}
`;
}

/** Two coils in series; over a bar or with rods; the shield by itself, on the ground line, or none. */
function double(name: string, by: Chance): string {
  const bar = by.whole(2) === 0;
  const shield = by.pick(['none', 'shared', 'apart']);
  const [a, b] = [
    by.pick([
      ['pink', 'grey'],
      ['grey', 'pink'],
    ]),
    by.pick([
      ['violet', 'turquoise'],
      ['turquoise', 'violet'],
    ]),
  ];
  return `pickup ${name} {
  conductors violet grey pink turquoise
${shield === 'none' ? '' : '  shield bare\n'}  coil screw {
    turns 5_000
    wound ${wound(by)}
${bar ? '' : `    polarity ${poles(by)}\n`}    start to pink
    finish to grey
  }
  coil slug {
    turns 5_000
    wound ${wound(by)}
${bar ? '' : `    polarity ${poles(by)}\n`}    start to violet
    finish to turquoise
  }
${bar ? `  magnet bar-5 ${by.pick(['north', 'south'])} toward screw\n` : ''}${shield === 'none' ? '  cover nickel-silver\n' : ''}  hookup {
    hot ${b[0]}
    link ${b[1]} ${a[1]}
    ground ${a[0]}${shield === 'shared' ? ' bare' : ''}
${shield === 'apart' ? '    shield bare\n' : ''}  }
}
`;
}

export function smallInstrument(seed: number): string {
  const by = chance(seed);
  const kinds = [by.whole(2) === 0, by.whole(2) === 0] as const;
  const one = kinds[0] ? double('heron', by) : single('heron', by);
  const other = kinds[1] ? double('wren', by) : single('wren', by);
  const part = (slot: string, twoCoils: boolean) => {
    const whole = twoCoils ? by.pick([slot, slot, `${slot}.screw`, `${slot}.slug`]) : slot;
    return by.whole(12) === 0 && whole === slot ? `reversed ${slot}` : whole;
  };
  const both = () =>
    `${part('bridge', kinds[0])} ${by.pick(['parallel', 'parallel', 'series'])} ${part('neck', kinds[1])}`;
  return `magnet bar-5 {
  material alnico-5
}
${one}${other}instrument juniper {
  pickup bridge heron at 42 mm
  pickup neck wren at 160 mm
  selector {
    1 "bridge" bridge
    2 "both" ${both()}
    3 "neck" neck
${by.whole(2) === 0 ? `    4 "both otherwise" ${both()}\n` : ''}  }
}
`;
}
