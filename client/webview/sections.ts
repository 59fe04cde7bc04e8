import type { Section, SectionContents, SectionName } from '../../server/src/lsp/protocol.ts';
import { changesSection } from './changes.ts';
import { element } from './element.ts';
import type { Listen } from './listen.ts';
import { missingSection } from './missing.ts';
import { numbersSection } from './numbers.ts';
import type { PageState, Send } from './page-parts.ts';
import { photosSection } from './photos.ts';
import { createPlot } from './plot.ts';
import { usageSection } from './usage.ts';

/** Where a section stands in the page; sections of one place follow each other in the order of the table. */
export type Place = 'above the drawing' | 'left' | 'right' | 'below' | 'last';

interface SectionView<N extends SectionName> {
  readonly place: Place;
  readonly node: HTMLElement;
  show(content: SectionContents[N]): void;
  /** Another pickup is shown, or nothing is compared any more: what is here is none of its own. */
  clear(): void;
}

export interface Sections {
  at(place: Place): readonly HTMLElement[];
  show<N extends SectionName>(content: Section<N>): void;
  clear(name: SectionName): void;
}

interface SectionSources {
  readonly state: PageState;
  readonly send: Send;
  readonly listen: Listen;
  /** The findings and drawings depend on what is compared. */
  readonly comparisonChanged: () => void;
}

export function createSections({ state, send, listen, comparisonChanged }: SectionSources): Sections {
  const changes = element('section', { ariaLabel: 'Changed facts', hidden: true });
  const numbers = element('section', { ariaLabel: 'Numbers' });
  const response = createPlot('Response', 'response');
  const positions = createPlot('Positions', 'positions');
  const missing = element('section', { ariaLabel: 'Readings', hidden: true });
  const photos = element('section', { ariaLabel: 'Photographs', hidden: true });
  const usage = element('section', { ariaLabel: 'Used by', hidden: true });
  const label = (): string | undefined => state.drawing?.comparedWith;
  const views: { readonly [N in SectionName]: SectionView<N> } = {
    comparison: {
      place: 'above the drawing',
      node: changes,
      show: (content) => {
        state.comparison = content;
        changes.hidden = false;
        changes.replaceChildren(...changesSection(content, label() ?? '', send));
        comparisonChanged();
      },
      clear: () => {
        state.comparison = undefined;
        changes.hidden = true;
      },
    },
    numbers: {
      place: 'left',
      node: numbers,
      show: (content) => numbers.replaceChildren(...numbersSection(content, { before: label() })),
      clear: () => numbers.replaceChildren(),
    },
    response: {
      place: 'right',
      node: response.section,
      show: (content) => {
        const isOther = content.svg !== response.source();
        response.show(content);
        listen.show(content, state.comparison && label());
        if (isOther) listen.changed();
      },
      clear: () => {
        response.show({});
        listen.hide();
      },
    },
    positions: {
      place: 'below',
      node: positions.section,
      show: positions.show,
      clear: () => positions.show({}),
    },
    missing: {
      place: 'last',
      node: missing,
      show: ({ readings }) => {
        missing.hidden = false;
        missing.replaceChildren(...missingSection(readings, send));
      },
      clear: () => {
        missing.hidden = true;
      },
    },
    photos: {
      place: 'last',
      node: photos,
      show: (content) => {
        photos.hidden = content.photos.length === 0;
        photos.replaceChildren(...photosSection(content.photos, send));
      },
      clear: () => {
        photos.hidden = true;
      },
    },
    usage: {
      place: 'below',
      node: usage,
      show: ({ rows }) => {
        usage.hidden = rows.length === 0;
        usage.replaceChildren(...usageSection(rows, send));
      },
      clear: () => {
        usage.hidden = true;
      },
    },
  };
  return {
    at: (place) => Object.values(views).flatMap((view) => (view.place === place ? [view.node] : [])),
    show: <N extends SectionName>(content: Section<N>) => {
      const view: SectionView<N> = views[content.section];
      view.show(content);
    },
    clear: (name) => views[name].clear(),
  };
}
