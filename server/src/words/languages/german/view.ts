/** What the bench view and the saved page say beyond drawings and numbers, in German. */
export const VIEW = {
  '{0} (record)': '{0} (Stand)',
  Parts: 'Teile',
  'position {0}': 'Schalterstellung {0}',
  '{0} lies outside the workspace; it is not opened.':
    '{0} liegt außerhalb des Arbeitsbereichs und wird nicht geöffnet.',
  '{0} is being read.': '{0} wird gelesen.',
  '{0} more are not drawn here.': '{0} weitere sind hier nicht gezeichnet.',
  'There is no photograph {0}.': 'Es gibt kein Foto {0}.',

  'The string is synthesised: one ideal pluck, no fingers, no body, no fret noise.':
    'Die Saite ist künstlich: ein idealer Anschlag, keine Finger, kein Korpus, keine Bundgeräusche.',
  'Left out: where the pickup sits along the string and how wide it looks, the pull and strength of the magnet on the string, the amplifier and the loudspeaker.':
    'Nicht enthalten: wo der Tonabnehmer unter der Saite sitzt und wie breit er sie sieht, Zug und Stärke des Magneten an der Saite, Verstärker und Lautsprecher.',
  'The filter has the levels of the response and the least phase that goes with them; loudness is matched, so output is not compared.':
    'Das Filter hat die Pegel des Frequenzgangs und die kleinste Phase dazu; die Lautheit ist angeglichen, der Ausgang wird also nicht verglichen.',

  'No findings.': 'Keine Befunde.',
  'Mind at the bench': 'An der Werkbank beachten',
  'rests on': 'beruht auf',
  value: 'Wert',
  'not there': 'nicht vorhanden',
  'Readings still missing': 'Noch fehlende Messwerte',
  'Measure next': 'Als Nächstes messen',
  'about {0} min of handling': 'etwa {0} min Arbeit',
  'the target of {0}': 'das Ziel {0}',
  'For that a joint is unsoldered, and soldered again.': 'Dafür wird eine Lötstelle gelöst und wieder gelötet.',
  'For that the pickup is opened, and closed again.': 'Dafür wird der Tonabnehmer geöffnet und wieder geschlossen.',
  'For that the pickup is taken out of the instrument, unplugged.':
    'Dafür wird der Tonabnehmer aus dem Instrument genommen, nichts eingesteckt.',
  'Inductance meter at 1 kHz, series values, from hot to ground, joined and not plugged in.':
    'Induktivitätsmesser bei 1 kHz, Serienwerte, von heiß nach Masse, verbunden und nicht eingesteckt.',
  'Expect {0}.': 'Zu erwarten: {0}.',
  'Planned wiring': 'Geplante Verdrahtung',
  '1 wire, and none has fewer': '1 Draht, und keine hat weniger',
  '{0} wires, and none has fewer': '{0} Drähte, und keine hat weniger',
  '1 wire, not proven to be the fewest': '1 Draht, nicht bewiesen, dass es nicht weniger geht',
  '{0} wires, not proven to be the fewest': '{0} Drähte, nicht bewiesen, dass es nicht weniger geht',
  'on {0}, the smallest of the shelf that does it': 'mit {0}, dem kleinsten Schalter im Regal, der es kann',
  'from the shelf {0} does it with {1} wires': 'aus dem Regal kann es {0} mit {1} Drähten',
  'in the place of {0}, {1} from the shelf does it with {2} wires':
    'an der Stelle von {0} kann es {1} aus dem Regal mit {2} Drähten',
  'no wiring does it: {0}': 'keine Verdrahtung kann es: {0}',
  'position {0} cannot be made at all': 'die Schalterstellung {0} geht überhaupt nicht',
  'positions {0} cannot be made at all': 'die Schalterstellungen {0} gehen überhaupt nicht',
  'it cannot do positions {0} together': 'die Schalterstellungen {0} gehen nicht zusammen',
  'nor {0}': 'auch nicht {0}',
  '{0}; all positions take one pole of one throw each':
    '{0}; alle zusammen brauchen eine Ebene mit einem Kontakt je Schalterstellung',
  '{0}; all positions take {1} poles of one throw each':
    '{0}; alle zusammen brauchen {1} Ebenen mit einem Kontakt je Schalterstellung',
  'the search was ended before it found a wiring or proved that there is none':
    'die Suche endete, bevor sie eine Verdrahtung fand oder bewies, dass es keine gibt',
  'If coils that are not heard may hang on hot by one end, {0} wires do it.':
    'Dürfen stumme Spulen mit einem Ende an heiß hängen, genügen {0} Drähte.',
  'Used by': 'Verwendet von',
  'used by': 'verwendet von',
  left: 'Rest',
  'Line {0}, {1}.': 'Zeile {0}, {1}.',
  error: 'Fehler',
  warning: 'Warnung',
  information: 'Hinweis',
  hint: 'Tipp',
  'blend, {0} to {1}': 'Überblendung, {0} zu {1}',
  'Begin a pickup': 'Einen Tonabnehmer beginnen',
  'Begin an instrument': 'Ein Instrument beginnen',
  'Begin a bobbin for the shelf': 'Einen Wickelkörper fürs Regal beginnen',
  'This file only uses {0}: no pickup, no instrument and no part is written in it yet.':
    'Diese Datei verwendet nur {0}: Noch ist kein Tonabnehmer, kein Instrument und kein Teil darin geschrieben.',
  'This file is empty. What is written in it is checked and drawn here, line by line.':
    'Diese Datei ist leer. Was hineingeschrieben wird, wird hier Zeile für Zeile geprüft und gezeichnet.',
  'No pickup, no instrument and no part is written in this file yet.':
    'In dieser Datei ist noch kein Tonabnehmer, kein Instrument und kein Teil geschrieben.',
  'foil of the {0} coil': 'Folie der Spule {0}',
  'no coil is planned on it': 'keine Spule ist darauf geplant',
  'one coil still to be wound': 'eine Spule, die noch zu wickeln ist',
  '{0} coils still to be wound': '{0} Spulen, die noch zu wickeln sind',
  '{0}, of which the wire is not known': '{0}; der Draht ist nicht bekannt',
  '{0} for {1}, with {2} spare': '{0} für {1}, mit {2} Reserve',
  '{0} too little': '{0} zu wenig',
  '{0} left after that': '{0} bleiben danach',
  'the coil that came out': 'die herausgenommene Spule',
  'wound anew': 'neu gewickelt',
  'the whole block': 'der ganze Block',
  new: 'neu',
  gone: 'weg',
  'was {0}': 'war {0}',
  'now {0}': 'jetzt {0}',

  'The {0} coil is wound: its turns and its wire stay as they are.':
    'Die Spule {0} ist gewickelt: Windungen und Draht bleiben, wie sie sind.',
  'what if': 'was wäre',
  'height of the poles of {0}, mm': 'Höhe der Pole von {0}, mm',
  '{0}, spool {1}': '{0}, Drahtrolle {1}',

  // Readings that are still missing.
  'the {0} coil': 'Spule {0}',
  'turns of the {0} coil': 'Windungen der Spule {0}',
  'resistance of the {0} coil, and with it its turns': 'Widerstand der Spule {0} und damit ihre Windungen',
  'Meter in ohms from {0} to {1}, before the two are joined to anything else.':
    'Ohmmeter von {0} nach {1}, bevor die beiden mit etwas anderem verbunden werden.',
  'which leads belong to {0}': 'welche Litzen gehören zu: {0}',
  'Meter in ohms between every pair of leads: a pair that is not open is one coil. Then a kick, red probe on one lead of the pair, the meter at its {0}: bring {1}; {2}.':
    'Ohmmeter an jedes Paar Litzen: Ein Paar, das nicht offen ist, ist eine Spule. Dann die Probe mit Stahl, rote Prüfspitze an einer Litze des Paars, Messgerät auf {0}: {1}; {2}.',
  'Meter at its {0}, red on {1}, black on {2}:': 'Messgerät auf {0}, rot an {1}, schwarz an {2}:',
  'bring {0} of the {1} coil; {2}.': '{0} der Spule {1}; {2}.',
  'Hold a compass over the poles of the {0} coil: the end that turns to them has the other pole.':
    'Einen Kompass über die Pole der Spule {0} halten: Das Ende, das sich zu ihnen dreht, hat den anderen Pol.',
  'the joints, from hot to ground': 'die Lötstellen, von heiß nach Masse',
  'Meter in ohms from hot to ground, joined and not plugged in.':
    'Ohmmeter von heiß nach Masse, verbunden und nicht eingesteckt.',
  'It is still to be wound for its target: there is nothing to read yet.':
    'Für das Ziel ist noch zu wickeln: Es gibt noch nichts zu messen.',
  'Switch to {0}, volume and tone full up, nothing plugged in: meter from tip to sleeve of the jack.':
    'Auf {0} schalten, Lautstärke und Klang voll auf, nichts eingesteckt: Messgerät von Spitze zu Hülse der Buchse.',

  // Targets, and builds that are proposed for them.
  'resistance hot to ground at {0}': 'Widerstand heiß gegen Masse bei {0}',
  'loaded {0}': '{0} unter Last',
  'unloaded {0}': '{0} ohne Last',
  loaded: 'unter Last',
  unloaded: 'ohne Last',
  'output against {0}': 'Ausgang gegen {0}',
  'another pickup': 'einen anderen Tonabnehmer',
  'hum that is left': 'restlicher Brumm',
  'mismatch of {0} against {1}': 'Ungleichheit von {0} gegen {1}',
  '{0} {1} lighter than {2}': '{0} {1} schwächer gewickelt als {2}',
  '{0} {1} heavier than {2}': '{0} {1} stärker gewickelt als {2}',
  'output of {0} against {1}': 'Ausgang von {0} gegen {1}',
  resistance: 'Widerstand',
  peak: 'Überhöhung',
  mismatch: 'Ungleichheit',
  'not known yet': 'noch nicht bekannt',
  '{0} above': '{0} darüber',
  '{0} below': '{0} darunter',
  'more than 99 in 100': 'mehr als 99 von 100',
  'less than 1 in 100': 'weniger als 1 von 100',
  '{0} in 100': '{0} von 100',
  'odds {0}': 'Chance {0}',
  reached: 'erreicht',
  missed: 'verfehlt',
  'missed, {0}': 'verfehlt, {0}',
  'not decidable within the uncertainty, odds {0}': 'innerhalb der Unsicherheit nicht zu entscheiden, Chance {0}',
  Target: 'Ziel',
  Reaches: 'Erreicht wird',
  'comes to': 'ergibt',
  'Builds for the target': 'Vorschläge für das Ziel',
  'Free: {0}.': 'Frei: {0}.',
  'Build {0}, {1}': 'Vorschlag {0}, {1}',
  'a bar magnet': 'ein Stabmagnet',
  '{0} turns of {1}': '{0} Windungen {1}',
  '{0} from spool {1} on {2}': '{0} von Drahtrolle {1} auf {2}',
  '{0} on {1}': '{0} auf {1}',
  '{0}, {1} toward {2}': '{0}, {1} zu {2}',
  '{0} with {1} spare': '{0} mit {1} Reserve',
  '{0} of the window': '{0} des Wickelfensters',
  'to buy': 'zu kaufen',
  'to buy: the spool has {0}': 'zu kaufen: auf der Drahtrolle sind {0}',
  '{0} to buy': '{0} zu kaufen',
  less: 'weniger',
  'The window: {0} would reach it and fill {1} of it, which asks for one {2} deep.':
    'Das Wickelfenster: {0} würden es erreichen und füllten es zu {1}; es müsste {2} tief sein.',
  'The window: {0} would reach it and fill {1} of it.':
    'Das Wickelfenster: {0} würden es erreichen und füllten es zu {1}.',
  'The wire: {0} would reach it, and the spool does not hold as much.':
    'Der Draht: {0} würden es erreichen, und so viel ist nicht auf der Drahtrolle.',
  'The targets, one against the other: no turns of any wire on these bobbins bring all of them.':
    'Die Ziele, eines gegen das andere: Keine Windungszahl eines Drahts auf diesen Wickelkörpern erreicht alle.',
  'The shelf: nothing that is left on its spools reaches the target.':
    'Das Regal: Nichts, was auf seinen Drahtrollen ist, erreicht das Ziel.',
  'Another wire than stated would: {0}.': 'Ein anderer Draht als angegeben würde es: {0}.',
  'Another bobbin than stated would: {0}.': 'Ein anderer Wickelkörper als angegeben würde es: {0}.',
  'Wind for the target: {0}; {1}': 'Für das Ziel wickeln: {0}; {1}',

  // Repairs: what is done, and what is heard then.
  'turn the magnet of {0} over': 'den Magneten von {0} wenden',
  'turn the magnet of {0} over, or magnetise its rods the other way':
    'den Magneten von {0} wenden oder die Magnetstifte ummagnetisieren',
  'turn the magnets under {0} over': 'die Magnete unter {0} wenden',
  'magnetise the rods of {0} the other way': 'die Magnetstifte von {0} ummagnetisieren',
  'In {0} take {1} instead of {2}': 'In {0} {1} statt {2} nehmen',
  'Swap hot and ground of {0}': 'Heiß und Masse von {0} tauschen',
  'Turn the dummy coil round at its own hookup: hot and ground of {0} change places':
    'Die Blindspule an ihrem eigenen Anschluss umdrehen: Heiß und Masse von {0} wechseln die Plätze',
  'Swap the leads of {0}: {1} change places': 'Die Litzen von {0} tauschen: {1} wechseln die Plätze',
  they: 'sie',
  'Give the shield of {0} a line of its own: `shield {1}`':
    'Dem Schirm von {0} eine eigene Leitung geben: `shield {1}`',
  'Take the shield of {0} off the coil': 'Den Schirm von {0} von der Spule lösen',
  'Take the {0} of the {1} coil of {2} off the shield: it leaves by a lead of its own, {3}, and the shield goes to ground by itself':
    '{0} der Spule {1} von {2} vom Schirm lösen: Es bekommt eine eigene Litze, {3}, und der Schirm geht für sich an Masse',
  'Wind {0} again, the other way round': '{0} neu wickeln, andersherum',
  'Take the cover of {0} off; it goes back on last': 'Die Kappe von {0} abnehmen; sie kommt zuletzt wieder darauf',
  'the whole instrument {0}': 'das ganze Instrument {0}',
  'Repair {0}, about {1} min: {2}': '{0} reparieren, etwa {1} min: {2}',
  '{0} is fitted as {1}: one piece cannot be, and what a plan does to it is done to each. Give every piece a block of its own, such as `pickup {0}-2 like {0}`, and plan again.':
    '{0} ist als {1} eingebaut: Ein Stück kann das nicht sein, und was ein Plan daran tut, gilt für jedes. Jedem Stück einen eigenen Block geben, etwa `pickup {0}-2 like {0}`, und neu planen.',
  '{0}, which hums by nature': '{0}, die von Natur aus brummt',
  'string {0}': 'Saite {0}',
  'hum {0}': 'Brumm {0}',
  '{0}; {1} against one coil': '{0}; {1} gegen eine Spule',
  'no longer as read, read anew: {0}': 'nicht mehr wie gemessen, neu messen: {0}',

  // Leads that readings identify.
  'No reading decides this: it is a choice.': 'Kein Messwert entscheidet das: Es ist eine Wahl.',
  '{0} from {1} to {2}': '{0} von {1} nach {2}',
  'Write the leads that the readings prove: {0}': 'Die Litzen eintragen, die die Messwerte nachweisen: {0}',
  '{0} with {1}': '{0} mit {1}',
  '{0} taped off': '{0} isoliert',
  'Solder in series, in phase: hot {0}, {1}, ground {2}': 'In Reihe löten, gleichphasig: heiß {0}, {1}, Masse {2}',
  'Which coil lies on hot, and which way round both are together, is a choice: hear it beside the other pickups.':
    'Welche Spule an heiß liegt und wie herum beide zusammen, ist eine Wahl: neben den anderen Tonabnehmern hören.',
  'Hum then cancels: the lower coil lies on the same poles.':
    'Der Brumm hebt sich dann auf: Die untere Spule liegt auf denselben Polen.',
  'The poles are unlike, so its hum cancels.': 'Die Pole sind ungleich, also hebt sich der Brumm auf.',
  'The poles are alike, so its hum adds: no wiring of these coils changes that.':
    'Die Pole sind gleich, also addiert sich der Brumm: Keine Verdrahtung dieser Spulen ändert das.',
  'Whether its hum cancels, a compass over each coil tells: it does where their poles are unlike.':
    'Ob sich der Brumm aufhebt, sagt ein Kompass über jeder Spule: Er tut es, wo ihre Pole ungleich sind.',
  '{0} is the shield: write `shield {0}`': '{0} ist der Schirm: `shield {0}` schreiben',
  '{0} as the start of the {1} coil, then wound {2}': '{0} als Anfang der Spule {1}, dann {2} gewickelt',
  'Choose {0} (no reading tells start from finish)': '{0} wählen (kein Messwert unterscheidet Anfang und Ende)',

  // Two states beside each other.
  'the state as found': 'Zustand wie vorgefunden',
  'the states before': 'frühere Zustände',
  'not known': 'nicht bekannt',
  'No change of meaning: nothing differs but order, layout and comments.':
    'Keine Änderung der Bedeutung: Nur Reihenfolge, Gestaltung und Kommentare sind anders.',
  Facts: 'Angaben',
  Findings: 'Befunde',
  'was {0}, now': 'war {0}, jetzt',
  'Wiring and response of {0}': 'Verdrahtung und Frequenzgang von {0}',
  Positions: 'Schalterstellungen',
  ', marked: {0}': ', markiert: {0}',

  // How a number is known.
  stated: 'angegeben',
  computed: 'berechnet',
  assumed: 'angenommen',
  reading: 'gemessen',
} as const;
