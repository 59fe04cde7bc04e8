/** What a hover says over the lines of a target, and over the pickup that has one. */
import assert from 'node:assert/strict';
import { hover } from '../../server/src/features/hover.ts';
import { SINGLE } from '../support/shop.ts';
import { atCursor } from './analysed.ts';

const withTarget = (lines: string) => SINGLE.replace('  hookup {', `  target {\n${lines}  }\n  hookup {`);

/** Rows of the hover at the cursor: what is wanted, and what the build comes to. */
function rowsAt(marked: string) {
  const { analysis, offset } = atCursor(marked);
  return (hover(analysis, offset)?.text ?? []).flatMap((part) =>
    part.kind === 'values' ? part.rows.map(({ name, value }) => `${name}: ${value}`) : [],
  );
}

describe('over a line of a target', () => {
  it('stands what the build comes to, and in three words whether that is reached', () => {
    const [missed] = rowsAt(withTarget('    resis‸tance 7.4 kohm ± 0.2 kohm\n    resonance 4.5 kHz ± 1 kHz\n'));
    assert.match(missed ?? '', /^resistance of 7\.4 kohm ± 0\.2 kohm: 5\.\d+ ± 0\.2\d*.kΩ: missed, 2\d.% below$/);
    const [reached, ...others] = rowsAt(withTarget('    resistance 7.4 kohm\n    reson‸ance 4.5 kHz ± 1 kHz\n'));
    assert.match(reached ?? '', /^resonance of 4\.5 kHz ± 1 kHz loaded: 4\.\d+ ± 0\.\d+.kHz: reached$/);
    assert.deepEqual(others, []);
    const [open] = rowsAt(withTarget('    resis‸tance 5.9 kohm\n'));
    assert.match(
      open ?? '',
      /^resistance of 5\.9 kohm \(± 5.%\): .*: not decidable within the uncertainty, odds \d\d in 100$/,
    );
  });

  it('stands that nothing is known yet, where turns are left out', () => {
    const [row] = rowsAt(withTarget('    resis‸tance 7.4 kohm\n').replace('    turns 7_700\n', ''));
    assert.equal(row, 'resistance of 7.4 kohm (± 5\u202F%): not known yet');
  });
});

describe('over a pickup with a target', () => {
  it('all its lines stand among the numbers', () => {
    const rows = rowsAt(
      withTarget('    resistance 5.9 kohm\n    inductance 2.2 H ± 1 H\n').replace('pickup wren', 'pickup wr‸en'),
    );
    assert.ok(
      rows.some((row) => /^inductance of 2\.2 H ± 1 H: 2\.\d+ ± 0\.\d+.H: reached$/.test(row)),
      rows.join('\n'),
    );
  });
});
