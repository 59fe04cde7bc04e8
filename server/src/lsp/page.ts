import { compareStates } from '../comparison/comparison.ts';
import { stateOf } from '../comparison/state-of.ts';
import { benchPageBody, benchPageCss } from '../documents/bench-view-page.ts';
import { CARD_KINDS, type CardKind } from '../documents/cards/card.ts';
import { cardPage, cardSheet, cardsOf } from '../documents/cards/cards.ts';
import { comparisonPage } from '../documents/comparison-page.ts';
import { type HtmlNode, htmlPage, renderHtml, sheetText } from '../documents/html.ts';
import { ownSubjects } from '../features/own-subjects.ts';
import { benchRoomC } from '../model/bench.ts';
import type { CardsParams, CardsResult, PageParams } from './bench-view-protocol.ts';
import type { ComparedStates } from './compared-states.ts';
import { heardAt, potsFrom } from './heard.ts';
import { PROTOCOL_VERSION } from './protocol.ts';
import { missingRows, numbersView, positionsView, responseView } from './sections.ts';
import { subjectDrawing } from './subject-drawing.ts';

/** Wide enough for the wide sheets. */
const PAGE_WIDTH = 960;

/** The bench view as one page; with a base, the comparison of the two. */
export async function benchPage(states: ComparedStates, params: PageParams): Promise<string> {
  const { document, now, before } = states;
  if (before) {
    const [past, present] = [stateOf(before.analysis), stateOf(now)];
    const comparison = compareStates(past, present, potsFrom(params.pots));
    const { title, css, body } = comparisonPage(past, present, comparison, { before: before.label, after: 'now' });
    return page(title, css, body);
  }
  const { kind, name } = params.subject;
  const subject = ownSubjects(now).find((each) => each.kind === kind && each.name === name);
  const heard = heardAt(now, params);
  const live = heard?.position.key.value;
  const plots = [responseView(states, params), positionsView(states, { ...params, width: PAGE_WIDTH })];
  const body = benchPageBody({
    title: subject?.title ?? name,
    about: [document.uri.split('/').at(-1) ?? '', ...(live === undefined ? [] : [`position ${live}`])].map(decoded),
    findings: now.findings.filter((finding) => finding.subject[kind] === name),
    drawing: subjectDrawing(now, params.subject, {
      width: PAGE_WIDTH,
      pots: potsFrom(params.pots),
      ...(live === undefined ? {} : { live }),
    }),
    numbers: numbersView(states, params),
    plots: plots.flatMap(({ svg, table }) => (svg !== undefined && table !== undefined ? [{ svg, table }] : [])),
    readings: missingRows(states, params.subject),
  });
  return page(subject?.title ?? name, benchPageCss(), body);
}

/** The printable cards of a file, each a page of its own. */
export async function cardPages({ document, now }: ComparedStates, params: CardsParams): Promise<CardsResult> {
  const paper = params.paper === 'letter' ? 'letter' : 'a4';
  const kinds = CARD_KINDS.filter((kind: CardKind) => params.kinds.includes(kind));
  const file = decoded(document.uri.split('/').at(-1) ?? '');
  const setting = { paper, roomC: benchRoomC(now.bench), file, handOver: [], handOverFields: [] } as const;
  const { cards, leftOut } = cardsOf({ analysis: now, setting }, kinds, params.pickup);
  const pages = await Promise.all(
    cards.map(async (card) => ({
      name: [card.kind, ...card.about].join('-'),
      title: card.title,
      html: cardPage(card, paper, await styleSource([cardSheet(card, paper)], '')),
    })),
  );
  return {
    protocol: PROTOCOL_VERSION,
    pages,
    leftOut: leftOut.map(({ kind, about, reason }) => `no ${kind} card of ${about}: ${reason}`),
  };
}

async function page(title: string, css: string, body: readonly HtmlNode[]): Promise<string> {
  const rendered = body.map(renderHtml).join('');
  return htmlPage({ title, css, body, styleSource: await styleSource([sheetText(css)], rendered) });
}

/**
 * What a page's policy admits as style: exactly the sheets given and those inside its drawings, by their hashes (W3C Content
 * Security Policy Level 3). By the interface that Node and a browser's worker share.
 */
async function styleSource(sheets: readonly string[], renderedBody: string): Promise<string> {
  const inDrawings = [...renderedBody.matchAll(/<style>([^<]*)<\/style>/g)].map(([, sheet = '']) => sheet);
  const hashes = await Promise.all([...new Set([...sheets, ...inDrawings])].map(sha256));
  return hashes.map((hash) => `'sha256-${hash}'`).join(' ');
}

async function sha256(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return btoa(String.fromCharCode(...new Uint8Array(digest)));
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
