import { TextDocument } from 'vscode-languageserver-textdocument';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { whatIfView } from '../../server/src/lsp/what-if.ts';
import { whatIfState } from '../../server/src/lsp/what-if-state.ts';
import { ENGLISH } from '../../server/src/words/languages/language.ts';
import { startHarness } from '../client/bench-view-harness.ts';
import { seededBuild, seededSpec } from '../support/seeded-shelf.ts';

const MOVES = 31;
const URI = 'file:///shop/two-coils.pickup';

/** A pair of coils whose turns are moved by hand: from the movement to the estimate on the page, and to the exact numbers. */
export async function run(): Promise<void> {
  // The ninth is a pair.
  const text = seededSpec(seededBuild(9, { bobbins: 8, spools: 6 }), { target: '', without: {} });
  const now = createAnalyser().analyse(URI, { content: () => ({ kind: 'text', text }), isInside: () => true });
  const name = now.pickups[0]?.pickup.name ?? '';
  const states = { t: ENGLISH, document: TextDocument.create(URI, 'pickup', 1, text), now, before: undefined };
  const asked = { protocol: 3, uri: URI, subject: { kind: 'pickup', name } as const, pots: {}, width: 900 };
  const started = performance.now();
  const view = whatIfView(states, asked);
  const viewMs = performance.now() - started;
  const turns = view.knobs.find(({ slider }) => slider);
  if (turns?.slider === undefined) throw new Error('no turns to move');
  const { id, slider } = turns;
  const exact = Array.from({ length: MOVES }, (_, index) =>
    timed(() => whatIfState(states, { ...asked, settings: { [id]: slider.fewest + slider.step * (index + 1) } })),
  );

  const harness = await startHarness();
  const page = await harness.open();
  await page.post({ type: 'section', render: 0, content: { section: 'whatIf', ...view } });
  const moves = await page.page.evaluate<number[]>(`(() => {
    const slider = document.querySelector('section[aria-label="What if"] input[type="range"]');
    return Array.from({ length: ${MOVES} }, (_, index) => {
      const from = performance.now();
      slider.value = String(Number(slider.min) + Number(slider.step) * (index + 1));
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      document.body.getBoundingClientRect();
      return performance.now() - from;
    });
  })()`);
  await harness.close();
  console.log(`what if: turns of a pair of coils, ${view.knobs.length} knobs`);
  console.log(`  knobs and models at hand, first time         ${viewMs.toFixed(0)} ms`);
  console.log(
    `  movement to estimate, laid out               ${median(moves).toFixed(1)} ms (target: one frame, 16 ms)`,
  );
  console.log(
    `  exact numbers, curves and findings           ${median(exact).toFixed(0)} ms, worst ${Math.max(...exact).toFixed(0)} ms, 40 ms of rest before them (target: 200 ms from the last movement)`,
  );
}

function timed(work: () => unknown): number {
  const from = performance.now();
  work();
  return performance.now() - from;
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
