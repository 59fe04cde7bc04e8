/** Writes the files that are derived from the language's schema and from the pages of the checks: `npm run generate`. */
import { writeFileSync } from 'node:fs';
import { generatedFiles } from './generated-files.ts';

for (const { path, text } of generatedFiles()) writeFileSync(path, text);
