/** Renews the pictures: of the lesson as the tool draws them, and of the README, the extension as it is built now in a real editor. */
import { writeFileSync } from 'node:fs';
import { lessonPictures } from './lesson-pictures.ts';
import { runStep } from './steps.ts';

/** What each shows is said in the README, beside it. */
const PICTURES: readonly { readonly name: string; readonly args: readonly string[] }[] = [
  {
    name: 'bench-view',
    args: ['--file', 'samples/hesk-neck.pickup', '--steps', 'key Control+B; line 16', '--bench-view'],
  },
  {
    name: 'finding',
    args: ['--file', 'samples/mistakes/phase-coils-cancel.pickup', '--steps', 'key Control+B; line 36', '--bench-view'],
  },
  {
    name: 'instrument',
    args: ['--file', 'samples/larkspit.pickup', '--steps', 'key Control+B; line 45', '--bench-view'],
  },
];

const SETTINGS = JSON.stringify({
  'editor.minimap.enabled': false,
  'editor.stickyScroll.enabled': false,
  'breadcrumbs.enabled': false,
  'workbench.activityBar.location': 'hidden',
  'window.commandCenter': false,
  'workbench.layoutControl.enabled': false,
});

for (const { path, text } of lessonPictures()) writeFileSync(path, text);
const built = await runStep({ name: 'build', script: 'test/scripts/build.ts' });
let failed = built.exitCode !== 0;
for (const { name, args } of failed ? [] : PICTURES) {
  const { exitCode } = await runStep({
    name,
    script: 'test/scripts/screenshot.ts',
    args: [
      '--width',
      '1240',
      '--height',
      '940',
      ...args,
      '--settings',
      SETTINGS,
      '--out',
      `client/pictures/${name}.png`,
    ],
  });
  failed ||= exitCode !== 0;
}
process.exitCode = failed ? 1 : 0;
