import assert from 'node:assert/strict';
import { progressOn } from '../../server/src/cli/progress.ts';
import { stylesFor } from '../../server/src/cli/styles.ts';

describe('colour', () => {
  const coloured = (isTerminal: boolean, environment: Record<string, string>): boolean =>
    stylesFor(isTerminal, environment).error('x') !== 'x';

  it('comes on a terminal only, and never with NO_COLOR or on one that shows none', () => {
    assert.equal(coloured(true, {}), true);
    assert.equal(coloured(false, {}), false);
    assert.equal(coloured(true, { NO_COLOR: '1' }), false);
    assert.equal(coloured(true, { NO_COLOR: '' }), true);
    assert.equal(coloured(true, { TERM: 'dumb' }), false);
  });
});

describe('progress', () => {
  const shown = (isTerminal: boolean, elapsedMs: number): string => {
    const written: string[] = [];
    let now = 0;
    const progress = progressOn({ isTerminal, write: (text) => void written.push(text) }, () => now);
    now = elapsedMs;
    progress.step('larkspit.pickup');
    progress.clear();
    return written.join('');
  };

  it('shows on a terminal after a second and is wiped', () => {
    assert.equal(shown(true, 1200), '\r\u001b[Klarkspit.pickup …\r\u001b[K');
  });
  it('shows neither within the first second nor anywhere else', () => {
    assert.equal(shown(true, 900), '');
    assert.equal(shown(false, 5000), '');
  });
});
