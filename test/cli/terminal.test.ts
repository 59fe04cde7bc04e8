import assert from 'node:assert/strict';
import { forLocale } from '../../server/src/cli/ascii.ts';
import { progressOn } from '../../server/src/cli/progress.ts';
import { stylesFor } from '../../server/src/cli/styles.ts';
import { wrapped } from '../../server/src/cli/wrap.ts';

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

describe('text on a terminal', () => {
  it('is broken between words, indented as wide as what leads it; in a pipe it is one line', () => {
    const text = 'One end carries 4.1 kΩ, the other nothing at all: join the two.';
    assert.deepEqual(wrapped('  do: ', text, 40), [
      '  do: One end carries 4.1 kΩ, the other',
      '      nothing at all: join the two.',
    ]);
    assert.deepEqual(wrapped('  do: ', text, undefined), [`  do: ${text}`]);
  });
  it('keeps a word that is wider than the terminal whole', () =>
    assert.deepEqual(wrapped('', `a ${'b'.repeat(60)} c`, 40), ['a', 'b'.repeat(60), 'c']));

  const shown = (isTerminal: boolean, environment: Record<string, string>): string => {
    const written: string[] = [];
    forLocale({ isTerminal, write: (text) => void written.push(text) }, environment).write(
      '−6\u202FdB, 4\u202FkΩ ━╌ ü',
    );
    return written.join('');
  };
  it('is plain ASCII where the locale of the terminal is not UTF-8', () => {
    // POSIX, 8.2: LC_ALL goes before LC_CTYPE, that before LANG; an empty one counts as not set.
    for (const environment of [{}, { LANG: 'C' }, { LC_ALL: 'C', LANG: 'de_DE.UTF-8' }, { LANG: 'de_DE.ISO-8859-1' }])
      assert.equal(shown(true, environment), '-6 dB, 4 kohm =- ?');
    for (const environment of [{ LANG: 'de_DE.UTF-8' }, { LC_ALL: '', LANG: 'C.utf8' }, { OS: 'Windows_NT' }])
      assert.equal(shown(true, environment), '−6\u202FdB, 4\u202FkΩ ━╌ ü');
    assert.equal(shown(false, {}), '−6\u202FdB, 4\u202FkΩ ━╌ ü');
  });
});
