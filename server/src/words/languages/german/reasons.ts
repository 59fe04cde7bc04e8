/** What a number rests on, in German. */
import type { Reason } from '../../../estimates/reasons.ts';

export const REASONS = {
  'uniform field; the steel of the poles is left out': 'gleichförmiges Feld; der Stahl der Pole ist weggelassen',
  'of a string heard at two places only what it sounds alike there cancels, over all its harmonics and held at the octave':
    'von einer Saite, die an zwei Orten gehört wird, hebt sich nur auf, was dort gleich klingt, über alle Obertöne und an der Oktave gegriffen',
  'how loud coils of unknown turns are beside others, by the root of their inductance, to 30\u202F%':
    'wie laut Spulen unbekannter Windungszahl neben anderen sind, nach der Wurzel ihrer Induktivität, auf 30\u202F%',
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

  // What a reading that does not fit may come from, and what would tell.
  'open as before the link `{0}` was soldered': 'offen wie vor dem Löten der Verbindung `{0}`',
  'a reading with that joint looked at': 'einen Messwert mit Blick auf diese Lötstelle',
  'that the joints were made already: the joined pickup reads so':
    'dass die Lötstellen schon gemacht waren: Der verbundene Tonabnehmer misst so',
  'an open {0} coil, its wire broken or a joint held apart by enamel':
    'eine offene Spule {0}, ihr Draht gerissen oder eine Lötstelle durch Lack getrennt',
  'a reading of the {0} coil at its own two ends': 'einen Messwert der Spule {0} an ihren eigenen zwei Enden',
  'a probe that did not touch': 'eine Prüfspitze ohne Kontakt',
  'solder, a pinched lead or a bare end that joins what should be apart':
    'Lot, eine geklemmte Litze oder ein blankes Ende, das verbindet, was getrennt sein soll',
  'a short across it: solder or bare ends that touch':
    'ein Kurzschluss darüber: Lot oder blanke Enden, die sich berühren',
  'a poor joint that adds {0}: enamel under the solder, or a dry joint':
    'eine schlechte Lötstelle, die {0} dazugibt: Lack unter dem Lot oder eine kalte Lötstelle',
  'a reading with the joint reheated': 'einen Messwert nach dem Nachlöten',
  'a slip of the decimal point or the unit: {0} was meant': 'ein Versehen bei Komma oder Einheit: {0} war gemeint',
  'a coil still warm, at about {0}': 'eine noch warme Spule, bei etwa {0}',
  'a colder coil than stated, at about {0}': 'eine kältere Spule als angegeben, bei etwa {0}',
  'a reading once the pickup has settled to the room':
    'einen Messwert, sobald der Tonabnehmer so warm ist wie der Raum',
  'a path of {0} beside it: hands on the probes, or the pickup read in circuit':
    'ein Weg von {0} daneben: Hände an den Prüfspitzen, oder der Tonabnehmer eingebaut gemessen',
  'a reading out of circuit with no hand on the probes': 'einen Messwert ausgebaut und ohne Hand an den Prüfspitzen',
  'turns of the {0} coil shorted since the earlier readings':
    'seit den früheren Messwerten kurzgeschlossene Windungen der Spule {0}',
  '{0} or the {1}': '{0} oder {1}',
  'a reading of each coil by itself': 'einen Messwert jeder Spule für sich',
  'an inductance reading of the {0} coil': 'einen Messwert der Induktivität von Spule {0}',
  'fewer turns on the {0} coil than stated: a counter that started late':
    'weniger Windungen auf Spule {0} als angegeben: ein Zähler, der spät begann',
  'turns of the {0} coil shorted since the earlier reading':
    'seit dem früheren Messwert kurzgeschlossene Windungen der Spule {0}',
  'shorted turns in the {0} coil, or a counter that started late':
    'kurzgeschlossene Windungen in Spule {0} oder ein Zähler, der spät begann',
  'more turns on the {0} coil than stated, or wire stretched thin by tension':
    'mehr Windungen auf Spule {0} als angegeben, oder Draht, vom Zug dünn gereckt',
  '{0} wire on the {1} coil instead of the wire stated': 'Draht {0} auf Spule {1} statt des angegebenen',
  'wire {0} that runs thicker than stated': 'Draht {0}, der dicker ausfällt als angegeben',
  'wire {0} that runs thinner than stated': 'Draht {0}, der dünner ausfällt als angegeben',
  'a reading of some metres of it': 'einen Messwert von einigen Metern davon',
  'shorted turns in the {0} coil': 'kurzgeschlossene Windungen in Spule {0}',
  "the meter's own leads or a cable counted in": 'mitgemessene Messleitungen oder ein Kabel',
  'a reading of the leads alone, taken off': 'einen Messwert der Leitungen allein, abgenommen',
  'a resistance reading of the {0} coil': 'einen Messwert des Widerstands von Spule {0}',
  'more turns on the {0} coil than stated': 'mehr Windungen auf Spule {0} als angegeben',
  'poles that were not in when it was read': 'Pole, die beim Messen nicht darin waren',
  'steel near it while it was read': 'Stahl in der Nähe beim Messen',
  'a probe on another lead than the one written': 'eine Prüfspitze an einer anderen Litze als der geschriebenen',
  'probes on other leads than written, or leads that are mistaken for one another ({0} to {1} should read so)':
    'Prüfspitzen an anderen Litzen als geschrieben, oder verwechselte Litzen ({0} nach {1} sollte so messen)',
  'an open joint between the jack and the pickups, or a contact of the switch that does not close':
    'eine offene Verbindung zwischen Buchse und Tonabnehmern oder ein Schalterkontakt, der nicht schließt',
  'a broken coil': 'eine unterbrochene Spule',
  'hot touching ground at the jack, the switch or a pot: the output is shorted':
    'heiß an Masse an Buchse, Schalter oder Regler: Der Ausgang ist kurzgeschlossen',
  'the switch in position {0}, which should read so, or its leads taken for one another':
    'der Schalter in Stellung {0}, die so messen sollte, oder dort verwechselte Litzen',
  'the {0} coil of {1} in place of its {2} coil, which should read so: their leads taken for one another':
    'Spule {0} von {1} statt Spule {2}; sie sollte so messen: verwechselte Litzen',
  '{0} does not reach the output: an open joint, a switch contact or a broken coil':
    '{0} erreicht den Ausgang nicht: eine offene Lötstelle, ein Schalterkontakt oder eine unterbrochene Spule',
  'the {0} coil of {1} is bridged: its leads touch, or a split is left on':
    'Spule {0} von {1} ist überbrückt: Ihre Litzen berühren sich, oder eine Spulenabschaltung ist noch an',
  'a path of {0} beside it: a hand on the plug, an amplifier plugged in, or a smaller pot than stated':
    'ein Weg von {0} daneben: eine Hand am Stecker, ein eingesteckter Verstärker oder ein kleinerer Regler als angegeben',
  'a volume control that is not full up': 'ein Lautstärkeregler, der nicht voll auf ist',
  'pickups warmer than the temperature stated': 'Tonabnehmer wärmer als angegeben',
  'pickups colder than the temperature stated': 'Tonabnehmer kälter als angegeben',

  // What would settle a number sooner than anything else.
  'measure some metres of the spool: measures … ohm/m at … degC':
    'einige Meter von der Drahtrolle messen: measures … ohm/m at … degC',
  'measure some metres of this wire, or its bare diameter; or read the coil itself':
    'einige Meter dieses Drahts oder seinen blanken Durchmesser messen; oder die Spule selbst',
  'measure the wire over its enamel: overall … mm': 'den Draht über dem Lack messen: overall … mm',
  'measure how deep the winding is, which gives its packing: packing …':
    'messen, wie tief die Wicklung ist, das ergibt ihre Füllung: packing …',
  'measure the core and the winding space of the bobbin': 'Kern und Wickelraum des Wickelkörpers messen',
  'count the turns: counted …': 'die Windungen zählen: counted …',
  'measure the resistor by itself, and state what it read: over 9.98 kohm ± 0.1 %':
    'den Widerstand für sich messen und angeben, was er zeigt: over 9.98 kohm ± 0.1 %',
  'sweep the recorder by itself: recorder alone … through …':
    'den Rekorder für sich über der Frequenz messen: recorder alone … through …',
  'sweep the recorder by itself, or the pickup over 10 kohm':
    'den Rekorder für sich über der Frequenz messen, oder den Tonabnehmer über 10 kohm',
  'measure with a more accurate meter': 'mit einem genaueren Messgerät messen',
  'measure the capacitor by itself, and state it: with … pF ± … %':
    'den Kondensator für sich messen und angeben: with … pF ± … %',
  'read it with a more accurate meter': 'es mit einem genaueren Messgerät messen',
  'state the temperature of the reading: at … degC': 'die Temperatur des Messwerts angeben: at … degC',
  'drive the pickup with a coil over its poles and read how high its peak is':
    'den Tonabnehmer mit einer Spule über seinen Polen anregen und messen, wie hoch seine Spitze ist',
  'measure the inductance: inductance hot to ground … H at 1 kHz':
    'die Induktivität messen: inductance hot to ground … H at 1 kHz',
  'measure the distance of the coils: coils … mm apart': 'den Abstand der Spulen messen: coils … mm apart',
  'read the tracks of the pots by themselves, and state what they read':
    'die Regler für sich messen und angeben, was sie zeigen',
  'read the capacitors by themselves, and state what they read':
    'die Kondensatoren für sich messen und angeben, was sie zeigen',
  'state the cable: cable 4.5 m of 110 pF/m': 'das Kabel angeben: cable 4.5 m of 110 pF/m',
  'measure the capacitance: capacitance … pF': 'die Kapazität messen: capacitance … pF',

  'sweep {0}, {1}': 'Frequenzmessung {0}, {1}',
  'sweep {0}': 'Frequenzmessung {0}',
} as const satisfies Readonly<Record<Reason, string>>;
