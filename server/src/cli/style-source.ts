import { createHash } from 'node:crypto';

/**
 * What a page's policy admits as style: exactly the sheets given and those inside the drawings of the rendered body, by their hashes
 * (W3C Content Security Policy Level 3).
 */
export function styleSource(sheets: readonly string[], renderedBody: string): string {
  const inDrawings = [...renderedBody.matchAll(/<style>([^<]*)<\/style>/g)].map(([, sheet = '']) => sheet);
  const hashes = [...sheets, ...inDrawings].map(
    (sheet) => `'sha256-${createHash('sha256').update(sheet, 'utf8').digest('base64')}'`,
  );
  return [...new Set(hashes)].join(' ');
}
