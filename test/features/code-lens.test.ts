import assert from 'node:assert/strict';
import { codeLenses, lensNumbers, usedByWords } from '../../server/src/features/code-lens.ts';
import { analysedSample } from '../support/sample-files.ts';
import { SINGLE, twoCoils, WITH_SHOP } from '../support/shop.ts';
import { analysed } from './analysed.ts';

describe('code lens', () => {
  it('stands at the name of what the file itself writes, and says nothing yet', () => {
    const text = twoCoils();
    assert.deepEqual(
      codeLenses(analysed(text, WITH_SHOP)).map(({ kind, of, span }) => [
        kind,
        of.kind,
        text.slice(span.start, span.end),
      ]),
      ['bench view', 'cards', 'numbers', 'used by'].map((kind) => [kind, 'pickup', 'heron']),
    );
  });

  it('two coils in phase: how they sound, how much hum is left, resistance, resonance', () => {
    const title = lensNumbers(analysed(twoCoils(), WITH_SHOP), { kind: 'pickup', name: 'heron' }) ?? '';
    assert.match(title, /^in phase · hum −\d+\u202fdB( or lower)? · 8\.0\d ± 0\.\d+\u202fkΩ · resonance /);
  });

  it('a single coil has no hum to set against another', () => {
    assert.match(
      lensNumbers(analysed(SINGLE), { kind: 'pickup', name: 'wren' }) ?? '',
      /^one coil · 5\.\d+ ± 0\.\d+\u202fkΩ · /,
    );
  });

  it('of an instrument, its positions together', () => {
    const title = lensNumbers(analysedSample('bramblewick.pickup'), { kind: 'instrument', name: 'bramblewick' }) ?? '';
    assert.match(
      title,
      /^\d+ positions · (none out of phase|out of phase in .+) · resistance at the jack .+ to .+kΩ · resonance .+kHz$/,
    );
  });

  it('nothing is said of what is not there any more', () =>
    assert.equal(lensNumbers(analysed(SINGLE), { kind: 'pickup', name: 'heron' }), undefined));

  it('says who names it', () => {
    assert.equal(usedByWords([]), 'named in no other file');
    assert.equal(usedByWords(['quorl.pickup', 'drummel.pickup']), 'named in quorl.pickup and drummel.pickup');
  });
});
