import assert from 'node:assert/strict';
import { readServerOptions } from '../../server/src/lsp/server-options.ts';

describe('the words behind the server’s name', () => {
  const wordsOf = (...words: readonly string[]) => {
    const asked = readServerOptions(words, '1.2.3');
    return asked.kind === 'serve' ? asked.words : asked.kind;
  };

  it('without a channel, it is standard input and output', () => {
    assert.deepEqual(wordsOf(), ['--stdio']);
    assert.deepEqual(wordsOf('--clientProcessId=7'), ['--stdio', '--clientProcessId=7']);
  });

  it('a channel that is named is the one, its value behind a sign or as the next word', () => {
    for (const words of [
      ['--stdio'],
      ['--node-ipc', '--clientProcessId=7'],
      ['--socket=6009', '--clientProcessId=7'],
      ['--socket', '6009'],
      ['--pipe', '/run/a=b'],
      ['--pipe=/run/a=b'],
    ])
      assert.deepEqual(wordsOf(...words), words);
  });

  it('a value that is missing, a word and an option that there is none of are refused', () => {
    for (const words of [['--pipe='], ['--socket'], ['6009'], ['--stdio=1'], ['--socket', '6009', '--verbose'], ['']])
      assert.equal(wordsOf(...words), 'refused', words.join(' '));
  });
});
