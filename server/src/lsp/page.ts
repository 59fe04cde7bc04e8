import { given } from '../../../grammar/values/present.ts';
import { compareStates } from '../comparison/comparison.ts';
import { stateOf } from '../comparison/state-of.ts';
import { benchViewPageBody, benchViewPageCss } from '../documents/bench-view-page.ts';
import { NO_CARD } from '../documents/cards/card.ts';
import { CARD_KINDS } from '../documents/cards/card-kinds.ts';
import { cardFileNames, cardPage, cardsOf } from '../documents/cards/cards.ts';
import { comparisonPage } from '../documents/comparison-page.ts';
import { htmlPage } from '../documents/html.ts';
import { handedOverWith, photoCopies, photographsOnPage } from '../documents/photographs.ts';
import { ownSubjects } from '../features/own-subjects.ts';
import { benchRoomC } from '../model/bench.ts';
import { languageOf } from '../words/languages/language.ts';
import { isAbout } from './about-subject.ts';
import type { CardsParams, CardsResult, PageParams } from './bench-view-protocol.ts';
import { type ComparedStates, ownThings } from './compared-states.ts';
import { fileName } from './file-key.ts';
import { heardAt, potsFrom } from './heard.ts';
import { sectionsInPage } from './sections.ts';
import { subjectDrawing } from './subject-drawing.ts';

/** Wide enough for the wide sheets. */
const PAGE_WIDTH = 960;

type BytesOf = Parameters<typeof photoCopies>[2];

/** The bench view as one page; with a base that was chosen, the comparison of the two. */
export async function benchPage(states: ComparedStates, params: PageParams, bytesOf: BytesOf): Promise<string> {
  const { document, now, before, t } = states;
  if (params.base && before) {
    const comparison = compareStates(stateOf(before.analysis), stateOf(now), potsFrom(params.pots));
    const page = comparisonPage(before.analysis, now, comparison, { before: before.label(t), after: t('now') }, t);
    return htmlPage({ ...page, language: t.code });
  }
  const { kind, name } = params.subject;
  const subject = ownSubjects(now).find((each) => each.kind === kind && each.name === name);
  const title = kind === 'parts' ? fileName(document.uri) : (subject?.title ?? name);
  const heard = heardAt(now, params);
  const live = heard?.position.key.value;
  const shown = ownThings(now, params.subject);
  const copies = await photoCopies(now, shown, bytesOf);
  const body = benchViewPageBody({
    t,
    title,
    about: [
      ...(kind === 'parts' ? [] : [fileName(document.uri)]),
      ...(live === undefined ? [] : [t('position {0}', live)]),
    ],
    findings: now.findings.filter((finding) => isAbout(finding, params.subject)),
    drawing: subjectDrawing(now, params.subject, {
      t,
      width: PAGE_WIDTH,
      played: potsFrom(params.pots),
      ...given({ live }),
    }),
    sections: [
      ...sectionsInPage(states, { ...params, width: PAGE_WIDTH }),
      ...photographsOnPage(now, shown, copies, t),
    ],
  });
  return htmlPage({ title, language: t.code, css: benchViewPageCss(), body });
}

/** The printable cards of a file, each a page of its own. */
export async function cardPages(
  { document, now, t }: ComparedStates,
  params: CardsParams,
  bytesOf: BytesOf,
): Promise<Omit<CardsResult, 'protocol'>> {
  const paper = params.paper === 'letter' ? 'letter' : 'a4';
  const kinds = CARD_KINDS.filter((kind) => params.kinds.includes(kind));
  const setting = {
    paper,
    t: params.language === undefined ? t : languageOf(params.language),
    roomC: benchRoomC(now.bench),
    file: fileName(document.uri),
    handOver: [],
    handOverFields: [],
    photos: params.photos ? await photoCopies(now, handedOverWith(now), bytesOf) : undefined,
  } as const;
  const { cards, leftOut } = cardsOf({ analysis: now, setting }, kinds, params.pickup);
  const names = cardFileNames(cards);
  const pages = await Promise.all(
    cards.map(async (card, index) => ({
      name: names[index] ?? card.kind,
      title: card.title,
      html: await cardPage(card, paper),
    })),
  );
  return {
    pages,
    leftOut: leftOut.map(({ kind, about, reason }) => setting.t(NO_CARD[kind], about, setting.t(reason))),
  };
}
