import type { Host } from '../analysis/analysis-types.ts';
import { checkGithub } from './check-github.ts';
import { checkJson } from './check-json.ts';
import { checkSarif } from './check-sarif.ts';
import { checkText } from './check-text.ts';
import { defineCommand } from './command.ts';
import { specFiles } from './files.ts';
import { type CheckedFile, locateFindings } from './located-finding.ts';
import { analyseSource, readSource, SOURCE_OPTIONS } from './source.ts';
import { visibleLines } from './visible.ts';

export const check = defineCommand({
  name: 'check',
  summary: 'findings of files and folders: phase, hum, wiring, windings, readings, names, units',
  positionals: '[PATH…]',
  least: 0,
  most: Number.POSITIVE_INFINITY,
  options: {
    format: { type: 'choice', choices: ['text', 'json', 'sarif', 'github'], meaning: 'how findings are written' },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'A folder stands for every *.pickup file in it and below, node_modules and folders with a dot in front left out.\n' +
      'Without PATH this folder is checked.',
  ],
  example: { line: 'git show :neck.pickup | pickup-spec check - --stdin-path neck.pickup', meaning: 'what is staged' },
  async run(values, positionals, context) {
    const named = positionals.length === 0 ? ['.'] : positionals;
    const { files, problems } = specFiles(
      named.filter((name) => name !== '-'),
      context.cwd,
    );
    const inputs = named.includes('-') ? ['-', ...files] : files;
    const unusable = [...problems];
    const checked: CheckedFile[] = [];
    const hosts = new Map<string, Host>();
    for (const input of inputs) {
      const result = await readSource(input, values, context, hosts);
      if (!result.ok) {
        unusable.push(result.problem);
        continue;
      }
      const { source } = result;
      const analysis = analyseSource(source, context);
      checked.push({ path: source.shown, findings: locateFindings(analysis, context.cwd) });
    }
    context.progress.clear();
    for (const problem of unusable) context.stderr.write(`pickup-spec: ${visibleLines(problem)}\n`);
    switch (values.format) {
      case 'text':
        if (checked.length > 0 || unusable.length === 0)
          context.stdout.write(checkText(checked, context.styles, context.stdout.columns));
        break;
      case 'json':
        context.stdout.write(checkJson(checked));
        break;
      case 'sarif':
        context.stdout.write(checkSarif(checked, unusable));
        break;
      case 'github':
        context.stdout.write(checkGithub(checked));
        break;
    }
    if (unusable.length > 0) return 2;
    return checked.some((file) => file.findings.some(({ severity }) => severity === 'error')) ? 1 : 0;
  },
});
