/** What is offered beside fewer turns where a winding does not fit: finer wire and deeper bobbins of the shelf. */
import assert from 'node:assert/strict';
import { fitActions } from '../../server/src/features/fit-actions.ts';
import { analyse } from '../support/check-fixture.ts';
import { applyEdits } from '../support/text-edits.ts';

const SHELF = `wire w42 {
  gauge 42 AWG
  overall 0.070 mm
}
wire w43 {
  gauge 43 AWG
  overall 0.0625 mm
}
wire w41 {
  gauge 41 AWG
}
spool SP-43 {
  wire w43
  left 200 g
  measures 6.93 ohm/m at 20 degC
}
bobbin low {
  core 60 x 5.8 mm
  window 11 x 4 mm
  poles 6 spread 50 mm
  pole rod alnico-5 4.8 x 16.5 mm
}
bobbin deep like low {
  window 11 x 5.2 mm
}
bobbin seven like deep {
  poles 7 spread 60 mm
}
bobbin lower like low {
  window 11 x 3 mm
}
`;
/** By hand: 9,000 turns of 0.070 mm at packing 0.66 take 9,000 · π/4 · 0.070² / (0.66 · 11) = 4.77 mm, of 0.0625 mm 3.80 mm. */
const SPEC = `${SHELF}pickup wren {
  strings 6
  coil main {
    bobbin low
    wire w42
    turns 9_000
    packing 0.66
    wound clockwise
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

const offeredAt = (text: string, at: string) => {
  const start = text.indexOf(at);
  return fitActions(analyse(text), { start, end: start });
};

describe('a winding that does not fit', () => {
  const offered = offeredAt(SPEC, 'turns 9_000');

  it('is offered finer wire and a deeper bobbin of the shelf that hold it, and nothing that does not', () => {
    assert.deepEqual(
      offered.map(({ title }) => title.replace(/: .*/, '')),
      [
        'Take w43 (43 AWG) from spool SP-43 instead (fits, 95\u202F% of the window)',
        'Take w43 (43 AWG) instead (fits, 95\u202F% of the window)',
        'Take deep instead (fits, 92\u202F% of the window)',
      ],
    );
  });

  it('with what that does to resistance and resonance', () => {
    const [finer, , deeper] = offered.map(({ title }) => title);
    // The wire gets 6.93 ohm/m instead of 5.45 (table), in turns that are 3 % shorter; the deeper window changes nothing of the wind.
    const numbers =
      /resistance ([\d.]+)\u202FkΩ to ([\d.]+)\u202FkΩ, resonance ([\d.]+)\u202FkHz to ([\d.]+)\u202FkHz$/;
    const [, from = '', to = ''] = numbers.exec(finer ?? '') ?? [];
    assert.ok(Math.abs(Number(to) / Number(from) - (6.93 / 5.45) * 0.97) < 0.02, finer);
    const [, was, is] = numbers.exec(deeper ?? '') ?? [];
    assert.equal(was, is);
  });

  it('written, it fits', () => {
    for (const { edits } of offered)
      assert.deepEqual(
        analyse(applyEdits(SPEC, edits)).findings.filter(({ code }) => code === 'winding/does-not-fit'),
        [],
      );
  });

  it('is left alone elsewhere, and where it fits', () => {
    assert.deepEqual(offeredAt(SPEC, 'cover none'), []);
    assert.deepEqual(offeredAt(SPEC.replace('9_000', '6_000'), 'turns 6_000'), []);
  });
});
