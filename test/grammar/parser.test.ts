import assert from 'node:assert/strict';
import { Lexer } from 'chevrotain';
import { PickupParser } from '../../grammar/src/parser.ts';
import { allTokens } from '../../grammar/src/tokens.ts';

describe('the parser library', () => {
  before(() => {
    // Its checks use Object.groupBy, which Node 20 lacks.
    if ('groupBy' in Object) return;
    const groupBy = <T>(items: Iterable<T>, keyOf: (item: T) => PropertyKey) => {
      const groups: Record<PropertyKey, T[]> = Object.create(null);
      for (const item of items) {
        const key = keyOf(item);
        groups[key] = [...(groups[key] ?? []), item];
      }
      return groups;
    };
    Object.defineProperty(Object, 'groupBy', { value: groupBy, configurable: true, writable: true });
  });

  it('finds nothing ambiguous in the rules', () => {
    assert.doesNotThrow(() => new PickupParser({ skipValidations: false }));
  });

  it('finds nothing wrong with the tokens', () => {
    const { lexerDefinitionErrors } = new Lexer(allTokens, { positionTracking: 'onlyOffset' });
    assert.deepEqual(
      lexerDefinitionErrors.map(({ message }) => message),
      [],
    );
  });
});
