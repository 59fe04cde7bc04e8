/** Cards of samples and of texts, as the tests want them, and a browser that looks at them. */
import assert from 'node:assert/strict';
import type { Page } from 'playwright-core';
import type { Analysis } from '../../../server/src/analysis/analysis-types.ts';
import { type Card, type CardSetting, HAND_OVER_SECTIONS } from '../../../server/src/documents/cards/card.ts';
import type { Paper } from '../../../server/src/documents/cards/card-css.ts';
import { CARD_KINDS, type CardKind } from '../../../server/src/documents/cards/card-kinds.ts';
import { cardPage, cardsOf } from '../../../server/src/documents/cards/cards.ts';
import { ENGLISH } from '../../../server/src/words/languages/language.ts';
import type { TestBrowser } from '../../host/browser.ts';
import { analysedSample, sampleText as textOf } from '../../support/sample-files.ts';

export const sampleText = (name: string): string => textOf(`${name}.pickup`);

/** A sample, or the text given in its place. */
export const analysed = (name: string, text?: string): Analysis =>
  analysedSample(`${name}.pickup`, text === undefined ? undefined : () => text);

export const SETTING: CardSetting = {
  paper: 'a4',
  t: ENGLISH,
  roomC: 23,
  file: 'samples/spec.pickup',
  handOver: HAND_OVER_SECTIONS,
  handOverFields: [],
};

export function cardsOfText(
  analysis: Analysis,
  kinds: readonly CardKind[] = CARD_KINDS,
  setting: Partial<CardSetting> = {},
): readonly Card[] {
  return cardsOf({ analysis, setting: { ...SETTING, ...setting } }, kinds).cards;
}

export const pageText = (card: Card, paper: Paper = 'a4'): Promise<string> => cardPage(card, paper);

/** A page that shows what will be printed, one card after the other. */
export async function openSheet({ context }: TestBrowser): Promise<Page> {
  const page = await context.newPage();
  await page.setViewportSize({ width: 900, height: 1200 });
  await page.emulateMedia({ media: 'print' });
  return page;
}

/** Shows a page under its own policy, which takes a navigation: the policy of the one before would admit only that one's sheet. */
export async function showUnderPolicy(page: Page, html: string): Promise<void> {
  await page.goto('about:blank');
  await page.setContent(html);
}

/**
 * Shows a page without its policy (which hostile.test.ts looks at), so that the window stays: a fifth of the time, and what axe-core
 * has compiled in it serves for the next page too.
 */
export async function show(page: Page, html: string): Promise<void> {
  const open = html.replace(POLICY, '');
  assert.ok(open.length < html.length, 'a page states its policy');
  await page.setContent(open);
}

/** How a page states its policy. */
export const POLICY = /<meta http-equiv="Content-Security-Policy" content="([^"]*)">/;
