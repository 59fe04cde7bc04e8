import type { Section, SectionContents, SectionName } from '../../server/src/lsp/protocol.ts';
import { changesSection } from './changes.ts';
import { element } from './element.ts';
import type { Listen } from './listen.ts';
import { missingSection, nextSection } from './missing.ts';
import { numbersSection } from './numbers.ts';
import type { PageState, Send } from './page-parts.ts';
import { photosSection } from './photos.ts';
import { createPlan } from './plan.ts';
import { createPlot } from './plot.ts';
import { proposalsSection } from './proposals.ts';
import { usageSection } from './usage.ts';
import type { WhatIf } from './what-if.ts';
import { t } from './words.ts';

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
  readonly whatIf: WhatIf;
  /** The findings and drawings depend on what is compared. */
  readonly comparisonChanged: () => void;
}

export function createSections({ state, send, listen, whatIf, comparisonChanged }: SectionSources): Sections {
  const response = createPlot(t('Response'), t('Response as a table'), 'response');
  const sweeps = createPlot(t('Before and after, as measured'), t('Before and after as a table'), 'sweeps');
  const impedance = createPlot(t('Impedance'), t('Impedance as a table'), 'impedance');
  const positions = createPlot(t('Positions'), t('Positions as a table'), 'positions');
  const switches = createPlot(t('Switches'), t('Switches as a table'), 'switches', 'sheet');
  const plan = createPlan(send);
  const label = (): string | undefined => state.drawing?.comparedWith;
  const changes = plain<'comparison'>('above the drawing', t('Changed facts'), (content) =>
    changesSection(content, label() ?? '', send),
  );
  const views: { readonly [N in SectionName]: SectionView<N> } = {
    comparison: {
      ...changes,
      show: (content) => {
        state.comparison = content;
        changes.show(content);
        comparisonChanged();
      },
      clear: () => {
        state.comparison = undefined;
        changes.clear();
      },
    },
    numbers: plain('left', t('Numbers'), (content) => numbersSection(content, { before: label() })),
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
    sweeps: { place: 'right', node: sweeps.section, show: sweeps.show, clear: () => sweeps.show({}) },
    impedance: { place: 'right', node: impedance.section, show: impedance.show, clear: () => impedance.show({}) },
    positions: {
      place: 'below',
      node: positions.section,
      show: positions.show,
      clear: () => positions.show({}),
    },
    switches: {
      place: 'below',
      node: switches.section,
      show: switches.show,
      clear: () => switches.show({}),
    },
    plan: { place: 'below', node: plan.section, show: plan.show, clear: plan.clear },
    next: plain('last', t('Measure next'), ({ reading }) => nextSection(reading, send)),
    missing: plain('last', t('Readings'), (content) => missingSection(content, send)),
    photos: plain('last', t('Photographs'), (content) => photosSection(content.photos, send)),
    proposals: plain('below', t('Target'), (content) => proposalsSection(content, send)),
    whatIf: { place: 'below', node: whatIf.section, show: whatIf.show, clear: whatIf.hide },
    usage: plain('below', t('Used by'), ({ rows }) => usageSection(rows, send)),
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

/** A section of nothing but what is made of its content; with nothing in it, it is hidden. */
function plain<N extends SectionName>(
  place: Place,
  ariaLabel: string,
  nodesOf: (content: SectionContents[N]) => readonly Node[],
): SectionView<N> {
  const node = element('section', { ariaLabel, hidden: true });
  const fill = (nodes: readonly Node[]): void => {
    node.hidden = nodes.length === 0;
    node.replaceChildren(...nodes);
  };
  return { place, node, show: (content) => fill(nodesOf(content)), clear: () => fill([]) };
}
