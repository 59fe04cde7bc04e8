/** Invented pickups as pictures: one for each rule of the layout. */

import { colourOf } from '../../../grammar/values/iec60757.ts';
import type {
  Caption,
  CoilPicture,
  EndPicture,
  LeadPicture,
  NetPicture,
  PickupPicture,
  VerdictPicture,
} from '../../../server/src/documents/wiring-diagram/picture.ts';
import { ENGLISH } from '../../../server/src/words/languages/language.ts';

export const leadOf = (word: string, what: string): LeadPicture => {
  const colour = colourOf(word);
  if (colour === undefined)
    return { part: `lead:${word}`, name: word, look: { bare: word === 'bare' }, description: what };
  const { code, base, stripe, names } = colour;
  const look = stripe === undefined ? { base } : { base, stripe };
  return {
    part: `lead:${names.join(' and ')}`,
    code,
    name: names.join(' and '),
    look,
    description: `${what} ${names.join(' and ')}`,
  };
};

interface CoilWords {
  readonly start: readonly [own: string | undefined, conductor: string | undefined, net: string | undefined];
  readonly finish: readonly [own: string | undefined, conductor: string | undefined, net: string | undefined];
  readonly more?: Partial<CoilPicture>;
  readonly startMore?: Partial<EndPicture>;
  readonly finishMore?: Partial<EndPicture>;
  readonly captions?: readonly Caption[];
}

export function coilOf(
  id: string,
  { start, finish, more = {}, startMore = {}, finishMore = {}, captions }: CoilWords,
): CoilPicture {
  const end = (
    which: 'start' | 'finish',
    [own, conductor, net]: CoilWords['start'],
    extra: Partial<EndPicture>,
  ): EndPicture => ({
    id: `${id}.${which}`,
    ...(own === undefined ? {} : { own: leadOf(own, `${id} coil, ${which}:`) }),
    ...(conductor === undefined ? {} : { conductor: leadOf(conductor, 'conductor') }),
    leaves: true,
    net,
    ...extra,
  });
  const coil = {
    id,
    captions: captions ?? [
      { text: `${id} coil`, weight: 'heading' },
      { text: 'new, 42 AWG, RYD-W7', weight: 'quiet' },
      { text: '4\u202F900 turns', weight: 'number' },
      { text: '3.96 ± 0.03\u202Fk\u03A9', weight: 'number' },
      { text: '702 ± 8\u202Fm of wire', weight: 'plain' },
      { text: 'wound clockwise', weight: 'plain' },
    ],
    caption: { name: `${id} coil`, rest: 'new, 42 AWG · 4\u202F900 turns · wound clockwise · poles S up' },
    description: `${id} coil, 4 900 turns`,
    wound: 'clockwise',
    entered: 'start',
    poles: { form: 'slug', count: 6, polarity: 'south-up' },
    start: end('start', start, startMore),
    finish: end('finish', finish, finishMore),
    taps: [],
    resistance: '3.96\u202Fk\u03A9',
    beneath: false,
    idle: false,
    endsTraced: true,
    unseen: false,
    ...more,
  } as const;
  const { wound, entered } = { wound: 'clockwise' as const, entered: 'start' as const, ...more };
  const withTheWind = (wound === 'clockwise') === (entered === 'start');
  const pathTurns =
    wound === undefined || entered === undefined ? undefined : withTheWind ? 'clockwise' : 'counterclockwise';
  return { ...coil, pathTurns };
}

export const HOT: NetPicture = { id: 'hot', kind: 'hot', label: 'hot' };
export const GROUND: NetPicture = { id: 'ground', kind: 'ground', label: 'ground' };
export const link = (id: string, detail: string): NetPicture => ({ id, kind: 'link', label: 'link', detail });

export function pictureOf(
  title: string,
  more: Partial<PickupPicture> & Pick<PickupPicture, 'coils' | 'nets'>,
): PickupPicture {
  return {
    t: ENGLISH,
    id: title.toLowerCase().replace(/[^a-z0-9]+/g, '-'),
    title,
    subtitle: 'RYD-014 · wiring, seen from the strings',
    aside: ['Ruddle Yard', '20\u202F\u00B0C · ± is one standard deviation'],
    name: `Wiring of ${title}, seen from the strings`,
    description: 'From ground to hot.',
    looseLeads: [],
    metal: [],
    cableShield: false,
    strings: 6,
    findings: [],
    verdict: undefined,
    ...more,
  };
}

const BASEPLATE = {
  part: 'part:baseplate',
  kind: 'baseplate',
  caption: 'baseplate, nickel silver',
  description: 'Baseplate, nickel silver, tied to the bare drain wire',
  net: 'ground',
  tiedTo: 'shield',
} as const;
const SHIELD = {
  part: 'lead:bare',
  kind: 'shield',
  caption: 'shield',
  description: 'Drain wire, bare',
  net: 'ground',
  lead: { part: 'lead:bare', code: 'bare', name: 'drain wire', look: { bare: true }, description: 'Drain wire, bare' },
} as const;

const verdict = (slugString: 'hot' | 'ground', slugHum: 'hot' | 'ground'): VerdictPicture => ({
  rows: [
    {
      coil: 'slug',
      wound: 'clockwise',
      path: slugHum === 'ground' ? 'counterclockwise' : 'clockwise',
      polarity: 'south-up',
      string: slugString,
      hum: slugHum,
    },
    { coil: 'screw', wound: 'clockwise', path: 'clockwise', polarity: 'north-up', string: 'hot', hum: 'hot' },
  ],
  signal:
    slugString === 'hot'
      ? {
          heading: 'String signal adds',
          vectors: [
            { coil: 'slug', length: 4900 },
            { coil: 'screw', length: 5060 },
          ],
          remarks: ['9\u202F960 turns'],
        }
      : {
          heading: 'String signal cancels',
          vectors: [
            { coil: 'screw', length: 5060 },
            { coil: 'slug', length: -4900 },
          ],
          remarks: ['thin: only what the two coils hear differently is left'],
        },
  hum:
    slugHum === 'ground'
      ? {
          heading: 'Hum cancels',
          vectors: [
            { coil: 'screw', length: 5060 },
            { coil: 'slug', length: -4900 },
          ],
          remarks: ['left: 160 ± 220 turns of 5\u202F060,', '\u221223\u202FdB or lower'],
        }
      : {
          heading: 'Hum adds',
          vectors: [
            { coil: 'screw', length: 5060 },
            { coil: 'slug', length: 4900 },
          ],
          remarks: ['twice, +6\u202FdB'],
        },
});

const screwCoil = (more: Partial<CoilPicture> = {}) =>
  coilOf('screw', {
    start: ['gold', 'pink', 'ground'],
    finish: ['brown', 'turquoise', 'link'],
    captions: [
      { text: 'screw coil', weight: 'heading' },
      { text: 'kept, 43 AWG', weight: 'quiet' },
      { text: '5\u202F060 ± 220 turns', weight: 'number' },
      { text: 'turns from its reading', weight: 'quiet' },
      { text: '5.10 ± 0.04\u202Fk\u03A9', weight: 'number' },
      { text: '740 ± 30\u202Fm of wire', weight: 'plain' },
      { text: 'wound clockwise', weight: 'plain' },
    ],
    more: { poles: { form: 'screw', count: 6, polarity: 'north-up' }, resistance: '5.10\u202Fk\u03A9', ...more },
  });

const slugCoil = (words: Partial<CoilWords> = {}) =>
  coilOf('slug', {
    start: ['brown', 'violet', 'hot'],
    finish: ['gold', 'grey', 'link'],
    ...words,
    more: { entered: 'finish', ...words.more },
  });

const twoCoilNets = [HOT, link('link', 'GY + TQ'), GROUND];

const TWO_COIL = pictureOf('Heron, bridge', {
  coils: [screwCoil(), slugCoil()],
  nets: twoCoilNets,
  metal: [SHIELD, BASEPLATE],
  cableShield: true,
  bar: { caption: 'bar magnet beneath, alnico-5', northToward: 'screw' },
  toward: { coil: 'screw', what: 'bridge' },
  total: { value: '9.06\u202Fk\u03A9', uncertainty: '0.06' },
  verdict: verdict('hot', 'ground'),
});

const SWAPPED_JOINTS = pictureOf('Heron, bridge, joints swapped', {
  ...TWO_COIL,
  id: 'joints-swapped',
  title: 'Heron, bridge',
  coils: [
    screwCoil(),
    slugCoil({
      more: { entered: 'start', enteredAsLaidOut: 'finish' },
      startMore: { mistakenJoint: 'slug.finish' },
      finishMore: { mistakenJoint: 'slug.start' },
    }),
  ],
  verdict: verdict('ground', 'hot'),
  findings: [
    {
      code: 'phase/coils-cancel',
      cause:
        'The slug coil works against the screw coil: its start, brown, is on grey, and its finish, gold, is on violet.',
      remedy:
        'The hum adds too. Swap the two at the joints: brown to violet, gold to grey. Then the strings add and \u221223\u202FdB of hum or less is left.',
      note: 'No resistance shows it: 3.96, 5.10 and 9.06\u202Fk\u03A9 all read right. The kick test between violet and grey does.',
      rings: [
        { end: 'slug.start', at: 'joint' },
        { end: 'slug.finish', at: 'joint' },
      ],
    },
  ],
});

const SWAPPED_HOOKUP = pictureOf('Heron, bridge, hookup swapped', {
  ...TWO_COIL,
  id: 'hookup-swapped',
  coils: [
    screwCoil(),
    slugCoil({
      more: { entered: 'start', enteredAsLaidOut: 'finish' },
      startMore: { mistakenNet: 'slug.finish' },
      finishMore: { mistakenNet: 'slug.start' },
    }),
  ],
  verdict: verdict('ground', 'hot'),
  findings: [
    {
      code: 'phase/coils-cancel',
      cause: 'The slug coil works against the screw coil: violet is in the link and grey is hot.',
      remedy: 'The hum adds too. Swap violet and grey in the hookup.',
      rings: [
        { end: 'slug.start', at: 'net' },
        { end: 'slug.finish', at: 'net' },
      ],
    },
    {
      code: 'ground/metal-floating',
      cause: 'The cover is joined to nothing.',
      remedy: 'Tie it to the baseplate.',
      rings: [{ metal: 'part:baseplate' }],
    },
  ],
});

const FORGOTTEN_LINK = pictureOf('Heron, link forgotten', {
  ...TWO_COIL,
  id: 'link-forgotten',
  coils: [
    screwCoil({ entered: 'start', finish: { ...screwCoil().finish, mistakenNet: 'nowhere' } }),
    slugCoil({ finishMore: { mistakenNet: 'nowhere' } }),
  ],
  verdict: undefined,
  findings: [
    {
      code: 'circuit/open',
      cause: 'No path leads from hot to ground: grey and turquoise are joined to nothing.',
      remedy: 'Link grey and turquoise.',
      rings: [
        { end: 'slug.finish', at: 'net' },
        { end: 'screw.finish', at: 'net' },
      ],
    },
  ],
});

const TAPPED = pictureOf('Larkspit, neck', {
  coils: [
    coilOf('coil', {
      start: ['grey', undefined, 'ground'],
      finish: ['violet', undefined, 'hot'],
      more: {
        poles: { form: 'rod', count: 6, polarity: 'north-up' },
        taps: [{ turns: '6\u202F000 turns', lead: leadOf('orange', 'tap:'), net: 'tap' }],
      },
    }),
  ],
  nets: [HOT, GROUND, { id: 'tap', kind: 'out', label: 'tap' }],
  total: { value: '5.86\u202Fk\u03A9', uncertainty: '0.05' },
});

const TAPPED_COUNTERCLOCKWISE = pictureOf('Larkspit, middle', {
  coils: [
    coilOf('coil', {
      start: ['white', undefined, 'ground'],
      finish: ['GNYE', undefined, 'hot'],
      more: {
        wound: 'counterclockwise',
        poles: { form: 'blade', count: 1, polarity: 'south-up' },
        taps: [
          { turns: '6\u202F000 turns', lead: leadOf('orange', 'tap:'), net: 'tap' },
          { turns: '5\u202F000 turns', lead: leadOf('RDBU', 'tap:'), net: 'free' },
        ],
      },
    }),
  ],
  nets: [HOT, GROUND, { id: 'tap', kind: 'out', label: 'tap' }, { id: 'free', kind: 'free', label: 'taped off' }],
  total: { value: '5.86\u202Fk\u03A9', uncertainty: '0.05' },
});

const STACKED = pictureOf('Sedgeby', {
  coils: [
    coilOf('lower', {
      start: [undefined, 'pink', 'ground'],
      finish: [undefined, 'turquoise', 'link'],
      more: { beneath: true, poles: { form: 'rod', count: 6, polarity: 'north-up' } },
    }),
    coilOf('upper', {
      start: [undefined, 'violet', 'hot'],
      finish: [undefined, 'grey', 'link'],
      more: { entered: 'finish', poles: { form: 'rod', count: 6, polarity: 'north-up' } },
    }),
  ],
  nets: twoCoilNets,
  total: { value: '7.81\u202Fk\u03A9', uncertainty: '0.05' },
});

const SPLIT = pictureOf('Drummel', {
  strings: 4,
  coils: [
    coilOf('treble', {
      start: ['brown', undefined, 'ground'],
      finish: [undefined, undefined, 'link'],
      finishMore: { leaves: false },
      more: { serves: { from: 1, to: 2 }, poles: { form: 'rod', count: 2, polarity: 'north-up' } },
    }),
    coilOf('bass', {
      start: ['violet', undefined, 'hot'],
      finish: [undefined, undefined, 'link'],
      finishMore: { leaves: false },
      more: { entered: 'finish', serves: { from: 3, to: 4 }, poles: { form: 'rod', count: 2, polarity: 'south-up' } },
    }),
  ],
  nets: [HOT, GROUND, { id: 'link', kind: 'link', label: 'link' }],
  total: { value: '9.97\u202Fk\u03A9' },
});

const PARALLEL = pictureOf('Heron, parallel', {
  ...TWO_COIL,
  id: 'parallel',
  coils: [
    coilOf('screw', {
      start: ['gold', 'pink', 'ground'],
      finish: ['brown', 'turquoise', 'hot'],
      more: { poles: { form: 'screw', count: 6, polarity: 'north-up' } },
    }),
    slugCoil({ finish: ['gold', 'grey', 'ground'] }),
  ],
  nets: [HOT, GROUND],
});

const chain = (names: readonly string[], turns: readonly ('clockwise' | 'counterclockwise')[]) => {
  const colours = ['pink', 'turquoise', 'grey', 'violet', 'orange', 'brown', 'white', 'RDBU'];
  const net = (index: number) => (index === 0 ? 'ground' : index === names.length ? 'hot' : `link${index}`);
  const coils = names.map((name, index) => {
    const enters = index % 2 === 0 ? 'start' : 'finish';
    const [low, high] = [colours[2 * index], colours[2 * index + 1]];
    return coilOf(name, {
      start: enters === 'start' ? [undefined, low, net(index)] : [undefined, high, net(index + 1)],
      finish: enters === 'start' ? [undefined, high, net(index + 1)] : [undefined, low, net(index)],
      more: {
        entered: enters,
        wound: turns[index] ?? 'clockwise',
        poles: { form: 'slug', count: 6, polarity: index % 2 === 0 ? 'north-up' : 'south-up' },
      },
    });
  });
  const links = names.slice(1).map((_, index) => link(`link${index + 1}`, `${index + 1}`));
  return { coils, nets: [HOT, ...links, GROUND] };
};

const THREE = pictureOf('Wren, three coils', {
  ...chain(['one', 'two', 'three'], ['clockwise', 'counterclockwise', 'clockwise']),
  metal: [
    { ...SHIELD, net: 'ground by itself' },
    { ...BASEPLATE, net: 'ground by itself' },
  ],
  total: { value: '11.9\u202Fk\u03A9', uncertainty: '0.1' },
});

const FOUR = pictureOf('Wren, four coils', {
  ...chain(['one', 'two', 'three', 'four'], ['counterclockwise', 'counterclockwise', 'clockwise', 'counterclockwise']),
  total: { value: '15.9\u202Fk\u03A9', uncertainty: '0.1' },
  strings: 8,
});

const UNKNOWN = pictureOf('Found in a drawer', {
  coils: [
    coilOf('low', {
      start: [undefined, undefined, undefined],
      finish: [undefined, undefined, undefined],
      more: { wound: undefined, entered: undefined, poles: { form: 'screw', count: 6, polarity: undefined } },
    }),
    coilOf('tall', {
      start: ['black', 'white', 'hot'],
      finish: ['RDBU', 'black', 'free'],
      more: { wound: undefined, entered: undefined, poles: { form: 'slug', count: 6, polarity: undefined } },
    }),
  ],
  nets: [HOT, { id: 'free', kind: 'open', label: 'joined to nothing' }, GROUND],
  looseLeads: [
    { lead: leadOf('turquoise', 'conductor'), net: undefined, remark: 'untraced' },
    { lead: leadOf('GNYE', 'conductor'), net: undefined, remark: 'taped off' },
  ],
  metal: [
    { ...SHIELD, net: undefined },
    {
      part: 'part:baseplate',
      kind: 'baseplate',
      caption: 'baseplate, joined to nothing',
      description: 'Baseplate, joined to nothing',
      net: undefined,
    },
  ],
  verdict: {
    rows: [
      { coil: 'tall', wound: 'unknown', path: 'unknown', polarity: undefined, string: undefined, hum: undefined },
      { coil: 'low', wound: 'unknown', path: 'unknown', polarity: undefined, string: undefined, hum: undefined },
    ],
    signal: {
      heading: 'String signal: not proven',
      vectors: [],
      remarks: ['Bring steel near the slugs and note which way the needle kicks, red probe on white.'],
    },
    hum: { heading: 'Hum: not proven', vectors: [], remarks: ['Hold a compass over one slug.'] },
  },
});

const SPLIT_ONE_COIL = pictureOf('Heron, slug coil alone', {
  ...TWO_COIL,
  id: 'idle',
  coils: [screwCoil({ idle: true, entered: undefined, enteredAsLaidOut: 'start' }), slugCoil()],
  verdict: undefined,
});

export const PICTURES: readonly PickupPicture[] = [
  TWO_COIL,
  SWAPPED_JOINTS,
  SWAPPED_HOOKUP,
  FORGOTTEN_LINK,
  TAPPED,
  TAPPED_COUNTERCLOCKWISE,
  STACKED,
  SPLIT,
  PARALLEL,
  THREE,
  FOUR,
  UNKNOWN,
  SPLIT_ONE_COIL,
];
