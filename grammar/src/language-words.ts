/** The words of the language by what they are, gathered from the schema: for colouring text and for word lists. */
import { schemas } from './schema/index.ts';
import type { Shape } from './schema/shape.ts';

export interface LanguageWords {
  readonly blocks: readonly string[];
  /** First words of facts. */
  readonly facts: readonly string[];
  /** Words that join the parts of a line: `to`, `at`, `toward`. */
  readonly joining: readonly string[];
  /** Words that are values: `clockwise`, `alnico-5`. */
  readonly values: readonly string[];
  /** Words that join pickups and coils. */
  readonly operators: readonly string[];
}

export function languageWords(): LanguageWords {
  const [facts, joining, values] = [new Set<string>(), new Set<string>(), new Set<string>()];
  const gather = (shape: Shape): void => {
    switch (shape.kind) {
      case 'keyword':
        for (const word of shape.word.split(' ')) joining.add(word);
        break;
      case 'word':
        for (const word of shape.words) values.add(word);
        break;
      case 'label':
        for (const word of shape.suggestions ?? []) values.add(word);
        break;
      case 'optional':
      case 'alias':
      case 'many':
        gather(shape.shape);
        break;
      case 'sequence':
        Object.values(shape.fields).forEach(gather);
        break;
      case 'one-of':
        Object.values(shape.options).forEach(gather);
        break;
    }
  };
  for (const schema of schemas.values()) {
    gather(schema.head);
    for (const { word, shape } of Object.values(schema.facts)) {
      if (word !== undefined) facts.add(word);
      gather(shape);
    }
  }
  const operators = ['series', 'parallel', 'reversed', 'through'];
  const isValue = (word: string) => !joining.has(word) && !operators.includes(word);
  return {
    blocks: [...schemas.keys()],
    facts: [...facts],
    joining: [...joining],
    values: [...values].filter(isValue),
    operators,
  };
}
