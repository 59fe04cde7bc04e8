import type { Span } from '../../../grammar/src/span.ts';
import { type Colour, colourOf } from '../../../grammar/values/iec60757.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { namesInBlock } from '../model/inner-names.ts';
import { blockOf } from '../model/merged-block.ts';
import { inFile } from './syntax-at.ts';

/** The name of a lead that is a colour of IEC 60757. */
export interface LeadColour {
  readonly span: Span;
  readonly colour: Colour;
}

/** Every lead of the file that is called by its colour, those inside a coil too. */
export function leadColours({ tree }: Analysis): readonly LeadColour[] {
  return tree.chunks.flatMap((placed) => {
    const { content } = placed.chunk;
    if (content?.kind !== 'block') return [];
    return namesInBlock(blockOf(content, placed.chunk)).flatMap(({ kind, parts, place }): readonly LeadColour[] => {
      const [name, more] = parts;
      const colour = kind === 'lead' && name && !more ? colourOf(name.value) : undefined;
      return name && colour && place.chunk === placed.chunk ? [{ span: inFile(placed, name.span), colour }] : [];
    });
  });
}
