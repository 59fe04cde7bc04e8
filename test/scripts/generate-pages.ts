/** Writes the module of explanation pages: `npx tsx test/scripts/generate-pages.ts`. */
import { writeFileSync } from 'node:fs';
import { pagesModule } from './checks-pages.ts';

const { path, text } = pagesModule();
writeFileSync(path, text);
