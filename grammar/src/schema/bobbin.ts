import { block, fact } from './block-schema.ts';
import { accept, MAGNET_MATERIALS, note, positive } from './common.ts';
import { comma, count, declares, keyword, oneOf, optional, quantity, sequence, size, word } from './shape.ts';

export const bobbin = block({
  keyword: 'bobbin',
  head: sequence({ name: declares('bobbin') }),
  names: 'bobbin',
  like: true,
  meaning: 'the former that a coil is wound on, with its poles',
  example: 'bobbin tall-six {\n  core 58.0 x 5.2 mm\n  window 7.1 x 4.4 mm\n  poles 6 spread 49.5 mm\n  plastic abs\n}',
  topLevel: true,
  facts: {
    core: fact({
      shape: sequence({
        size: size('length', 'length', 'width'),
        corner: optional(
          sequence({ comma: optional(comma), corner: keyword('corner'), radius: quantity('length', { min: 0 }) }),
        ),
      }),
      meaning: 'outline that the first layer lies on: length x width; ends round where no corner radius is stated',
      example: 'core 58.0 x 5.2 mm',
    }),
    corner: fact({
      shape: quantity('length', { min: 0 }),
      assumed: 'round ends: half the width of the core',
      meaning: "radius of the core's corners, where its ends are not round",
      example: 'corner 1 mm',
    }),
    window: fact({
      shape: size('length', 'height', 'depth'),
      meaning: 'winding space: height between the flanges x depth from the core outward',
      example: 'window 7.1 x 4.4 mm',
    }),
    poles: fact({
      shape: sequence({
        count: count({ min: 1 }),
        spread: optional(sequence({ spread: keyword('spread'), distance: quantity('length', positive) })),
      }),
      meaning: 'how many poles, and the distance from the first centre to the last',
      example: 'poles 6 spread 49.5 mm',
    }),
    pole: fact({
      shape: oneOf({
        none: keyword('none'),
        blade: sequence({
          form: word('blade'),
          material: word('steel'),
          size: oneOf({
            full: size('length', 'length', 'thickness', 'height'),
            section: size('length', 'thickness', 'height'),
          }),
        }),
        round: sequence({
          form: word('slug', 'screw', 'rod'),
          material: word('steel', ...MAGNET_MATERIALS),
          size: size('length', 'diameter', 'length'),
        }),
      }),
      meaning:
        'form and material of a pole, diameter x length (a blade: length x thickness x height, or thickness x height)',
      example: 'pole slug steel 4.8 x 12.5 mm',
    }),
    plastic: fact({
      shape: word('abs', 'butyrate', 'fibre'),
      meaning: 'what the bobbin is made of; limits the potting bath',
      example: 'plastic abs',
    }),
    notes: note,
    accept,
  },
});
