import type { IdentifiedCoil } from '../estimates/identify/identify.ts';
import { type IdentifiedLeads, identifiedLeads } from '../repair/identified-leads.ts';
import { cautionsOf } from '../words/cautions.ts';
import { chooseOrAll } from './choose.ts';
import { defineCommand } from './command.ts';
import { editsJson, type Locate, locator } from './located-finding.ts';
import { analysed, SOURCE_OPTIONS } from './source.ts';
import type { Styles } from './styles.ts';
import { jsonText, visible } from './visible.ts';

export const identify = defineCommand({
  name: 'identify',
  summary: 'unknown leads deduced from readings; which measurement settles the rest',
  positionals: 'FILE',
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the leads are written' },
    pickup: { type: 'text', value: 'NAME', meaning: 'only this pickup' },
    ...SOURCE_OPTIONS,
  },
  notes: [
    'Told is what every way of soldering that the readings allow has in common, and nothing else. The file itself is not\n' +
      'changed: the lines to write are told.',
  ],
  example: {
    line: 'pickup-spec identify samples/foundling.pickup',
    meaning: 'which lead is whose, from what the meter and a piece of steel showed',
  },
  async run(values, [file = ''], context) {
    const { analysis, shown } = await analysed(file, values, context);
    const { pickups } = analysis;
    const asked = chooseOrAll(pickups, (each) => each.pickup.name, { what: 'pickup', name: values.pickup, shown });
    const found = asked.map(({ pickup }) => {
      context.progress.step(`${shown}: ${pickup.name}`);
      return identifiedLeads(analysis, pickup);
    });
    context.progress.clear();
    const locate = locator(analysis, context.cwd);
    context.stdout.write(
      values.format === 'json'
        ? identifyJson(found, locate)
        : found.map((each) => leadsText(each, locate, context.styles)).join('\n') ||
            `${visible(shown)} holds no pickup\n`,
    );
    return 0;
  },
});

function leadsText({ pickup, identification, facts }: IdentifiedLeads, locate: Locate, styles: Styles): string {
  const { coils, pairs, shields, contradicts, tooMany, next, assuming } = identification;
  const isSoldered = facts.some(({ isHookup }) => isHookup);
  const heading = styles.strong(visible(`pickup ${pickup.name}`));
  if (coils.length === 0 && shields.length === 0 && facts.length === 0) return `${heading}: no lead is unknown\n`;
  const lines = contradicts.flatMap((place) => {
    const at = locate(place);
    const text = place.chunk.text.slice(place.span.start, place.span.end);
    return at ? [`    line ${at.range.start.line + 1}: ${visible(text)}`] : [];
  });
  return [
    `${heading}:`,
    ...(tooMany ? ['  too many leads are unread to deduce anything: read resistances between pairs first'] : []),
    ...(contradicts.length > 0
      ? ['  no way of soldering the coils gives all readings; one of these is mistaken:', ...lines]
      : coils.map((each) => `  ${visible(coilText(each))}`)),
    ...shields.map(({ lead, part }) => `  ${visible(`${lead} is the shield: it reads nothing to the ${part}`)}`),
    ...(pairs.length > 0 && coils.some(({ leads }) => leads === undefined)
      ? [`  together: ${visible(pairs.map(({ leads }) => leads.join(' and ')).join('; '))}`]
      : []),
    ...(next
      ? [
          `  ${next.settles ? 'settles the rest' : isSoldered ? 'open is only start and finish, which no joint needs' : 'tells most next'}: ${visible(next.text)}`,
        ]
      : []),
    ...(coils.some(({ leads }) => leads) && assuming === 'own conductors'
      ? [`  ${styles.faint('taken as given: each end of a coil leaves by a conductor of its own')}`]
      : []),
    // One choice of all that is open; its opposite is worded, not listed.
    ...facts
      .filter(({ proven }, index) => proven || facts.findIndex((each) => !each.proven) === index)
      .flatMap(({ title, edits, hint, proven }) => [
        '',
        `  ${visible(title)}`,
        ...(hint === undefined
          ? []
          : [hint, ...cautionsOf('solder')].map((each) => `    ${styles.faint(visible(each))}`)),
        ...(proven
          ? []
          : [`    ${styles.faint('or the other lead of a coil as its start, then wound the other way')}`]),
        ...edits.flatMap(({ newText }) => dedented(newText).map((line) => `    ${visible(line)}`)),
      ]),
    '',
  ].join('\n');
}

/** Lines with text, without the indentation that all of them share. */
function dedented(text: string): readonly string[] {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const shared = Math.min(...lines.map((line) => line.length - line.trimStart().length));
  return lines.map((line) => line.slice(shared).trimEnd());
}

function coilText({ coil, leads, start, finish, byElimination, leftOver }: IdentifiedCoil): string {
  const how = byElimination ? ', by elimination: nothing was read of this coil alone' : '';
  if (start !== undefined && finish !== undefined) return `${coil.name}: start ${start}, finish ${finish}${how}`;
  if (leads) return `${coil.name}: ${leads.join(' and ')}${how}; which of them is the start is not proven`;
  if (leftOver)
    return `${coil.name}: ${leftOver.join(' and ')} are left for it, by elimination; nothing was read between them`;
  return `${coil.name}: not proven`;
}

function identifyJson(found: readonly IdentifiedLeads[], locate: Locate): string {
  return jsonText({
    schema: 'identify/1',
    pickups: found.map(({ pickup, identification, facts }) => ({
      pickup: pickup.name,
      coils: identification.coils.map(({ coil, leads, start, finish, byElimination, leftOver }) => ({
        coil: coil.name,
        leads,
        start,
        finish,
        byElimination: byElimination || undefined,
        leftOver,
      })),
      pairs: identification.pairs.map(({ leads }) => leads),
      shields: identification.shields.map(({ lead, part }) => ({ lead, part })),
      assuming: identification.assuming,
      contradicts: identification.contradicts.flatMap((place) => {
        const at = locate(place);
        return at ? [{ path: at.path, range: at.range }] : [];
      }),
      tooMany: identification.tooMany,
      next: identification.next && { text: identification.next.text, settles: identification.next.settles },
      facts: facts.map(({ title, proven, hint, edits }) => ({
        title,
        proven,
        hint,
        edits: editsJson(edits, locate),
      })),
    })),
  });
}
