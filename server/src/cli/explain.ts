import { explanationOf } from '../checks/explanation.ts';
import { codes } from '../checks/pages.ts';
import { CommandError, defineCommand } from './command.ts';
import { meant } from './meant.ts';

export const explain = defineCommand({
  name: 'explain',
  summary: 'the page of a finding, or the list',
  positionals: '[CODE]',
  options: {},
  example: {
    line: 'pickup-spec explain phase/coils-cancel',
    meaning: 'what is wrong, why it matters, an example put right',
  },
  async run(_values, [code], context) {
    if (code === undefined) {
      const width = Math.max(...codes.map((each) => each.length));
      context.stdout.write(codes.map((each) => `${each.padEnd(width)}  ${summaryOf(each)}\n`).join(''));
      return 0;
    }
    const page = explanationOf(code);
    if (page === undefined) {
      const likely = meant(code, codes) ?? codes.find((each) => each.split('/')[1] === code);
      const hint = likely === undefined ? 'pickup-spec explain lists all' : `did you mean ${likely}?`;
      throw new CommandError(`no finding has the code ${code}: ${hint}`);
    }
    context.stdout.write(page);
    return 0;
  },
});

/** The first paragraph of a page: `Error. No path leads from hot to ground.` */
export function summaryOf(code: string): string {
  const [, paragraph = ''] = (explanationOf(code) ?? '').split(/\n\n+/);
  return paragraph.trim();
}
