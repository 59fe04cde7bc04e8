/** The bundles: that each text has its translation is a matter of types; what types do not say is asked here. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { languageWords } from '../../grammar/src/language-words.ts';
import { COLOURS } from '../../grammar/values/iec60757.ts';
import { WAXES } from '../../server/src/estimates/common-practice.ts';
import { because, type Reason, reasonIn } from '../../server/src/estimates/reasons.ts';
import { printNumber, printQuantity } from '../../server/src/quantities/print.ts';
import { CARDS } from '../../server/src/words/languages/german/cards.ts';
import { DRAWINGS } from '../../server/src/words/languages/german/drawings.ts';
import { FINDINGS } from '../../server/src/words/languages/german/findings.ts';
import { REASONS } from '../../server/src/words/languages/german/reasons.ts';
import { SPEC_WORDS } from '../../server/src/words/languages/german/spec-words.ts';
import { TERMS } from '../../server/src/words/languages/german/terms.ts';
import { VIEW } from '../../server/src/words/languages/german/view.ts';
import { german } from '../../server/src/words/languages/german.ts';
import { ENGLISH, languageOf } from '../../server/src/words/languages/language.ts';
import { reasonWords } from '../../server/src/words/reason-words.ts';

const SOURCES = path.resolve(import.meta.dirname, '../../server/src');
const CLIENT = path.resolve(import.meta.dirname, '../../client');
const entries = Object.entries(german());

/** Every string of the sources that may say something, as it is when it runs. */
function saidIn(...folders: readonly string[]): ReadonlySet<string> {
  const said = new Set<string>();
  const files = folders.flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts') && !file.includes('german'))
      .map((file) => path.join(folder, file)),
  );
  for (const file of files)
    for (const [literal] of readFileSync(file, 'utf8').matchAll(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/g))
      said.add(unescaped(literal.slice(1, -1)));
  return said;
}

const unescaped = (text: string): string =>
  text.replace(/\\u([0-9A-F]{4})|\\(.)/gi, (_, code: string | undefined, sign: string | undefined) =>
    code === undefined ? (sign ?? '') : String.fromCharCode(Number.parseInt(code, 16)),
  );

const gaps = (text: string): readonly string[] => [...text.matchAll(/\{\d\}/g)].map(([gap]) => gap).sort();

describe('German', () => {
  it('has in each text what the English has in between', () => {
    for (const [english, german] of entries) assert.deepEqual(gaps(german), gaps(english), english);
  });

  it('holds no text that nothing says any more', () => {
    const said = saidIn(SOURCES);
    const words = new Set(Object.keys(SPEC_WORDS));
    assert.deepEqual(
      Object.keys(german()).filter((each) => !words.has(each) && !said.has(each)),
      [],
    );
  });

  it('of words of the language of specs, holds none that the language or the standard of colours has not', () => {
    const { facts, values, blocks } = languageWords();
    const known = new Set<string>([...facts, ...values, ...blocks, ...Object.values(COLOURS), ...Object.keys(WAXES)]);
    assert.deepEqual(
      Object.keys(SPEC_WORDS).filter((each) => !known.has(each)),
      [],
    );
    // No colour of a lead is left in English.
    for (const colour of Object.values(COLOURS)) assert.ok(Object.hasOwn(SPEC_WORDS, colour), colour);
  });

  it('has one German for a text, wherever it stands', () => {
    const told = new Map<string, string>();
    for (const [english, german] of [TERMS, SPEC_WORDS, CARDS, DRAWINGS, VIEW, REASONS, FINDINGS].flatMap((each) =>
      Object.entries<string>(each),
    )) {
      assert.equal(told.get(english) ?? german, german, english);
      told.set(english, german);
    }
  });

  it('says each text once, and none of them in English', () => {
    // The same word in both languages, or no word at all.
    const alike = new Set(['orange', 'pink', 'gold', 'linear', 'ABS', 'Phase']);
    for (const [english, german] of entries)
      if (/[a-z]{4}/.test(english) && !alike.has(english)) assert.notEqual(german, english);
  });

  it('prints numbers with a comma, and never parts one from its unit', () => {
    const { numbers } = languageOf('de');
    assert.equal(printNumber(-1234.5, 1, numbers), '\u22121\u202F234,5');
    assert.equal(
      printQuantity({ value: 4060, sd: 30, dimension: 'resistance', style: numbers }),
      '4,06 ± 0,03\u202FkΩ',
    );
    assert.equal(
      printQuantity({ value: 5060, sd: 220, dimension: 'turns', style: numbers }),
      '5\u202F060 ± 220 Windungen',
    );
    assert.equal(printQuantity({ value: 2.5, dimension: 'inductance', style: numbers }), '2,5\u202FH');
  });
});

describe('what a number rests on', () => {
  it('is known again from its text, with what stands in between', () => {
    const between = ['one', 'two', 'three', 'four'];
    for (const reason of Object.keys(REASONS) as Reason[]) {
      const found = reasonIn(because(reason, ...between));
      assert.equal(found?.reason, reason);
      assert.deepEqual(found?.between, between.slice(0, gaps(reason).length), reason);
    }
  });

  it('is told in German to the last part, a value of ours with a comma, one of the spec as it is written', () => {
    const told = (text: string) => reasonWords(text, languageOf('de'));
    assert.equal(
      told('cover of nickel-silver, 0.5 mm thick, assumed, 0.5 mm off the bobbins and as deep, assumed'),
      'Kappe aus Neusilber, 0,5 mm dick, angenommen, 0,5 mm um die Wickelkörper und ebenso tief, angenommen',
    );
    assert.equal(told('turns from its reading of 4.01 kohm'), 'Windungen aus ihrem Messwert 4.01 kohm');
    assert.equal(
      told('cable 450 pF, assumed, input 1 MΩ, assumed, volume 10, tone 8, neck at volume 7 and tone 10, blend 5'),
      'Kabel 450 pF, angenommen, Eingang 1 MΩ, angenommen, Lautstärke 10, Klang 8, neck mit Lautstärke 7 und Klang 10, Überblendung 5',
    );
  });
});

/** What the compiler asks of each `t(…)`: that the bundle has it. What it does not ask stands here. */
describe('the bundle of the client and its pages', () => {
  const bundle: Readonly<Record<string, string>> = JSON.parse(
    readFileSync(path.join(CLIENT, 'l10n/bundle.l10n.de.json'), 'utf8'),
  );

  it('holds no text that nothing says any more', () => {
    const said = saidIn(path.join(CLIENT, 'src'), path.join(CLIENT, 'webview'));
    assert.deepEqual(
      Object.keys(bundle).filter((each) => !said.has(each)),
      [],
    );
  });

  it('has in each text what the English has in between, and nothing in English', () => {
    const alike = new Set(['Zoom', 'Name']);
    for (const [english, german] of Object.entries(bundle)) {
      assert.deepEqual(gaps(german), gaps(english), english);
      if (!alike.has(english)) assert.notEqual(german, english);
    }
  });
});

describe('the language', () => {
  it('is taken from a locale; English is what all others get', () => {
    for (const locale of ['de', 'de-AT', 'de_CH.UTF-8', 'DE']) assert.equal(languageOf(locale).code, 'de');
    for (const locale of [undefined, '', 'en-GB', 'fr', 'den']) assert.equal(languageOf(locale), ENGLISH);
  });

  it('tells a text with what comes in between, whatever signs that holds', () => {
    assert.equal(languageOf('de')('Winding: {0} coil', '$& {0}'), 'Wickeln: Spule $& {0}');
    assert.equal(ENGLISH('Winding: {0} coil', 'slug'), 'Winding: slug coil');
  });
});
