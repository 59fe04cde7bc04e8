/** What a German page still says in English, by the words of the bundles. */
import { german } from '../../server/src/words/languages/german.ts';

const wordsIn = (text: string): readonly string[] => text.match(/\p{L}{3,}/gu) ?? [];

/** Words of the English texts that no German one has. */
const ENGLISH_ONLY = (() => {
  const words = new Set(Object.values(german()).flatMap((text) => wordsIn(text.toLowerCase())));
  return new Set(
    Object.keys(german())
      .flatMap((text) => wordsIn(text.toLowerCase()))
      .filter((word) => !words.has(word)),
  );
})();

/** Of a page or a picture: what it shows, and what is told of it to those who do not see it; without what the spec itself says. */
export function leftInEnglish(html: string, spec: string): readonly string[] {
  const plain = spec.replace(/\s+/g, ' ');
  // Titles and notes stand in sentences and headings of ours, too; the longest first, since one may hold another.
  const quoted = [...plain.matchAll(/"([^"]+)"/g)].map(([, each = '']) => each).sort((a, b) => b.length - a.length);
  const shown = quoted
    .reduce((text, each) => text.replaceAll(each, ' '), html)
    .replace(/<style>.*?<\/style>|<[a-z]+ lang="en">.*?<\/[a-z]+>/gs, ' ')
    .replace(/<bdi>([^<]*)<\/bdi>/g, (_, text: string) =>
      text
        .split(/; | \+ |, /)
        .filter((part) => !plain.includes(part))
        .join(' '),
    )
    .replace(/aria-label="([^"]*)"/g, '>$1<')
    .replace(/<[^>]*>/g, ' ');
  const named = new Set([...plain.matchAll(/\b(?:shield|coil) (\S+)/g)].map(([, name = '']) => name));
  const left = wordsIn(shown).filter((word) => ENGLISH_ONLY.has(word.toLowerCase()) && !named.has(word));
  const points = (shown.match(/\d+\.\d+/g) ?? []).filter((number) => !plain.includes(number));
  return [...new Set([...left, ...points])];
}
