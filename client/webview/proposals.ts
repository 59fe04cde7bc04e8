import type { ProposalsView, ProposedBuildView } from '../../server/src/lsp/protocol.ts';
import { button, element } from './element.ts';
import type { Send } from './page-parts.ts';
import { findingText, sentence } from './sentence.ts';
import { table } from './table.ts';
import { t } from './words.ts';

/** The target with what the build comes to; below it what may be wound for it, each with a button that writes it. */
export function proposalsSection(
  { target, free, builds, inTheWay, cautions }: ProposalsView,
  send: Send,
): readonly Node[] {
  if (target === undefined) return [];
  return [
    element('h2', { textContent: t('Target') }),
    table({ ...target, caption: t('What is wanted, and what the build comes to') }, 'aims'),
    ...(free === undefined
      ? []
      : [
          element('h3', { textContent: t('Builds') }),
          element('p', { className: 'q', textContent: t('Free: {0}.', free) }),
        ]),
    ...(builds.length > 0
      ? [
          element(
            'ol',
            { className: 'builds' },
            builds.map((build, index) => buildItem(build, index, send)),
          ),
        ]
      : []),
    ...inTheWay.map((each) => element('p', { className: 'stale' }, sentence(each))),
    ...(cautions.length > 0
      ? [
          element('details', {}, [
            element('summary', { textContent: t('Mind at the bench') }),
            element(
              'ul',
              {},
              cautions.map((each) => element('li', { textContent: each })),
            ),
          ]),
        ]
      : []),
  ];
}

function buildItem({ odds, parts, reaches, givesUp }: ProposedBuildView, index: number, send: Send): Node {
  const use = button(t('Use this'), () => send({ type: 'use build', index }));
  use.setAttribute('aria-label', t('Use this: write build {0} into the spec', index + 1));
  return element('li', { className: 'build' }, [
    element('p', {}, [element('b', { textContent: t('Build {0}, {1}', index + 1, odds) })]),
    ...parts.map((each) => element('p', { textContent: each })),
    table({ ...reaches, caption: t('What build {0} reaches', index + 1) }, 'aims'),
    ...givesUp.map(({ what, foreign }) => element('p', { className: 'q' }, [findingText(what, foreign)])),
    use,
  ]);
}
