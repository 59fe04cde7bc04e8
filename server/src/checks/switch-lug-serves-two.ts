import { planWiring, wiringTask } from '../estimates/wiring-plan.ts';
import type { Instrument } from '../model/instrument.ts';
import { namedTerminals } from '../model/soldered.ts';
import { finished } from '../physics/switching/steps.ts';
import { tornLug } from '../physics/switching/torn-lugs.ts';
import { wiringLines } from '../words/wiring-words.ts';
import { removeLine, replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';
import { onWords, switchFault, terminalPlace, wantedOf } from './switch-faults.ts';

/** Two positions want a lug on different nets, where nothing that is moved by itself puts all positions right. */
export const switchLugServesTwo = defineInstrumentCheck({
  code: 'switch/lug-serves-two',
  severity: 'error',
  yieldsTo: [],
  run: (context) => {
    const { switching, written } = context;
    const fault = switching && switchFault(switching, written);
    if (!switching || !fault || fault.wrong.length === 0 || fault.isPutOff || fault.changes.length > 0)
      return undefined;
    const { rig } = switching.numbered;
    const lugs = rig.switches.flatMap(({ slot, contacts }) => contacts.lugs.map((lug) => `${slot}.${lug}`));
    const asked = switching.positions.filter((each) => each.asked);
    const torn = tornLug(rig, wantedOf(asked), lugs);
    const [one, other] = torn?.wants ?? [];
    const [first, second] = [one, other].map((want) => want && asked[want.state]?.position);
    if (!torn || !one || !other || !first || !second) return undefined;
    return {
      what: say`Position ${first.key.value} needs \`${torn.lug}\` ${onWords(one.on)}, position ${second.key.value} ${onWords(other.on)}; it is soldered for good.`,
      action: say`Give one of the two a lug of another pole, or plan the wiring anew.`,
      place: terminalPlace(context, torn.lug),
      related: [first, second].map(({ key, place }) => ({
        message: say`what position ${key.value} should do`,
        place,
      })),
      remedies: () => plannedAnew(written),
      subject: { nodes: [torn.lug] },
    };
  },
});

/** Only where nothing that a person has written beside leads and lugs would be lost. */
function plannedAnew(written: Instrument): Remedy | undefined {
  const { wiring, slots, switches } = written;
  const owners = new Set([...slots, ...switches].map(({ name }) => name));
  const isOwn = (terminal: string) =>
    terminal === 'hot' || terminal === 'ground' || owners.has(terminal.split('.')[0] ?? '');
  if (!wiring || wiring.parts.length > 0 || ![...namedTerminals(wiring)].every(isOwn)) return undefined;
  const task = wiringTask(written, true);
  const planned = typeof task === 'string' ? undefined : finished(planWiring(task, FEW_SEARCHES));
  if (planned?.kind !== 'plan') return undefined;
  const lines = wiringLines(planned.plan);
  const used = new Set(lines.flatMap((line) => line.split(' ')));
  const unused = switches
    .flatMap(({ name, part }) => (part?.lugs ?? []).map((lug) => `${name}.${lug}`))
    .filter((lug) => !used.has(lug));
  const all = unused.length > 0 ? [...lines, `free ${unused.join(' ')}`] : lines;
  const [first, ...rest] = wiring.lines;
  return (
    first &&
    remedy(say`Plan the wiring anew: ${planned.plan.wires} wires`, [
      replaceAt(first.place, all.join('\n    ')),
      ...rest.map(({ place }) => removeLine(place)),
    ])
  );
}

/** Half a second or so. */
const FEW_SEARCHES = 400;
