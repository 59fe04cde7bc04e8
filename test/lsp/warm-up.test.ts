import assert from 'node:assert/strict';
import { createSession } from '../../server/src/lsp/session.ts';
import { warmUp } from '../../server/src/lsp/warm-up.ts';
import { HUM_CANCELLING, pickupText } from '../support/shop.ts';

const URI = 'file:///bench/example.pickup';

/** How many turns of the background warming up takes on a text; what is known of the text must stay the same object. */
async function turnsOn(text: string): Promise<number> {
  const session = createSession({
    sources: { disk: undefined, askClient: undefined, arrived: () => undefined },
    failed: (what, error) => assert.fail(`${what}: ${error}`),
    soon: setImmediate,
  });
  const document = session.documents.open({
    textDocument: { uri: URI, languageId: 'pickup', version: 1, text },
  });
  const analysis = session.analysisOf(document);
  assert.ok(analysis);
  let turns = 0;
  await warmUp(analysis, session.files, {
    turn: async () => {
      turns += 1;
    },
  });
  assert.equal(session.analysisOf(document), analysis);
  return turns;
}

describe('warming up', () => {
  it('lets others through after each step, and changes nothing of what is known', async () => {
    assert.ok((await turnsOn(pickupText([{}, {}], { hookup: HUM_CANCELLING }))) > 10);
  });

  it('does nothing where nothing is to be solved', async () => {
    assert.equal(await turnsOn('wire plain-42 {\n  gauge 42 AWG\n}\n'), 0);
    assert.equal(await turnsOn(''), 0);
  });
});
