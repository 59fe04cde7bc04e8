import { canonicalLeadName, leadColour } from '../../../../grammar/values/lead-name.ts';
import { given } from '../../../../grammar/values/present.ts';
import type { Analysis, PickupAnalysis } from '../../analysis/analysis-types.ts';
import type { Finding, Remedy } from '../../checks/finding.ts';
import { tellIn } from '../../checks/telling.ts';
import { told } from '../../estimates/coil-winding.ts';
import { type QuickEstimates, quickEstimates } from '../../estimates/quick.ts';
import { type Coil, type CoilEnd, poleOf, rotationOf } from '../../model/coil.ts';
import {
  foilNode,
  isGrounded,
  leadNode,
  type OutgoingLead,
  type PickupNetlist,
  partNode,
  tapNode,
} from '../../model/netlist.ts';
import type { Pickup } from '../../model/pickup.ts';
import { printParts, printQuantity, printValue } from '../../quantities/print.ts';
import { ENGLISH, type Language } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { colourWords } from '../colour-words.ts';
import { coilCaptions } from './coil-captions.ts';
import { type CoilOnPath, coilPath } from './coil-path.ts';
import { conductorOf, type Mistake, mistakeOf } from './mistake.ts';
import { netKinds } from './net-kinds.ts';
import { describePath } from './path-description.ts';
import type {
  CoilPicture,
  EndPicture,
  FindingPicture,
  LeadPicture,
  LooseLeadPicture,
  MetalPicture,
  PickupPicture,
  Ring,
} from './picture.ts';
import { verdictOf } from './verdict-from-model.ts';

/** The picture of one pickup: as it is joined, in the layout of its verified remedy where it holds a mistake of leads. */
export function pickupPicture(analysis: Analysis, analysed: PickupAnalysis, t = ENGLISH): PickupPicture {
  const { pickup, netlist } = analysed;
  const mistake = mistakeOf(analysis, analysed);
  const quick = quickEstimates(netlist, analysis.bench);
  const laidOut = mistake === undefined ? quick : quickEstimates(mistake.remedied.netlist, analysis.bench);
  const path = coilPath(laidOut.netlist, laidOut.signs);
  const now = new Map(coilPath(netlist, quick.signs).map((each) => [each.coil.name, each]));
  const coils = path.map((place) => coilPicture(place, now.get(place.coil.name), { quick, laidOut, mistake, t }));
  const verdict = verdictOf(
    quick,
    [...path].reverse().map(({ coil }) => coil.name),
    t,
  );
  const title = titleOf(pickup);
  const total = netlist.hot === netlist.ground ? undefined : quick.resistance20COhm;
  return {
    t,
    id: pickup.name,
    title,
    subtitle: `${pickup.serial === undefined ? '' : `${pickup.serial.value} · `}${t('wiring, seen from the strings')}`,
    aside: [pickup.made ? t('made {0}', pickup.made.value) : '', t('20\u202F°C · ± is one standard deviation')],
    name: t('Wiring of {0}, seen from the strings', title),
    description: describePath(coils, verdict, t),
    coils,
    nets: netKinds(laidOut.netlist, mistake?.ends ?? new Map(), t),
    looseLeads: looseLeads(laidOut.netlist, t),
    metal: metalPictures(laidOut.netlist, t),
    cableShield: pickup.shield !== undefined && pickup.conductors.length > 1,
    bar: barOf(pickup, t),
    toward: towardOf(pickup),
    strings: pickup.strings?.value,
    total: total ? totalOf(total, t) : undefined,
    findings: findingPictures(analysed.findings, mistake, laidOut.netlist, t),
    verdict,
  };
}

interface Sources {
  /** As it is. */
  readonly quick: QuickEstimates;
  /** As it is laid out. */
  readonly laidOut: QuickEstimates;
  readonly mistake: Mistake | undefined;
  readonly t: Language;
}

function coilPicture(place: CoilOnPath, now: CoilOnPath | undefined, sources: Sources): CoilPicture {
  const { quick, laidOut, t } = sources;
  const { coil } = place;
  const own = quick.signs.find((each) => each.coil.name === coil.name);
  const [, solved] = [...quick.windings].find(([each]) => each.name === coil.name) ?? [];
  const winding = solved && told(solved);
  const { ends, unseen = false } = quick.netlist.windings.find((each) => each.coil.name === coil.name) ?? {};
  const endsTraced = ends !== 'from a kick';
  const wound = endsTraced && own?.wind ? rotationOf(own.wind.sign) : undefined;
  const polarity = own?.pole && poleOf(own.pole.sign);
  const idle =
    now?.entered === undefined && quick.signs.some(({ transfer }) => transfer !== undefined && transfer !== 0);
  const foil = foilPicture(coil, laidOut.netlist, t);
  const words = coilCaptions(coil, winding, { wound, polarity, endsTraced, foil: foil?.description, t });
  const serves = coil.serves?.value;
  return {
    id: coil.name,
    ...words,
    wound,
    endsTraced,
    unseen,
    pathTurns: now?.entered === undefined ? undefined : own?.hum && rotationOf(own.hum),
    entered: now?.entered,
    enteredAsLaidOut: place.entered ?? place.nearGround,
    poles: polesOf(coil, quick.netlist.pickup, polarity),
    start: endPicture(coil, 'start', laidOut.netlist, sources),
    finish: endPicture(coil, 'finish', laidOut.netlist, sources),
    taps: coil.taps.map(({ value }) => {
      const lead = leadPicture(
        value.lead.value,
        tapNode(coil.name, value.lead.value),
        t('{0} coil, {1}', coil.name, `${t('tap')}:`),
        t,
      );
      const net = laidOut.netlist.netOf(leadNode(canonicalLeadName(value.lead.value)));
      const turns = printQuantity({ value: value.turns.si, dimension: 'turns', digits: 6, style: t.numbers });
      return { turns, lead, net: net === undefined ? undefined : netId(net) };
    }),
    foil,
    resistance:
      winding?.resistance20COhm === undefined
        ? undefined
        : printValue({ ...winding.resistance20COhm, dimension: 'resistance', style: t.numbers }),
    serves: serves === 'none' ? undefined : serves,
    beneath: coil.below !== undefined,
    idle,
  };
}

/** `foil, tied to orange`, with where that goes. */
function foilPicture(coil: Coil, netlist: PickupNetlist, t: Language): CoilPicture['foil'] {
  const lead = coil.foil?.value;
  if (lead === undefined || lead === 'none') return undefined;
  const part = foilNode(coil.name);
  const net = netlist.netOf(part);
  const isAlone = net === undefined || netlist.nets[net]?.joints.every(({ kind }) => kind === 'free');
  const ends =
    net !== undefined && net === netlist.hot
      ? `, ${t('on hot')}`
      : isGrounded(netlist, net)
        ? `, ${t('on ground')}`
        : isAlone
          ? `, ${t('joined to nothing')}`
          : '';
  return { part, description: `${t('foil tied to {0}', lead.text)}${ends}` };
}

function endPicture(coil: Coil, end: CoilEnd, netlist: PickupNetlist, { mistake, t }: Sources): EndPicture {
  const id = `${coil.name}.${end}`;
  const outgoing = conductorOf(netlist, coil.name, end);
  const written = coil[end]?.value.own?.value;
  const winding = netlist.windings.find((each) => each.coil.name === coil.name);
  const net = winding?.[end];
  const what = t('{0} coil, {1}', coil.name, `${t(end)}:`);
  // A lead of its own that goes out is soldered to no conductor.
  const bySelf =
    outgoing?.what === 'coil lead' ? leadPicture(written ?? outgoing.name, outgoing.node, what, t) : undefined;
  const mistaken = mistake?.ends.get(id);
  const joined = net !== undefined && ((netlist.nets[net]?.nodes.length ?? 0) > 1 || outgoing !== undefined);
  return {
    id,
    own: bySelf ?? (written === undefined ? undefined : leadPicture(written, `coil:${id}`, what, t)),
    conductor: bySelf ? undefined : outgoing && outgoingPicture(outgoing, t),
    leaves: outgoing !== undefined,
    net: joined ? netId(net) : undefined,
    mistakenJoint: mistaken?.joint,
    mistakenNet: mistaken?.net,
  };
}

/** Conductors that no end is soldered to. */
function looseLeads(netlist: PickupNetlist, t: Language): readonly LooseLeadPicture[] {
  const { coils } = netlist.pickup;
  const used = new Set(
    coils.flatMap(({ name }) => [conductorOf(netlist, name, 'start'), conductorOf(netlist, name, 'finish')]),
  );
  const untraced = netlist.windings.some(({ ends }) => ends === 'unknown');
  return [...netlist.leads.values()]
    .filter((lead) => lead.what === 'conductor' && !used.has(lead))
    .map((lead) => {
      const net = netlist.netOf(lead.node);
      const alone = net === undefined || (netlist.nets[net]?.nodes.length ?? 0) < 2;
      const free = net !== undefined && netlist.free.has(net);
      return {
        lead: outgoingPicture(lead, t),
        net: alone ? undefined : netId(net),
        inside: insideOf(lead, netlist, t),
        remark: free ? t('taped off') : alone ? t(untraced ? 'untraced' : 'joined to nothing') : '',
      };
    });
}

/** Foil that the lead, and no other, is tied to: `foil, upper`. */
function insideOf({ name }: OutgoingLead, { pickup }: PickupNetlist, t: Language): string | undefined {
  const tied = pickup.coils.filter(
    ({ foil }) => foil && foil.value !== 'none' && canonicalLeadName(foil.value.text) === name,
  );
  return tied.length === 0 ? undefined : t('foil, {0}', tied.map((coil) => coil.name).join(', '));
}

function metalPictures(netlist: PickupNetlist, t: Language): readonly MetalPicture[] {
  return netlist.metal.map(({ fitting, name, net }): MetalPicture => {
    const alone =
      net < 0 ||
      !(netlist.nets[net]?.nodes ?? []).some(
        (node) => !node.startsWith('part:') && node !== leadNode(canonicalLeadName(name)),
      );
    const joined = alone ? undefined : netId(net);
    const common = { net: net === netlist.ground ? netId(net) : net === netlist.chassis ? 'ground by itself' : joined };
    if (fitting === 'shield') {
      const caption = name === 'bare' ? t('drain wire') : name;
      const told = { part: leadNode(canonicalLeadName(name)), description: t('Shield: {0}', caption) };
      const code = name === 'bare' ? name : undefined;
      const lead = { ...told, code, name: caption, look: { bare: true } };
      return { ...common, ...told, kind: 'shield', caption, lead };
    }
    const tied = fitting.tiedTo?.text;
    const metal = `${t.word(fitting.part)}, ${t.word(fitting.material).replaceAll('-', ' ')}`;
    const caption = common.net === undefined ? `${metal}, ${t('joined to nothing')}` : metal;
    const description = `${caption}${tied === undefined ? '' : `, ${t('tied to {0}', t.word(tied))}`}`;
    const tiedTo = tied === 'baseplate' || tied === 'cover' ? tied : undefined;
    return { ...common, part: partNode(fitting.part), kind: fitting.part, caption, description, tiedTo };
  });
}

function outgoingPicture(lead: OutgoingLead, t: Language): LeadPicture {
  const what = t(lead.what === 'shield' ? 'shield' : 'conductor');
  const picture = leadPicture(lead.name, lead.node, what, t);
  return lead.what === 'shield' ? { ...picture, look: { bare: true } } : picture;
}

function leadPicture(written: string, part: string, what: string, t: Language): LeadPicture {
  const colour = leadColour(written);
  if (colour === undefined) return { part, name: written, look: {}, description: `${what} ${written}` };
  const { code, base, stripe } = colour;
  const name = colourWords(colour, t);
  return { part, code, name, look: { base, stripe }, description: `${what} ${name}` };
}

function polesOf(
  { bobbin }: Coil,
  { strings }: Pickup,
  polarity: CoilPicture['poles']['polarity'],
): CoilPicture['poles'] {
  const pole = bobbin?.pole?.value;
  if (pole === 'none') return { form: 'slug', count: 0, polarity };
  return { form: pole?.form ?? 'slug', count: bobbin?.poles?.value.count ?? strings?.value ?? 6, polarity };
}

function barOf({ barMagnet, coils }: Pickup, t: Language): PickupPicture['bar'] {
  if (barMagnet === undefined || coils.length !== 2) return undefined;
  const { magnet, pole, towardCoil } = barMagnet.value;
  const other = coils.find(({ name }) => name !== towardCoil.value)?.name ?? '';
  const material = magnet?.material?.value;
  const caption = material === undefined ? t('bar magnet beneath') : `${t('bar magnet beneath')}, ${material}`;
  return { caption, northToward: pole === 'north' ? towardCoil.value : other };
}

function towardOf({ coilsApart }: Pickup): PickupPicture['toward'] {
  const { coil, toward } = coilsApart?.value ?? {};
  return coil === undefined || toward === undefined ? undefined : { coil, what: toward };
}

function totalOf(
  total: { readonly value: number; readonly sd: number },
  t: Language,
): NonNullable<PickupPicture['total']> {
  const { value, uncertainty, unit } = printParts({ ...total, dimension: 'resistance', style: t.numbers });
  return { value: `${value}\u202F${unit}`, uncertainty };
}

/** Errors and warnings that have a place in the drawing; the others stand beside it. */
function findingPictures(
  findings: readonly Finding[],
  mistake: Mistake | undefined,
  netlist: PickupNetlist,
  t: Language,
): readonly FindingPicture[] {
  return findings.flatMap((finding): readonly FindingPicture[] => {
    if (finding.severity !== 'error' && finding.severity !== 'warning') return [];
    const drawn = finding === mistake?.finding;
    const rings = drawn
      ? ringsOfMistake(mistake)
      : (finding.subject.nodes ?? []).flatMap((node) => ringOfNode(node, netlist) ?? []);
    if (rings.length === 0) return [];
    return [
      {
        code: finding.code,
        ...toldOnDrawing(finding, drawn ? mistake.remedy : undefined, t),
        rings,
      },
    ];
  });
}

/** In one language as a whole: in English where finding or remedy are told in no other. */
function toldOnDrawing(
  finding: Finding,
  remedy: Remedy | undefined,
  t: Language,
): Pick<FindingPicture, 'cause' | 'remedy' | 'note' | 'foreign'> {
  const own = remedy && remedy.words === undefined ? ENGLISH : t;
  const { what, action, hint, foreign = own.code === t.code ? undefined : 'en' } = tellIn(finding, own);
  const title = remedy && (foreign ? remedy.title : (remedy.words?.(t) ?? remedy.title));
  return { cause: what, remedy: title === undefined ? action : `${title}.`, note: hint, ...given({ foreign }) };
}

function ringsOfMistake({ ends }: Mistake): readonly Ring[] {
  return [...ends].map(([end, { joint }]) => ({ end, at: joint === undefined ? 'net' : 'joint' }));
}

function ringOfNode(node: string, netlist: PickupNetlist): Ring | undefined {
  if (node === 'hot' || node === 'ground') return ringOfTerminal(node, netlist);
  const [kind, name = ''] = node.split(':');
  if (kind === 'coil' && name.includes('.')) return { end: name, at: 'net' };
  if (kind === 'part' || kind === 'foil') return { metal: node };
  const lead = kind === 'lead' ? netlist.leads.get(name) : undefined;
  const end = lead?.ends[0];
  if (end !== undefined) return { end: `${end.coil.name}.${end.end}`, at: 'net' };
  if (lead?.what === 'shield') return { metal: node };
  return lead === undefined ? undefined : { lead: node };
}

function ringOfTerminal(terminal: 'hot' | 'ground', netlist: PickupNetlist): Ring | undefined {
  const ends = netlist.windings.flatMap(({ coil, start, finish }) => [
    ...(start === netlist[terminal] ? [`${coil.name}.start`] : []),
    ...(finish === netlist[terminal] ? [`${coil.name}.finish`] : []),
  ]);
  const end = terminal === 'hot' ? ends.at(-1) : ends.at(0);
  return end === undefined ? undefined : { end, at: 'net' };
}

const netId = (net: number): string => `net${net}`;
