import type { EstimateRow } from './estimate-rows.ts';

/** A text with headings, examples and tables of values; how it looks is for the client. */
export type RichText = readonly Section[];

export type Section =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  /** Lines of a spec. */
  | { readonly kind: 'spec'; readonly text: string }
  | { readonly kind: 'values'; readonly rows: readonly EstimateRow[] }
  /** A photograph where it lies, with what it shows; `shownWidth` in px. */
  | { readonly kind: 'picture'; readonly uri: string; readonly alt: string; readonly shownWidth?: number }
  /** A page that is Markdown already, ours and not a user's. */
  | { readonly kind: 'page'; readonly markdown: string };

export function toMarkdown(text: RichText): string {
  return text.map(markdownOf).join('\n\n');
}

export function toPlainText(text: RichText): string {
  return text.map(plainOf).join('\n\n');
}

/** Names and titles come from files that anyone may have written: nothing in them is markup. */
export function escapeMarkdown(text: string): string {
  return text
    .replace(/[\\`*_{}[\]()#+\-.!|<>~&]/g, (mark) => (mark === '<' ? '&lt;' : mark === '&' ? '&amp;' : `\\${mark}`))
    .replace(/[\r\n]+/g, ' ');
}

function markdownOf(section: Section): string {
  switch (section.kind) {
    case 'heading':
      return `**${escapeMarkdown(section.text)}**`;
    case 'paragraph':
      return escapeMarkdown(section.text);
    case 'spec':
      return fenced(section.text);
    case 'values':
      return [
        '| | | rests on |',
        '|:--|--:|:--|',
        ...section.rows.map(
          ({ name, value, restsOn }) =>
            `| ${escapeMarkdown(name)} | ${escapeMarkdown(value)} | ${escapeMarkdown(restsOn)} |`,
        ),
      ].join('\n');
    case 'picture':
      return pictureMarkdown(section);
    case 'page':
      return section.markdown;
  }
}

function pictureMarkdown({ uri, alt, shownWidth }: Extract<Section, { kind: 'picture' }>): string {
  const width = shownWidth === undefined ? '' : `|width=${shownWidth}`;
  return `![${escapeMarkdown(alt)}](${uri.replace(/[()<>\s|\\]/g, percentEncoded)}${width})`;
}

const percentEncoded = (mark: string): string => `%${mark.charCodeAt(0).toString(16).padStart(2, '0')}`;

/** A fence longer than any run of backticks inside. */
function fenced(text: string): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  return `${fence}pickup\n${text}\n${fence}`;
}

function plainOf(section: Section): string {
  switch (section.kind) {
    case 'values':
      return section.rows
        .map(({ name, value, restsOn }) => `${name}: ${value}${restsOn === '' ? '' : ` (${restsOn})`}`)
        .join('\n');
    case 'picture':
      return section.alt;
    case 'page':
      return section.markdown;
    default:
      return section.text;
  }
}
