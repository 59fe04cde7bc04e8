/**
 * What hangs on a number is told no surer and no finer than the number is known: an error stays at least a finding when every stated
 * number is moved by its own ±, and no sentence prints digits that the ± covers. The specs are drawn from a seed.
 */
import assert from 'node:assert/strict';
import { uniform } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';

interface Build {
  readonly turns: readonly [number, number];
  readonly sd: number;
  readonly depthMm: number;
  readonly opposed: boolean;
}

const spec = ({ turns: [a, b], sd, depthMm, opposed }: Build, by = 0): string => `wire w {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin flat {
  core 60 x 5.8 mm
  window 7 x ${depthMm.toFixed(2)} mm
  pole slug steel 4.8 x 12.5 mm
}
magnet bar {
  material alnico-5
  size 60 x 12 x 3 mm
}
pickup p {
  coil screw {
    bobbin flat
    wire w
    turns ${Math.round(a + by * sd)} ± ${sd}
    wound clockwise
    start grey
    finish violet
  }
  coil slug {
    bobbin flat
    wire w
    turns ${Math.round(b - by * sd)} ± ${sd}
    wound ${opposed ? 'clockwise' : 'counterclockwise'}
    start pink
    finish turquoise
  }
  magnet bar north toward screw
  hookup {
    hot violet
    link grey pink
    ground turquoise
  }
}
`;

function builds(): readonly Build[] {
  const random = uniform(20_261_127);
  const between = (low: number, high: number) => low + (high - low) * random();
  return Array.from({ length: 60 }, () => ({
    turns: [Math.round(between(3500, 6500)), Math.round(between(3500, 6500))],
    sd: Math.round(between(10, 250)),
    depthMm: between(3, 5),
    opposed: random() < 0.5,
  }));
}

const codesOf = (text: string, severity?: string) =>
  new Set(
    analyse(text)
      .allFindings()
      .filter((finding) => severity === undefined || finding.severity === severity)
      .map(({ code, subject }) => `${code} ${[...(subject?.coils ?? [])].sort().join()}`),
  );

describe('findings that hang on a number', () => {
  const drawn = builds();

  it('of severity error do not go away when the number moves by its ±', () => {
    let errors = 0;
    for (const build of drawn) {
      const sure = codesOf(spec(build), 'error');
      errors += sure.size;
      for (const by of [-1, 1]) {
        const still = codesOf(spec(build, by));
        assert.deepEqual(
          [...sure].filter((code) => !still.has(code)),
          [],
          spec(build),
        );
      }
    }
    assert.ok(errors > 20, `only ${errors} errors were drawn`);
  });

  it('that the ± leaves open are warnings, and say so', () => {
    const open = drawn.flatMap((build) =>
      analyse(spec(build)).findings.filter(
        ({ code, severity }) => code === 'winding/does-not-fit' && severity === 'warning',
      ),
    );
    assert.ok(open.length > 3, `only ${open.length} were drawn`);
    for (const { message } of open) assert.match(message, /\(1\d\d(\.\d)? ± \d+(\.\d)?.%\): it may just go in/);
  });

  it('print turns in groups, no finer than they are known', () => {
    let counts = 0;
    for (const build of drawn)
      for (const { code, message } of analyse(spec(build)).allFindings()) {
        const prose = message.replace(/`[^`]*`/g, '');
        assert.doesNotMatch(prose, /\d{4,}/, code);
        for (const [, value, sd] of prose.matchAll(/([\d\u202f]+) ± ([\d\u202f]+).turns/g)) {
          counts += 1;
          const [digits = '', uncertainty = ''] = [value, sd].map((each) => each?.replace(/\u202f/g, ''));
          assert.equal(Number(digits) % stepOf(uncertainty), 0, message);
        }
      }
    assert.ok(counts > 50, `only ${counts} counts were printed`);
  });
});

/** The last place that is printed: the ± keeps one digit, two where it begins with 1 or 2, as in reports of measurements. */
const stepOf = (uncertainty: string): number =>
  10 ** Math.max(0, uncertainty.length - (/^[12]/.test(uncertainty) ? 2 : 1));
