import type { ComparisonPage } from '../documents/comparison-page.ts';
import { htmlPage, renderHtml, sheetText } from '../documents/html.ts';
import { styleSource } from './style-source.ts';

/** The page as a file that needs nothing else and runs nothing. */
export function comparisonHtml({ title, css, body }: ComparisonPage): string {
  const rendered = body.map(renderHtml).join('');
  return htmlPage({ title, css, styleSource: styleSource([sheetText(css)], rendered), body });
}
