import assert from 'node:assert/strict';
import { attached } from '../../grammar/values/attached.ts';

describe('what is attached to an object', () => {
  const numbers = attached<object, number>();

  it('is found with it until there is something else', () => {
    const key = { name: 'screw' };
    assert.equal(numbers.get(key), undefined);
    numbers.set(key, 1);
    numbers.set(key, 2);
    assert.equal(numbers.get(key), 2);
  });

  it('is no part of it: it has the same fields, and a copy has nothing', () => {
    const key = Object.freeze({ name: 'screw' });
    numbers.set(key, 1);
    assert.deepEqual(key, { name: 'screw' });
    assert.deepEqual(Reflect.ownKeys(key), ['name']);
    assert.equal(numbers.get({ ...key }), undefined);
    assert.equal(numbers.get(structuredClone(key)), undefined);
  });

  it('is nobody else’s', () => {
    const key = {};
    numbers.set(key, 1);
    assert.equal(attached<object, number>().get(key), undefined);
  });
});
