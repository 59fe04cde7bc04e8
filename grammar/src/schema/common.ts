/** Facts and shapes that several blocks share. */
import { fact } from './block-schema.ts';
import {
  comma,
  filePath,
  findingCode,
  keyword,
  label,
  name,
  optional,
  path,
  quantity,
  sequence,
  text,
  word,
} from './shape.ts';

/** Above zero: what follows cannot be nothing. */
export const positive = { min: 0, exclusiveMin: true } as const;

/** Keeps a finding of this block, or of what is in it, as information. */
export const accept = fact({
  word: 'accept',
  shape: sequence({ code: findingCode, reason: optional(text) }),
  repeats: true,
  history: 'of the state',
  meaning:
    'keeps a finding of this block, or of what is in it, as information; reported when it no longer applies, without effect while its reason is `…`',
  example: 'accept potting/too-hot "tried on a scrap bobbin"',
});

export const note = fact({
  word: 'note',
  shape: text,
  repeats: true,
  history: 'of the piece',
  meaning: 'anything worth keeping that no fact has a word for',
  example: 'note "slug coil kept, screw coil new"',
});

export const photo = fact({
  word: 'photo',
  shape: sequence({ file: filePath, caption: text }),
  repeats: true,
  history: 'of the state',
  meaning:
    'a photograph (JPEG, PNG or WebP inside the workspace) by its path from this file, and what it shows, which stands for it where it is not seen',
  example: 'photo "photos/heron-leads.jpg" "leads as found"',
});

export const serial = fact({
  word: 'serial',
  shape: label(),
  history: 'of the piece',
  meaning: 'the number of this piece, as on its label',
  example: 'serial RYD-014',
});

export const customer = fact({
  word: 'for',
  shape: text,
  history: 'of the piece',
  meaning: 'the customer or the job',
  example: 'for "Juniper, customer 31"',
});

/** `at 21 degC` behind a reading. */
export const atTemperature = optional(sequence({ at: keyword('at'), temperature: quantity('temperature') }));

/** What the work did to a magnet: the same way round, turned over so that its poles change places, or exchanged for another. */
export const became = optional(sequence({ comma: optional(comma), became: word('kept', 'turned', 'new') }));

/** `hot to ground`: red probe first. */
export const probes = sequence({ from: path('lead'), to: keyword('to'), onto: path('lead') });

/** `for neck` behind a control. */
export const forSlot = optional(sequence({ for: keyword('for'), slot: name('slot') }));

/** Grades by their trade names; another grade is stated by its remanence. */
export const MAGNET_MATERIALS = [
  'alnico-2',
  'alnico-3',
  'alnico-4',
  'alnico-5',
  'alnico-8',
  'ferrite',
  'neodymium',
  'samarium-cobalt',
] as const;
