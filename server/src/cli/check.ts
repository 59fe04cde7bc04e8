import { type CheckSettings, checkSource, checkTask } from './check-file.ts';
import { checkReport } from './check-report.ts';
import { defineCommand } from './command.ts';
import { shownPath, specFiles } from './files.ts';
import { readSource, SOURCE_OPTIONS } from './source.ts';
import { visible } from './visible.ts';

/** Nobody reads the plans of more at once, and each is a search that takes longer than all the rest of a file. */
const MOST_PLANNED_FILES = 20;

export const check = defineCommand({
  name: 'check',
  summary: 'findings of files and folders: phase, hum, wiring, windings, readings, names, units',
  positionals: '[PATH…]',
  options: {
    format: { type: 'choice', choices: ['text', 'json', 'sarif', 'github'], meaning: 'how findings are written' },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'A folder stands for every *.pickup file in it and below, node_modules and folders with a dot in front left out.\n' +
      'Without PATH this folder is checked.',
    `Plans of repair are told for the first ${MOST_PLANNED_FILES} files with a fault that one could settle; \`repair\` tells those of any file.`,
  ],
  example: { line: 'git show :neck.pickup | pickup-spec check - --stdin-path neck.pickup', meaning: 'what is staged' },
  async run(values, positionals, context) {
    const named = positionals.length === 0 ? ['.'] : positionals;
    const { files, problems } = specFiles(
      named.filter((name) => name !== '-'),
      context.cwd,
    );
    const settings: CheckSettings = {
      cwd: context.cwd,
      root: values.root,
      format: values.format,
      isTerminal: context.stdout.isTerminal,
      environment: { NO_COLOR: context.environment.NO_COLOR, TERM: context.environment.TERM },
      columns: context.stdout.columns,
    };
    const report = checkReport(values.format, context);
    for (const problem of problems) report.unusable(problem);
    const isRead = values.format === 'text';
    if (named.includes('-')) {
      const isPlanned = isRead && files.length <= MOST_PLANNED_FILES;
      report.add(checkSource(await readSource('-', values, context), settings, isPlanned, context.analyser));
    }
    // Any of the first that has a fault is among the first with a fault; only those that stand for them are checked twice.
    const toCheck = files.map((file, index) => ({ file, isPlanned: isRead && index < MOST_PLANNED_FILES }));
    const again = checkTask.begin(settings, context.analyser);
    let done = 0;
    let faulty = 0;
    const step = (): void => context.progress.step(progressOf(done, files, context.cwd));
    step();
    for await (const each of context.threads.each(checkTask, settings, toCheck)) {
      const { file = '', isPlanned } = toCheck[done] ?? {};
      done += 1;
      if (each.ok && each.isFaulty) faulty += 1;
      const isToPlan = isRead && !isPlanned && each.ok && each.isFaulty && faulty <= MOST_PLANNED_FILES;
      report.add(isToPlan ? again({ file, isPlanned: true }) : each);
      step();
    }
    context.progress.clear();
    return report.end();
  },
});

/** The file that is waited for, and how many are done where there are many. */
function progressOf(done: number, files: readonly string[], cwd: string): string {
  const file = files[done];
  const shown = file === undefined ? '' : visible(shownPath(file, cwd));
  return files.length > 1 ? `${done} of ${files.length} files: ${shown}` : shown;
}
