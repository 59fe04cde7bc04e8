/**
 * Words that many texts share, and the terms of the trade as the German of this project has them, so that one thing has one name:
 * Tonabnehmer (pickup), Spule (coil), Windung (turn), Wicklung (winding), Wickelkörper (bobbin), Wickelfenster (window), Kern (core), rechtsherum und linksherum (clockwise, counterclockwise), Draht
 * (wire), Drahtrolle (spool), Drahtlack (enamel), Litze (lead), Anfang und Ende (start, finish), Abgriff (tap), Schirm und Beilitze
 * (shield, drain), Abschirmung (foil, shielding), heiß (hot), Masse (ground), Verbindung (link, joint), Schalterstellung (switch
 * position), Magnetstab und Polstift (bar, rod), Polstück (pole piece), Kappe und Grundplatte (cover, baseplate), gleichphasig und
 * gegenphasig (in phase, out of phase), Brumm (hum), Wachsbad (potting bath), Messwert (reading), Probe mit Stahl (kick), Befund
 * (finding), Spezifikation (spec), Werkbank-Ansicht (bench view), Karte (card), Übergabe (hand-over).
 */
export const TERMS = {
  unknown: 'unbekannt',
  none: 'keine',
  and: 'und',
  or: 'oder',
  open: 'offen',
  joined: 'verbunden',
  silent: 'stumm',
  '{0} to {1}': '{0} bis {1}',
  '{0} of {1}': '{0} von {1}',
  'unknown: {0}': 'unbekannt: {0}',
  '{0}, assumed': '{0}, angenommen',
  '{0} or lower': 'max. {0}',
  '{0} or more': 'mind. {0}',
  'too small to tell': 'zu klein, um es zu unterscheiden',
  '{0} coil': 'Spule {0}',
  '{0} coil, {1}': 'Spule {0}, {1}',
  drain: 'Beilitze',
  tap: 'Abgriff',
  'taped off': 'isoliert',
  phase: 'Phase',
  turns: 'Windungen',
  position: 'Schalterstellung',
  expected: 'Soll',
  passes: 'zulässig',
  read: 'gelesen',
  before: 'vorher',
  after: 'nachher',
  now: 'jetzt',
  change: 'Änderung',
  changed: 'geändert',
  enamel: 'Drahtlack',
  plastic: 'Kunststoff',
  wax: 'Wachs',

  'in phase': 'gleichphasig',
  'out of phase': 'gegenphasig',
  'one coil': 'eine Spule',
  'phase not proven': 'Phase nicht nachgewiesen',
  thin: 'dünner Klang',
  'a kick at each coil settles it': 'eine Probe mit Stahl an jeder Spule klärt es',
  'hum adds': 'Brumm addiert sich',
  'hum does not cancel': 'Brumm hebt sich nicht auf',
  'hum cancels in part': 'Brumm hebt sich teilweise auf',
  'hum cancels': 'Brumm hebt sich auf',

  'winding direction unknown': 'Wickelrichtung unbekannt',
  'wound {0}': '{0} gewickelt',
  'poles unknown': 'Pole unbekannt',
  '{0} up': '{0} oben',
  'poles {0} up': 'Pole {0} oben',
  'poles north up': 'Nordpol oben',
  'poles south up': 'Südpol oben',
  'the north-seeking tip': 'die nach Norden weisende Spitze',
  'the south-seeking tip': 'die nach Süden weisende Spitze',
  'lowest DC volts': 'kleinste DC-Volt',
  'steel to the poles': 'Stahl an die Pole',
  'pull-off swings the other way; do it three times': 'beim Abziehen andersherum; je dreimal',

  '{0} in series': '{0} in Reihe',
  '{0} in parallel': '{0} parallel',
  '{0} reversed': '{0} umgepolt',
  '{0} at {1}': '{0} an {1}',
  '{0} through {1}': '{0} über {1}',
  'wiper to pickup': 'Schleifer am Tonabnehmer',
  'no-load': 'bei 10 abgeschaltet',
  'at the wiper': 'am Schleifer',
  'two-gang': 'Tandem',
  ABS: 'ABS',

  'wire length': 'Drahtlänge',
  'wire mass': 'Drahtmasse',
  'mean turn': 'mittlere Windung',
  'turn-area': 'Windungsfläche',
  layers: 'Lagen',
  build: 'Wickelhöhe',
  'window filled': 'Wickelfenster gefüllt',
  packing: 'Füllung',
  'inductance without poles': 'Induktivität ohne Pole',
  inductance: 'Induktivität',
  capacitance: 'Kapazität',
  resonance: 'Resonanz',
  'no peak': 'keine Spitze',
  '\u22123\u202FdB at': '\u22123\u202FdB bei',
  'resonance peak': 'Resonanzüberhöhung',
  'level at 100\u202FHz': 'Pegel bei 100\u202FHz',
  'string signal against one coil': 'Saitensignal gegen eine Spule',
  'hum against one coil': 'Brumm gegen eine Spule',
  'hum against one coil on its own': 'Brumm gegen eine Spule für sich',
  'resistance at 20\u202F°C': 'Widerstand bei 20\u202F°C',
  'resistance of the wire at 20\u202F°C': 'Widerstand des Drahts bei 20\u202F°C',
  'resistance hot to ground at 20\u202F°C': 'Widerstand heiß gegen Masse bei 20\u202F°C',
  'hot to ground at 20\u202F°C': 'heiß gegen Masse bei 20\u202F°C',
  'resistance at the jack': 'Widerstand an der Buchse',
  'field at the string': 'Feld an der Saite',
  output: 'Ausgang',
  'pull on the string': 'Zug an der Saite',
  field: 'Feld',
  'output by the coils': 'Ausgang durch die Spulen',
  'output by the magnets': 'Ausgang durch die Magnete',
  Numbers: 'Werte',
  'Numbers, position {0}': 'Werte, Schalterstellung {0}',
  fits: 'passt',
  'does not fit': 'passt nicht',
  'both too low to tell': 'beide zu klein, um sie zu unterscheiden',

  'the ceiling for this mix is {0}': 'die Obergrenze für diese Mischung ist {0}',
  'the ceiling for the usual mix is {0}': 'die Obergrenze für die übliche Mischung ist {0}',
  'ABS bobbins deflect from {0} on, by grade': 'Wickelkörper aus ABS verziehen sich je nach Sorte ab {0}',
  'butyrate bobbins soften from {0} on, by plasticiser':
    'Wickelkörper aus Butyrat erweichen je nach Weichmacher ab {0}',
  '{0} enamel is of class {1}': 'Drahtlack aus {0} hat Wärmeklasse {1}',
  'the vapour of this wax may flash from {0}': 'der Dampf dieses Wachses kann sich ab {0} entzünden',

  'Common-practice guidance, not legal, medical or electrical certification. Follow the safety data sheet and local rules; use a licensed or competent person where required.':
    'Hinweise nach Werkstattpraxis, keine rechtliche, medizinische oder elektrische Bescheinigung. Sicherheitsdatenblatt und örtliche Regeln beachten; wo nötig, Zugelassene oder Fachkundige holen.',
  'Solder and iron burn: eye protection, rosin fume extracted. Leaded solder is poisonous: hands washed, no food at the bench, local rules first.':
    'Lot und Lötkolben verbrennen: Augenschutz, Rauch absaugen. Bleilot ist giftig: Hände waschen, am Platz nicht essen, örtliche Regeln zuerst.',
  'Enamel under the iron gives off harmful fume, polyurethane isocyanates among it: extract it at the joint or strip the wire cold.':
    'Drahtlack unter dem Kolben gibt schädlichen Rauch ab, Polyurethan auch Isocyanate: absaugen oder kalt abisolieren.',
  'Magnets pinch and chip; keep them 15\u202Fcm or more from pacemakers and other implants.':
    'Magnete quetschen, splittern; Herzschrittmacher und andere Implantate 15\u202Fcm oder weiter weg.',
  'Magnetising: strong magnets snap together over fingers, and the charged capacitors of a magnetiser can kill; nobody with an implant near.':
    'Magnetisieren: starke Magnete schlagen über Fingern zusammen, und die geladenen Kondensatoren eines Magnetisierers können töten; niemand mit Implantat in der Nähe.',
  'Guard the spindle; hair and sleeves tied back; no gloves near rotation; stop switch within reach. Mains work by a competent person.':
    'Spindel abdecken; Haare und Ärmel binden; keine Handschuhe an Drehendem; Notaus in Reichweite. Netz nur durch Fachkundige.',
  'Read the safety data sheet of the wax; local rules come first.':
    'Sicherheitsdatenblatt des Wachses lesen; örtliche Vorschriften gehen vor.',
  'Melt it in a pot that stands in hot water, clear of the bottom, on an electric plate: no flame, someone always beside it, and a thermometer that is not the thermostat.':
    'Im Topf schmelzen, der mit Abstand zum Boden in heißem Wasser auf einer Elektroplatte steht: keine Flamme, immer jemand dabei, und ein Thermometer, das nicht der Thermostat ist.',
  'A lid and a dry-powder or carbon-dioxide extinguisher within reach; water on burning wax throws it about.':
    'Deckel und Pulver- oder Kohlendioxidlöscher in Reichweite; Wasser auf brennendem Wachs schleudert es umher.',
  'Only dry parts; fresh air; gloves and eye protection.':
    'Nur trockene Teile; frische Luft; Handschuhe und Augenschutz.',
  'A burn: cool running water for 20 minutes, leave the wax on, seek help.':
    'Bei Verbrennung: 20 Minuten unter kühles fließendes Wasser, das Wachs nicht abreißen, Hilfe holen.',
  'Before the test signal plays: loudspeakers off, headphones off the head and unplugged, direct monitoring off. It is loud, and it ends at 22\u202FkHz.':
    'Bevor das Prüfsignal spielt: Lautsprecher aus, Kopfhörer vom Kopf und ausgesteckt, direktes Mithören aus. Es ist laut und reicht bis 22\u202FkHz.',
  'Line level only: never from a loudspeaker output, never into an amplifier that is open or switched on. Phantom power off: its 48\u202FV would go through coil and fingers.':
    'Nur Leitungspegel: nie aus einem Lautsprecherausgang, nie in einen offenen oder eingeschalteten Verstärker. Phantomspeisung aus: ihre 48\u202FV gingen durch Spule und Finger.',
  'At the amplifier: 15 min at 100 dB is as much for an ear as 8 h at 85 dB.':
    'Am Verstärker: 15 min bei 100 dB sind für ein Ohr so viel wie 8 h bei 85 dB.',
} as const;
