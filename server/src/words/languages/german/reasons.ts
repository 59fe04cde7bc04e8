/** What a number rests on, in German. */
import type { Reason } from '../../../estimates/reasons.ts';

export const REASONS = {
  'uniform field; the steel of the poles is left out': 'gleichförmiges Feld; der Stahl der Pole ist weggelassen',
  'of a string heard at two places only what it sounds alike there cancels, over all its harmonics and held at the octave':
    'von einer Saite, die an zwei Orten gehört wird, hebt sich nur auf, was dort gleich klingt, über alle Obertöne und an der Oktave gegriffen',
  'magnets alike: what a stronger or weaker one changes is left out':
    'Magnete gleich: Was ein stärkerer oder schwächerer ändert, ist weggelassen',
  'the blend of {0} and {1} left out, they are in series here':
    'die Überblendung von {0} und {1} weggelassen, sie liegen hier in Reihe',
  'load: 500\u202FkΩ volume and tone at 10, 22\u202FnF, {0} of cable, 1\u202FMΩ':
    'Last: 500\u202FkΩ Lautstärke und Klang auf 10, 22\u202FnF, {0} Kabel, 1\u202FMΩ',
  'without a load': 'ohne Last',
  'cable {0}, input {1}, volume {2}, tone {3}': 'Kabel {0}, Eingang {1}, Lautstärke {2}, Klang {3}',
  '{0}, blend {1}': '{0}, Überblendung {1}',
  '{0}, {1} at volume {2} and tone {3}': '{0}, {1} mit Lautstärke {2} und Klang {3}',
  '{0} of {1}': '{0} von {1}',
  '{0}, as chosen': '{0}, wie gewählt',
  '{0}, assumed': '{0}, angenommen',
  'joined directly': 'unmittelbar verbunden',
  'controls apart': 'ohne die Regler',
  'at {0}': 'bei {0}',
  'coils that nobody read alike, assumed': 'ungemessene Spulen gleich, angenommen',

  'turns as counted': 'Windungen wie gezählt',
  'turns as planned': 'Windungen wie geplant',
  'turns from its part of a reading': 'Windungen aus ihrem Anteil an einem Messwert',
  'turns from {0}': 'Windungen aus {0}',
  'its reading of {0}': 'ihrem Messwert {0}',
  'its sweep {0}': 'ihrer Frequenzmessung {0}',
  'low end of the sweep {0} at {1}': 'unteres Ende der Frequenzmessung {0} bei {1}',
  'reading {0} at {1}, brought to low frequency': 'Messwert {0} bei {1}, auf tiefe Frequenz umgerechnet',
  'reading {0}, its frequency not stated': 'Messwert {0}, ohne Angabe der Frequenz',
  'reading {0} at {1}': 'Messwert {0} bei {1}',
  "the bench's {0}, assumed": '{0} der Werkbank, angenommen',
  'reading {0}': 'Messwert {0}',
  'packing {0}': 'Füllung {0}',
  'spool {0} measures {1} at 20\u202F°C, assumed': 'Drahtrolle {0} misst {1} bei 20\u202F°C, angenommen',
  'spool {0} measures {1}': 'Drahtrolle {0} misst {1}',
  '{0} bare by its nominal diameter, within the tolerance of {1}':
    '{0} blank nach Nenndurchmesser, in der Toleranz von {1}',
  '{0} by its nominal diameter, within the tolerance of {1}': '{0} nach Nenndurchmesser, in der Toleranz von {1}',
  'overall {0}': 'Durchmesser mit Lack {0}',
  '{0} build by {1}': 'Lackdicke {0} nach {1}',
  'batch {0}': 'Ansatz {0}',

  'wax between turns, with clearances of 1 to 6 % of the wire, assumed':
    'Wachs zwischen den Windungen, mit Abständen von 1 bis 6\u202F% des Drahts, angenommen',
  'air between turns, with clearances of 1 to 6 % of the wire, assumed':
    'Luft zwischen den Windungen, mit Abständen von 1 bis 6\u202F% des Drahts, angenommen',
  'traverse {0}': 'Drahtführung {0}',
  '{0} turns in a pass, assumed': '{0} Windungen je Gang, angenommen',
  'outermost turns to grounded foil on {0} of tape, assumed':
    'äußerste Windungen gegen geerdete Folie auf {0} Band, angenommen',
  'innermost turns to grounded poles': 'innerste Windungen gegen geerdete Pole',
  'a grounded cover about the coil': 'eine geerdete Kappe um die Spule',
  'no cover about the coil': 'keine Kappe um die Spule',
  'capacitance of a usual coil': 'Kapazität einer üblichen Spule',
  'its cable of {0}: {1}': 'sein Kabel von {0}: {1}',
  'one conductor in a braid, {0}': 'eine Ader in Geflecht, {0}',
  'conductors in a shield, {0}': 'Adern in einem Schirm, {0}',
  'a pair of wires, {0}': 'zwei Drähte nebeneinander, {0}',

  'bar magnet and keeper beneath the poles add 0 to 25 %, assumed':
    'Stabmagnet und Joch unter den Polen geben 0 bis 25\u202F% dazu, angenommen',
  'steel baseplate beneath the poles add 0 to 25 %, assumed':
    'Grundplatte aus Stahl unter den Polen gibt 0 bis 25\u202F% dazu, angenommen',
  'a steel cover raises the inductance as a closed round one does, to half of it':
    'eine Kappe aus Stahl hebt die Induktivität wie eine geschlossene runde, auf die Hälfte genau',
  'poles of {0}, flush with the upper flange, assumed': 'Pole aus {0}, bündig mit dem oberen Flansch, angenommen',
  'coils {0} apart, assumed': 'Spulen {0} auseinander, angenommen',
  'eddy currents in steel poles': 'Wirbelströme in Polen aus Stahl',
  'eddy currents in alnico poles': 'Wirbelströme in Polen aus Alnico',
  'alnico bar under steel poles, as a round case has it': 'Alnico-Stab unter Polen aus Stahl, wie in einem runden Fall',
  '{0} of {1}, as a round one of usual thickness has it, whatever its own':
    '{0} aus {1}, wie eine runde üblicher Dicke, welche auch ihre eigene ist',
  '{0} of {1}, {2} thick, assumed, {3} off the bobbins and as deep, assumed':
    '{0} aus {1}, {2} dick, angenommen, {3} um die Wickelkörper und ebenso tief, angenommen',
  '{0} of {1}, {2} thick, {3} off the bobbins and as deep, assumed':
    '{0} aus {1}, {2} dick, {3} um die Wickelkörper und ebenso tief, angenommen',
  '{0} of {1}, {2}, below the bar magnet, assumed': '{0} aus {1}, {2}, unter dem Stabmagneten, angenommen',
  '{0} of {1}, {2}, below the poles, assumed': '{0} aus {1}, {2}, unter den Polen, angenommen',
  '{0} thick, assumed': '{0} dick, angenommen',
  '{0} thick': '{0} dick',

  '{0}, nominal ({1})': '{0}, Nennwerte ({1})',
  'remanence {0}, coercivity {1}, as stated': 'Remanenz {0}, Koerzitivfeldstärke {1}, wie angegeben',
  '{0} rods, nominal': 'Stäbe aus {0}, Nennwerte',
  'fully charged': 'voll magnetisiert',
  '{0} over the pole tops': '{0} über den Polen',
  'keeper and gaps left out': 'Joch und Spalte weggelassen',
  'A cast alnico magnet that was taken off its poles, dropped, or brought near another magnet works on a lower minor loop until it is charged again in place.':
    'Ein gegossener Alnico-Magnet, der von seinen Polen genommen wurde, gefallen oder einem anderen Magneten nahe gekommen ist, arbeitet auf einer tieferen inneren Schleife, bis er an seinem Platz neu magnetisiert wird.',

  'sweep {0}, {1}': 'Frequenzmessung {0}, {1}',
  'sweep {0}': 'Frequenzmessung {0}',
} as const satisfies Readonly<Record<Reason, string>>;
