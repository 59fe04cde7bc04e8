/** How many glyphs each page of a PDF shows: ISO 32000-1, 7.7.3.3 (page objects) and 9.4.3 (operators that show text). */
import { inflateSync } from 'node:zlib';

/** For the PDFs that Chromium writes: objects in clear, contents deflated. */
export function glyphsPerPage(pdf: Buffer): readonly number[] {
  const contents = new Map<string, string>();
  const pages: string[] = [];
  let at = 0;
  for (const object of pdf.toString('latin1').split('endobj')) {
    const number = /(\d+) 0 obj/.exec(object)?.[1] ?? '';
    const stream = /stream\r?\n/.exec(object);
    if (stream !== null && object.includes('FlateDecode')) {
      const start = at + stream.index + stream[0].length;
      const end = at + object.indexOf('endstream', stream.index);
      contents.set(number, inflateSync(pdf.subarray(start, end)).toString('latin1'));
    }
    if (/\/Type\s*\/Page\b/.test(object)) pages.push(/\/Contents (\d+) 0 R/.exec(object)?.[1] ?? '');
    at += object.length + 'endobj'.length;
  }
  return pages.map((page) => (contents.get(page)?.match(/\bT[jJ]\b/g) ?? []).length);
}
