/** Reads a drawing back with an XML parser that shares no code with the writer. */
import { SaxesParser } from 'saxes';
import type { Box } from '../../server/src/documents/labels.ts';
import { textWidth } from '../../server/src/documents/text-width.ts';

export interface ReadElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** Its own text and that of its children. */
  text: string;
  readonly children: ReadElement[];
}

/** The root element; throws where the text is not well-formed XML. */
export function readSvg(svg: string): ReadElement {
  const parser = new SaxesParser();
  const stack: ReadElement[] = [{ name: '', attributes: {}, text: '', children: [] }];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const element: ReadElement = { name, attributes, text: '', children: [] };
    stack.at(-1)?.children.push(element);
    stack.push(element);
  });
  parser.on('text', (text) => {
    for (const element of stack) element.text += text;
  });
  parser.on('closetag', () => {
    stack.pop();
  });
  parser.write(svg).close();
  const root = stack[0]?.children[0];
  if (root === undefined) throw new Error('no element');
  return root;
}

export function elementsOf(root: ReadElement): readonly ReadElement[] {
  return [root, ...root.children.flatMap(elementsOf)];
}

export interface ReadText {
  readonly words: string;
  readonly box: Box;
}

/** Every line of text with the space it fills; tighter than the layout's own boxes, so that only real overlaps count. */
export function textsOf(root: ReadElement): readonly ReadText[] {
  return elementsOf(root)
    .filter(({ name }) => name === 'text')
    .map((element) => {
      const has = (name: string) => (element.attributes.class ?? '').split(' ').includes(name);
      const size = has('t1') ? 19 : has('t2') ? 14 : 12;
      const isBold = (each: ReadElement) => size > 12 || (each.attributes.class ?? '').split(' ').includes('b');
      const letters = element.children
        .filter(isBold)
        .map(({ text }) => text)
        .join('');
      const words = element.text.replace(letters, '');
      const width = textWidth(letters, { size, bold: true }) + textWidth(words, { size, bold: isBold(element) });
      const x = Number(element.attributes.x);
      const left = has('e') ? x - width : has('m') || has('tagn') ? x - width / 2 : x;
      const y = Number(element.attributes.y);
      return { words: element.text, box: { x: left, y: y - size * 0.72, width, height: size * 0.9 } };
    });
}
