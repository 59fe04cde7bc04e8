import type { WiringPlanView } from '../../server/src/lsp/protocol.ts';
import { button, element } from './element.ts';
import type { Send } from './page-parts.ts';
import { createPlot } from './plot.ts';
import { sentence } from './sentence.ts';
import { table } from './table.ts';
import { t } from './words.ts';

/** What to solder, drawn, joint by joint and as the spec says it, with a button that writes it; or why there is nothing that does it. */
export function createPlan(send: Send) {
  const plot = createPlot(t('The switches as planned'), t('The switches as planned, as a table'), 'plan', 'sheet');
  const head = element('div', {});
  const rest = element('div', {});
  const section = element('section', { ariaLabel: t('Planned wiring'), hidden: true }, [head, plot.section, rest]);
  const show = ({ says, drawn, joints, lines, cautions, edits }: WiringPlanView): void => {
    section.hidden = says.length === 0;
    head.replaceChildren(
      element('h2', { textContent: t('Planned wiring') }),
      ...says.map((each) => element('p', {}, sentence(each))),
      ...(edits.length > 0 ? [button(t('Write this wiring'), () => send({ type: 'write plan' }))] : []),
    );
    plot.show(drawn);
    rest.replaceChildren(
      ...(joints ? [table(joints, 'joints')] : []),
      ...(lines.length > 0
        ? [folded(t('As the spec says it'), element('pre', { textContent: lines.join('\n') }))]
        : []),
      ...(cautions.length > 0
        ? [
            folded(
              t('Mind at the bench'),
              element(
                'ul',
                {},
                cautions.map((each) => element('li', { textContent: each })),
              ),
            ),
          ]
        : []),
    );
  };
  const clear = (): void => show({ version: 0, says: [], drawn: {}, lines: [], cautions: [], edits: [] });
  return { section, show, clear };
}

const folded = (title: string, content: Node): Node =>
  element('details', {}, [element('summary', { textContent: title }), content]);
