import assert from 'node:assert/strict';
import { readAbilities } from '../../server/src/lsp/client-abilities.ts';
import { DEFAULT_SETTINGS, readSettings } from '../../server/src/lsp/settings.ts';

describe('settings', () => {
  it('nothing and nonsense are as if nothing were set', () => {
    for (const sent of [undefined, null, 'garbage', 7, [], { inlayHints: null }, { inlayHints: { enabled: 'no' } }]) {
      assert.deepEqual(readSettings(sent), DEFAULT_SETTINGS);
    }
  });

  it('findings are those of open files unless the workspace is asked for', () => {
    assert.equal(readSettings({ check: { scope: 'workspace' } }).checkScope, 'workspace');
    for (const scope of ['everything', true, undefined])
      assert.equal(readSettings({ check: { scope } }).checkScope, 'openFiles');
  });

  it('code lenses are there until they are switched off', () => {
    assert.equal(readSettings({ codeLens: false }).codeLens, false);
    assert.equal(readSettings({ codeLens: false, inlayHints: { enabled: false } }).codeLens, false);
    for (const codeLens of [undefined, 'no', null]) assert.equal(readSettings({ codeLens }).codeLens, true);
  });

  it('findings are told as it is wished by code, of the codes and words that there are', () => {
    const severity = { 'potting/too-cold': 'error', 'fit/strings': 'off', 'fit/pole-spread': 'loud', 'no/such': 'off' };
    assert.deepEqual(
      [...readSettings({ severity }).levels],
      [
        ['potting/too-cold', 'error'],
        ['fit/strings', 'off'],
      ],
    );
    for (const nothing of ['off', null, 7, ['off'], { 'analysis/incomplete': 'off' }])
      assert.equal(readSettings({ severity: nothing }).levels.size, 0);
  });

  it('hints have one switch for all, and one for each kind', () => {
    assert.deepEqual([...readSettings({ inlayHints: { enabled: false } }).hints], []);
    assert.deepEqual(
      [...readSettings({ inlayHints: { coilResistance: false } }).hints],
      ['inferred turns', 'pickup resistance', 'switch contacts', 'wiring positions'],
    );
  });
});

describe('what a client can do', () => {
  it('an empty client can do nothing', () => {
    const { t, ...abilities } = readAbilities({ processId: null, rootUri: null, capabilities: {} });
    assert.ok(Object.values(abilities).every((able) => able === false));
    assert.equal(t(' side'), ' side');
  });

  it('our own client says so in its options', () => {
    const initializationOptions = { protocol: 1, readsFiles: true, showsExplanations: true };
    const abilities = readAbilities({ processId: null, rootUri: null, capabilities: {}, initializationOptions });
    assert.deepEqual([abilities.isOurs, abilities.readsFiles, abilities.linksCodes], [true, true, true]);
  });
});
