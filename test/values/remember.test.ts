import assert from 'node:assert/strict';
import { onceFor, onceForEach } from '../../grammar/values/remember.ts';

describe('what is made once for an object', () => {
  const counted = () => {
    let count = 0;
    return { make: () => ++count, count: () => count };
  };
  const [a, b] = [{}, {}];

  it('is made once for each, and known from then on', () => {
    const { make, count } = counted();
    const once = onceFor((_: object) => make());
    assert.equal(once.known(a), undefined);
    assert.deepEqual([once(a), once(a), once(b), once(a)], [1, 1, 2, 1]);
    assert.deepEqual([once.known(a), once.known(b), count()], [1, 2, 2]);
  });

  it('is made again beside another thing, whichever of several that is; the last one is kept', () => {
    const { make } = counted();
    const once = onceFor((_: object, _bench: string | undefined, _host: string) => make());
    assert.deepEqual([once(a, 'x', 'h'), once(a, 'x', 'h'), once(a, 'y', 'h'), once(a, 'y', 'i')], [1, 1, 2, 3]);
    assert.deepEqual([once.known(a, 'y', 'i'), once.known(a, 'x', 'h'), once(a, 'x', 'h')], [3, undefined, 4]);
    assert.equal(once(a, undefined, 'h'), 5);
    assert.equal(once(a, undefined, 'h'), 5);
  });

  it('is the same where a list is mapped by it, with an index and the list beside', () => {
    const { make } = counted();
    const once = onceFor((_: object) => make());
    assert.deepEqual([a, b].map(once), [1, 2]);
    assert.deepEqual([b, a].map(once), [2, 1]);
    assert.equal(once(a), 1);
  });

  it('may be nothing, and is still made once', () => {
    const { make, count } = counted();
    const once = onceFor((_: object) => {
      make();
      return undefined;
    });
    assert.deepEqual([once(a), once(a), count()], [undefined, undefined, 1]);
  });
});

describe('what is made once for plain data', () => {
  it('goes by what they say, undefined among them', () => {
    let count = 0;
    const once = onceForEach((_: { readonly pots?: number } | undefined) => ++count);
    assert.deepEqual(
      [once({ pots: 1 }), once({ pots: 1 }), once({ pots: 2 }), once(undefined), once(undefined)],
      [1, 1, 2, 3, 3],
    );
  });
});
