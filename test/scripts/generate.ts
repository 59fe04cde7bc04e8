/** Writes the files that are derived from the language's schema: `npx tsx test/scripts/generate.ts`. */
import { writeFileSync } from 'node:fs';
import { generatedFiles } from './generated-files.ts';

for (const { path, text } of generatedFiles()) writeFileSync(path, text);
