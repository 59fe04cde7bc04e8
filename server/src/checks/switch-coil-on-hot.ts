import type { WiredState, WiredStates } from '../estimates/switch-states.ts';
import { meaningIn, numberedRig } from '../physics/switching/meaning.ts';
import { HOT } from '../physics/switching/rig.ts';
import { positionWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import type { Found } from './check.ts';
import { defineInstrumentCheck, type InstrumentContext } from './instrument-check.ts';
import { say } from './say.ts';
import { changesForBetter, remediesOf, terminalPlace, WRONG_WIRING } from './switch-faults.ts';

/** A coil that does not sound stays on hot, or on an inner joint, by one end: it takes up hum like an antenna. Once for each coil. */
export const switchCoilOnHot = defineInstrumentCheck({
  code: 'switch/coil-on-hot',
  severity: 'warning',
  yieldsTo: WRONG_WIRING,
  run: (context) => {
    const { switching } = context;
    if (!switching) return [];
    const coils = switching.numbered.rig.elements.filter(({ isCoil }) => isCoil);
    return coils.map(({ name }) => {
      const hanging = switching.states.filter((each) => isRight(each, switching) && hangs(each, name));
      return hanging.length === 0 ? undefined : foundOf(name, hanging, switching, context);
    });
  },
});

/** Some position stands in it, and none that does something else than it says: what else is wrong there follows from that. */
const isRight = (state: WiredState, { positions }: WiredStates): boolean =>
  state.positions.length > 0 &&
  !positions.some(({ position, verdict }) => verdict === 'differs' && state.positions.includes(position));

function hangs({ meaning }: Pick<WiredState, 'meaning'>, coil: string): boolean {
  const dead = meaning.dead.get(coil);
  return dead?.closed === 'open' && (dead.on === 'hot' || dead.on === 'link');
}

function foundOf(
  coil: string,
  hanging: readonly WiredState[],
  switching: WiredStates,
  context: InstrumentContext,
): Found {
  const [first] = hanging;
  const on = first?.meaning.dead.get(coil)?.on === 'link' ? 'an inner joint' : 'hot';
  const by = first && endOn(coil, first, switching);
  const [slot = '', coilOf = ''] = coil.split('.');
  const keys = hanging.flatMap(({ positions }) => positions.map((each) => positionWords(each)));
  return {
    what: say`In ${list(keys)} the ${coilOf} coil of ${slot} does not sound and stays on ${on} by one end${by === undefined ? '' : say`, \`${by}\``}, its other end open: an antenna for hum.`,
    action: say`Short it in ${keys.length > 1 ? 'these positions' : 'this position'}, or let its open end go to ground and its other end off hot.`,
    place: by === undefined ? context.written.place : terminalPlace(context, by),
    remedies: () =>
      remediesOf(
        changesForBetter(switching, (links) => !hangsIn(coil, links, switching)),
        switching.instrument,
      ),
    subject: { nodes: by === undefined ? [] : [by] },
  };
}

/** The lead of the coil, or of the dead coil before it, that lies on hot or on a joint that sounds. */
function endOn(coil: string, { meaning }: WiredState, { numbered: { rig } }: WiredStates): string | undefined {
  const live = new Set(
    [HOT, ...rig.elements.filter(({ name }) => meaning.sounding.includes(name)).flatMap(({ ends }) => ends)].map(
      meaning.netOf,
    ),
  );
  const slot = coil.split('.')[0] ?? '';
  const ends = rig.elements.filter(
    ({ name }) => name === coil || (name.startsWith(`${slot}.`) && meaning.dead.has(name)),
  );
  const points = ends.flatMap((element) => element.ends).filter((end) => live.has(meaning.netOf(end)));
  const net = rig.fixed.find((each) => points.some((point) => each.includes(point)));
  return net?.find((terminal) => /^[^./]+\.[^./]+$/.test(terminal));
}

/** True where some coil hangs by one end in some position, with other joints: the coil itself, or one that did not before. */
function hangsIn(
  coil: string,
  links: WiredStates['numbered']['rig']['links'],
  { numbered, states }: WiredStates,
): boolean {
  const rig = { ...numbered.rig, links };
  const changed = numberedRig(rig);
  return states.some((before) => {
    if (before.positions.length === 0) return false;
    const meaning = meaningIn(changed, before.state);
    return rig.elements.some(({ name }) => hangs({ meaning }, name) && (name === coil || !hangs(before, name)));
  });
}
