import { block, fact } from './block-schema.ts';
import { accept, note, positive } from './common.ts';
import { alias, count, declares, keyword, oneOf, quantity, sequence, word } from './shape.ts';

export const wire = block({
  keyword: 'wire',
  head: sequence({ name: declares('wire') }),
  names: 'wire',
  like: true,
  meaning: 'a kind of magnet wire: copper, its gauge and its enamel',
  example: 'wire heavy-plain {\n  gauge 42 AWG\n  build single\n  enamel plain\n}',
  topLevel: true,
  facts: {
    gauge: fact({
      shape: quantity('gauge', { min: 20, max: 60 }),
      insteadOf: ['diameter'],
      meaning: 'bare copper by its gauge number',
      example: 'gauge 42 AWG',
    }),
    bareDiameter: fact({
      word: 'diameter',
      shape: quantity('length', positive),
      insteadOf: ['gauge'],
      meaning: 'bare copper by its diameter',
      example: 'diameter 0.0635 mm',
    }),
    build: fact({
      shape: oneOf({
        build: word('single', 'double'),
        grade: alias(sequence({ grade: keyword('grade'), number: count({ min: 1, max: 2 }) }), {
          'grade 1': 'single',
          'grade 2': 'double',
        }),
      }),
      insteadOf: ['overall'],
      assumed: 'single',
      meaning: "thickness of the enamel: single is the standards' grade 1, double is grade 2",
      example: 'build single',
    }),
    overallDiameter: fact({
      word: 'overall',
      shape: quantity('length', positive),
      insteadOf: ['build'],
      meaning: 'diameter over the enamel, as measured',
      example: 'overall 0.0711 mm',
    }),
    enamel: fact({
      shape: word('plain', 'polyurethane', 'polyester-imide', 'polyvinyl-acetal'),
      meaning: 'the insulation: how it is stripped, and what heat it stands',
      example: 'enamel polyurethane',
    }),
    notes: note,
    accept,
  },
});
