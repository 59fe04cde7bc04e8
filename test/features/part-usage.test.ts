import assert from 'node:assert/strict';
import { partUsage } from '../../server/src/features/part-usage.ts';
import { SINGLE } from '../support/shop.ts';
import { analysed } from './analysed.ts';

/** A shelf in the same file: what uses it is in sight. */
const SHELF = `${SINGLE.replace('    wire plain-42\n', '    spool RYD-X1\n').replace('bobbin rod-six', 'bobbin own')}
spool RYD-X1 {
  wire plain-42
  left 60 g
}
bobbin own {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
  poles 6 spread 50.0 mm
  pole rod alnico-5 4.8 x 16.5 mm
}
bobbin other like own {
}
`;

const usage = (text: string) => {
  const analysis = analysed(text);
  return new Map(partUsage(analysis, [analysis]).map((each) => [each.part.name, each]));
};

describe('who uses a part', () => {
  it('pickups by their coils, and parts that are like it', () => {
    const uses = usage(SHELF);
    assert.deepEqual(uses.get('own')?.usedBy, ['other', 'Wren (main)']);
    assert.deepEqual(uses.get('other')?.usedBy, []);
  });

  // 7 700 turns of about 0.15 m of 42 AWG, 28.6 g/km of copper (recalled): some 33 g, and a tenth more.
  it('what is left on a spool once the planned coil is wound', () => {
    const left = usage(SHELF).get('RYD-X1')?.left ?? '';
    const [, takes, rest] = /^60 g; (\d+)\sg for one coil .* (\d+)\sg left after that$/.exec(left) ?? [];
    assert.ok(Math.abs(Number(takes) - 36) <= 3, left);
    assert.equal(Number(takes) + Number(rest), 60);
  });

  it('a coil that was counted has already left it', () => {
    const left = usage(SHELF.replace('turns 7_700', 'counted 7_700')).get('RYD-X1')?.left;
    assert.equal(left, '60 g; no coil is planned on it');
  });
});
