import type { ProposalsView, ProposedBuildView } from '../../server/src/lsp/protocol.ts';
import { button, element } from './element.ts';
import type { Send } from './page-parts.ts';
import { sentence } from './sentence.ts';
import { table } from './table.ts';

/** The target with what the build comes to; below it what may be wound for it, each with a button that writes it. */
export function proposalsSection(
  { target, free, builds, inTheWay, cautions }: ProposalsView,
  send: Send,
): readonly Node[] {
  if (target === undefined) return [];
  return [
    element('h2', { textContent: 'Target' }),
    table({ ...target, caption: 'What is wanted, and what the build comes to' }, 'numbers'),
    ...(free === undefined
      ? []
      : [element('h3', { textContent: 'Builds' }), element('p', { className: 'q', textContent: `Free: ${free}.` })]),
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
            element('summary', { textContent: 'Mind at the bench' }),
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
  const use = button('Use this', () => send({ type: 'use build', index }));
  use.setAttribute('aria-label', `Use this: write build ${index + 1} into the spec`);
  return element('li', { className: 'find' }, [
    element('div', {}, [
      element('p', {}, [element('b', { textContent: `Build ${index + 1}, ${odds}` })]),
      ...parts.map((each) => element('p', { textContent: each })),
      table({ ...reaches, caption: `What build ${index + 1} reaches` }, 'numbers'),
      ...givesUp.map((each) => element('p', { className: 'q' }, sentence(each))),
    ]),
    use,
  ]);
}
