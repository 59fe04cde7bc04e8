import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { identifyLeads } from '../../server/src/estimates/identify/identify.ts';
import { planRepairs, searchable, stepsOf } from '../../server/src/repair/plan-repairs.ts';
import { cheapestSolutions } from '../../server/src/repair/search.ts';
import { EXAMPLE, hostOf } from '../support/check-fixture.ts';
import { single } from '../support/shop.ts';

/** Times the planner on an instrument of three pickups with several mistakes, and the deduction of unknown leads. */
export async function run(): Promise<void> {
  const text = threePickups();
  const analysis = createAnalyser().analyse(EXAMPLE, hostOf({ 'example.pickup': text }));
  const [instrument] = analysis.model.instruments;
  if (!instrument) throw new Error('the bench holds no instrument');
  const pickups = instrument.slots.flatMap(({ pickup }) => pickup ?? []);
  const { moves } = searchable(analysis, { instrument, pickups });
  const { faults, plans } = planRepairs(analysis, { instrument: instrument.name });
  console.log(
    `repair: three pickups, five positions, ${faults.length} faults, ${moves.length} moves; best plan ${plans[0]?.minutes} min`,
  );
  report(
    'search on the model',
    medianMs(15, () => {
      const fresh = searchable(analysis, { instrument, pickups });
      cheapestSolutions(fresh.moves, fresh.judge, { states: 6_000, beyondBestMinutes: 60, solutions: 4 });
    }),
  );
  report(
    `search, and ${plans.length} plans verified in the text`,
    medianMs(15, () => planRepairs(analysis, { instrument: instrument.name })),
    'target below 200 ms',
  );
  const { quick } = searchable(analysis, { instrument, pickups });
  report(
    'one plan as text',
    medianMs(51, () => stepsOf(moves.slice(0, 1), quick, pickups)),
  );

  const drawer = createAnalyser().analyse(EXAMPLE, hostOf({ 'example.pickup': UNKNOWN_LEADS }));
  const [found] = drawer.model.pickups;
  if (!found) throw new Error('the bench holds no pickup');
  const solved = quickOf(drawer.bench)(found);
  report(
    'unknown leads: three coils, six conductors',
    medianMs(15, () => identifyLeads(solved, drawer.bench)),
  );
}

/** The bridge's magnet is upside down, both splits keep the wrong coil, and the middle is reversed. */
function threePickups(): string {
  const double = (name: string, pole: string) => `pickup ${name} {
  conductors violet grey pink turquoise
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    start to pink
    finish to turquoise
  }
  coil slug {
    turns 5_000
    wound clockwise
    start to violet
    finish to grey
  }
  magnet bar-5 ${pole} toward screw
  baseplate nickel-silver tied to bare
  hookup {
    hot violet
    link grey turquoise
    ground pink bare
  }
}
`;
  return `magnet bar-5 {
  material alnico-5
}
${double('heron', 'south')}${double('wren', 'north')}${single('lark', { hot: 'grey', ground: 'violet' })}instrument juniper {
  pickup neck wren at 160 mm
  pickup middle lark at 100 mm
  pickup bridge heron at 42 mm
  selector {
    1 "bridge" bridge
    2 "bridge and middle" bridge.slug parallel middle
    3 "middle" middle
    4 "middle and neck" middle parallel neck.screw
    5 "neck" neck
  }
}
`;
}

const UNKNOWN_LEADS = `pickup heron {
  conductors violet grey pink turquoise orange gold
  coil a {
    wound clockwise
  }
  coil b {
    wound clockwise
  }
  coil c {
  }
  readings "on the bench" 2026-08-02 {
    violet to pink 4.02 kohm
    kick violet to pink at a approach positive
    compass a north-up
  }
}
`;

function medianMs(times: number, work: () => void): number {
  for (let round = 0; round < times; round++) work();
  const taken = Array.from({ length: times }, () => {
    const started = performance.now();
    work();
    return performance.now() - started;
  });
  return taken.sort((a, b) => a - b)[Math.floor(times / 2)] ?? Number.NaN;
}

function report(what: string, ms: number, note = ''): void {
  console.log(`  ${what.padEnd(48)} ${ms.toFixed(2).padStart(9)} ms  ${note}`);
}
