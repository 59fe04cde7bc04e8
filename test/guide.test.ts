/**
 * The guide of how to add things, followed in a copy of the sources: place by place, and before each the compiler must ask for it
 * where the guide says. What is left out does not compile; with all places filled, everything does.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { writeBundles } from './scripts/build.ts';
import { COMMAND_LINE } from './support/bundled.ts';

const ROOT = path.resolve(import.meta.dirname, '..');
const PARTS = ['grammar', 'server', 'client'];
/** What generates the generated files. */
const GENERATOR = ['test/scripts', 'package.json'];

interface Place {
  readonly file: string;
  /** What the compiler says in this file while the place is not filled; nothing for the first place of an addition. */
  readonly asked?: RegExp;
  /** Where the addition is made before that file can have it. */
  readonly writes?: string;
  /** The file's text with the addition. */
  readonly fill: (text: string) => string;
  /** Generated files follow from it. */
  readonly generates?: true;
}

/** Puts lines before a line that the file must hold. */
const above =
  (line: string, added: string) =>
  (text: string): string => {
    assert.ok(text.includes(line), `no line ${line}`);
    return text.replace(line, () => `${added}\n${line}`);
  };
const anew = (text: string) => () => text;

const CHECK = (code: string) => `import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';

export const pickupUnsigned = definePickupCheck({
  code: '${code}',
  severity: 'hint',
  yieldsTo: ['lead/undeclared'],
  run: ({ pickup: { place, notes } }) => (notes.length > 0 ? [] : [{ what: say\`nobody signed it\`, place }]),
});
`;

const INDEX = 'server/src/checks/index.ts';

const fact = (word: string, shape: string) => `    ${word}: fact({
      shape: ${shape},
      meaning: 'made up',
      example: '${word} 9 neck',
    }),`;

const COMMAND = (example: string) => `import { defineCommand } from './command.ts';

export const moon = defineCommand({
  name: 'moon',
  summary: 'the phase of the moon',
  positionals: '',
  options: {},
  ${example}
  async run(_values, _positionals, { stdout }) {
    stdout.write('new\\n');
    return 0;
  },
});
`;

const ADDITIONS: Readonly<Record<string, readonly Place[]>> = {
  'a fact': [
    {
      file: 'grammar/src/schema/pickup.ts',
      fill: above('    strings: fact({', fact('weight', "quantity('mass', positive)")),
      generates: true,
    },
    {
      file: 'server/src/checks/pickup-weight.ts',
      fill: anew(`import type { Pickup } from '../model/pickup.ts';

export const weightKg = (pickup: Pickup): number | undefined => pickup.weight?.value.si;
`),
    },
  ],
  'a fact that nobody reads': [
    {
      file: 'grammar/src/schema/wire.ts',
      fill: above('    notes: note,', fact('lustre', "quantity('length', positive)")),
    },
  ],
  'a fact that the trade makes something else of': [
    {
      file: 'grammar/src/schema/pickup.ts',
      fill: above(
        '    strings: fact({',
        fact('lean', "sequence({ degrees: count({ min: 1 }), end: word('bridge', 'neck') })"),
      ),
    },
    {
      file: 'server/src/model/pickup.ts',
      fill: (text) =>
        above(
          '  readonly coilsApart:',
          "  readonly leansToward: 'bridge' | 'neck' | undefined;",
        )(text.replace("'coilsApart' | 'conductors'", "'lean' | 'coilsApart' | 'conductors'")),
    },
    {
      file: 'server/src/model/from-pickup.ts',
      asked: /'leansToward' is missing/,
      fill: (text) =>
        above(
          '    title: block.title,',
          '    leansToward: lean?.value.end,',
        )(text.replace('const { coilsApart, ', 'const { lean, coilsApart, ')),
    },
  ],
  'a fact of a block whose facts are all read by hand': [
    {
      file: 'grammar/src/schema/controls.ts',
      fill: above(
        '    accept,',
        "    glow: fact({ shape: quantity('resistance'), meaning: 'a glow', example: 'glow 1 Mohm' }),",
      ),
    },
    {
      file: 'server/src/model/from-instrument.ts',
      asked: /glow.*does not satisfy/,
      fill: (text) => text.replace('bleed, accept,', 'bleed, glow, accept,'),
    },
  ],
  'a kind of block inside another': [
    {
      file: 'grammar/src/schema/pickup.ts',
      fill: (text) => text.replace("'potting', 'target']", "'potting', 'target', 'bench']"),
    },
    {
      file: 'server/src/model/from-pickup.ts',
      asked: /bench.*does not satisfy/,
      fill: (text) => text.replace('potting, target, ...unread }', 'potting, target, bench, ...unread }'),
    },
  ],
  'a check': [
    {
      file: 'server/src/checks/work-unsigned.md',
      fill: anew('# work/unsigned\n\nHint. Nobody signed.\n'),
      generates: true,
    },
    {
      file: INDEX,
      asked: /work\/unsigned"?' is missing/,
      writes: 'server/src/checks/work-unsigned.ts',
      fill: anew(CHECK('work/unsinged')),
    },
    { file: 'server/src/checks/work-unsigned.ts', asked: /'"work\/unsinged"'/, fill: anew(CHECK('work/unsigned')) },
    {
      file: INDEX,
      asked: /work\/unsigned"?' is missing/,
      fill: (text) =>
        above(
          '  leadUndeclared,',
          '  pickupUnsigned,',
        )(above('import type { TextCode }', "import { pickupUnsigned } from './work-unsigned.ts';")(text)),
    },
    {
      file: INDEX,
      asked: /not assignable to parameter/,
      fill: (text) => above('  leadReused,', '  pickupUnsigned,')(text.replace('  pickupUnsigned,\n', '')),
    },
  ],
  'a command': [
    { file: 'server/src/cli/moon.ts', fill: anew(COMMAND('')) },
    {
      file: 'server/src/cli/moon.ts',
      asked: /'example' is missing/,
      fill: anew(COMMAND("example: { line: 'pickup-spec moon', meaning: 'when to wind' },")),
    },
    { file: 'server/src/cli/commands.ts', fill: above('  newShop,', '  moon,') },
    {
      file: 'server/src/cli/commands.ts',
      asked: /Cannot find name 'moon'/,
      fill: above('import { newShop }', "import { moon } from './moon.ts';"),
    },
  ],
  'a card': [
    {
      file: 'server/src/documents/cards/card-kinds.ts',
      fill: (text) => text.replace("'label'] as const", "'label', 'lid'] as const"),
    },
    {
      file: 'server/src/documents/cards/cards.ts',
      asked: /'lid' is missing/,
      fill: above('    label: (', '    lid: ({ pickups }, source) => pickups.map((each) => labelCard(each, source)),'),
    },
    {
      file: 'client/src/features/cards/cards.ts',
      asked: /'lid' is missing/,
      fill: above("  label: ['", "  lid: ['label', 'for the box, with a code that points to the file'],"),
    },
  ],
  'a section of the bench view': [
    {
      file: 'server/src/lsp/bench-view-protocol.ts',
      fill: above('  readonly numbers: NumbersTable;', '  readonly moon: { readonly phase: string };'),
    },
    {
      file: 'server/src/lsp/bench-view-protocol.ts',
      asked: /'moon' is missing/,
      fill: above('  numbers: { isHeavy', "  moon: { isHeavy: false, isHeard: false, needs: 'pickups' },"),
    },
    {
      file: 'server/src/lsp/sections.ts',
      asked: /'moon' is missing/,
      fill: above('  response: { make', "  moon: { make: () => ({ phase: 'new' }), inPage: ({ phase }) => [phase] },"),
    },
    {
      file: 'client/webview/sections.ts',
      asked: /'moon' is missing/,
      fill: above('    response: {\n', "    moon: plain('last', 'Moon', ({ phase }) => [new Text(phase)]),"),
    },
  ],
  'a unit': [
    {
      file: 'grammar/values/unit-table.ts',
      fill: above("  unit('kg', ", "  unit('oz', 'oz', 'mas', 0.0283495),"),
    },
    {
      file: 'grammar/values/unit-table.ts',
      asked: /'"mas"'/,
      fill: (text) => text.replace("'oz', 'mas'", "'oz', 'mass'"),
    },
  ],
  'a dimension': [
    { file: 'grammar/values/unit-table.ts', fill: above("  | 'level';", "  | 'torque'") },
    {
      file: 'grammar/values/unit-table.ts',
      asked: /lacks ending return statement/,
      fill: (text) =>
        above(
          "  unit('kg', ",
          "  unit('Nm', 'N\\u22C5m', 'torque', 1),",
        )(above("    case 'mass':", "    case 'torque':\n      return 'Nm';")(text)),
    },
    {
      file: 'server/src/quantities/print.ts',
      asked: /'torque' is missing/,
      fill: above('  gauge: [[0, ', "  torque: [[0, 'Nm']],"),
    },
  ],
};

describe('the guide of how to add things', function () {
  this.timeout(300_000);
  let copy = '';
  /** What the compiler said in each round, of all additions together. */
  const rounds: string[][] = [];
  const length = Math.max(...Object.values(ADDITIONS).map((places) => places.length));

  before(() => {
    copy = mkdtempSync(path.join(tmpdir(), 'guide-'));
    for (const each of [...PARTS, ...GENERATOR])
      cpSync(path.join(ROOT, each), path.join(copy, each), { recursive: true });
    const config: object = JSON.parse(readFileSync(path.join(ROOT, 'tsconfig.json'), 'utf8'));
    writeFileSync(path.join(copy, 'tsconfig.json'), JSON.stringify({ ...config, include: PARTS }));
    symlinkSync(path.join(ROOT, 'node_modules'), path.join(copy, 'node_modules'), 'junction');
    for (let round = 0; round < length; round++) {
      const places = Object.values(ADDITIONS).flatMap((each) => each[round] ?? []);
      for (const { file, writes = file, fill } of places) fillPlace(path.join(copy, writes), fill);
      if (places.some(({ generates }) => generates)) run(['--import', 'tsx', 'test/scripts/generate.ts']);
      rounds.push(compilerErrors());
    }
  });
  after(() => rmSync(copy, { recursive: true, force: true }));

  const run = (args: readonly string[]): string => {
    const { stdout, stderr, error } = spawnSync(process.execPath, args, { cwd: copy, encoding: 'utf8' });
    assert.ok(error === undefined && stderr === '', stderr);
    return stdout;
  };
  const compilerErrors = (): string[] =>
    run([
      'node_modules/typescript/bin/tsc',
      ...['--noEmit', '--incremental', '--tsBuildInfoFile', 'build-info.json'],
      // Threads that check side by side work out what they share twice, and other tests want the cores.
      '--singleThreaded',
    ])
      // What follows an error and explains it is indented.
      .split(/\n(?=\S)/)
      .filter((error) => /^\S+\(\d+,\d+\): error /.test(error));

  for (const [name, places] of Object.entries(ADDITIONS)) {
    places.forEach(({ file, asked }, index) => {
      if (asked === undefined) return;
      it(`${name}: after ${index} of its places the compiler asks for ${file}`, () => {
        const said = rounds[index - 1] ?? [];
        assert.ok(
          said.some((line) => line.startsWith(`${file}(`) && asked.test(line)),
          said.join('\n'),
        );
      });
    });
  }

  it('leads to code that compiles', () => assert.deepEqual(rounds.at(-1), []));

  it('a fact that the model holds as it reads, and that nobody reads from it, is found', async () => {
    const facts = await plainFacts(copy);
    assert.ok(facts.length > 40, 'hardly any fact was found');
    // With none of them in the model's types, the compiler names every place that reads one.
    fillPlace(path.join(copy, 'server/src/model/reading.ts'), (text) => {
      const without = text.replace(
        /(export type Plain<[^=]*(?:=[^=]*)?)= Omit<[^;]*;/,
        '$1= Readonly<Record<never, [B, Taken]>>;',
      );
      assert.notEqual(without, text);
      return without;
    });
    const missed = compilerErrors().flatMap((error) => {
      const [, file = '', field = '', types = ''] =
        /^(\S+?)\(.*Property '(\w+)' does not exist on type '([^']*)'/.exec(error) ?? [];
      return file.startsWith('server/src/model/from-') ? [] : types.split(' | ').map((type) => `${type} ${field}`);
    });
    // What a note says is for people: it stays where it is written.
    assert.deepEqual(
      facts.filter((each) => !missed.includes(each) && !each.endsWith(' notes')),
      ['Wire lustre'],
    );
  });

  it('a command is there at once, and in the help', async () => {
    const output = 'command-line.cjs';
    await writeBundles([{ entry: COMMAND_LINE, output, runsIn: 'node' }], copy);
    assert.equal(run([output, 'moon']), 'new\n');
    assert.match(run([output, '--help']), /^ {2}moon +the phase of the moon$/m);
  });
});

/** Those that the model's types hold as the schema's entries say: `Coil tension`. */
async function plainFacts(root: string): Promise<readonly string[]> {
  const schema: typeof import('../grammar/src/schema/index.ts') = await import(
    pathToFileURL(path.join(root, 'grammar/src/schema/index.ts')).href
  );
  const folder = path.join(root, 'server/src/model');
  return readdirSync(folder).flatMap((name) => {
    const text = readFileSync(path.join(folder, name), 'utf8');
    const types = text.matchAll(/interface (\w+)\s+extends Plain<\s*typeof language\.(\w+)([^>]*)>/g);
    return [...types].flatMap(([, type, block = '', taken = '']) =>
      Object.keys(schema.schemas.get(block)?.facts ?? {})
        .filter((field) => field !== 'accept' && !taken.includes(`'${field}'`))
        .map((field) => `${type} ${field}`),
    );
  });
}

function fillPlace(file: string, fill: Place['fill']): void {
  writeFileSync(file, fill(existsSync(file) ? readFileSync(file, 'utf8') : ''));
}
