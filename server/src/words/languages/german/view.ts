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
  'The filter has the levels of the computed response and the least phase that goes with them; loudness is matched, so output is not compared.':
    'Das Filter hat die Pegel des berechneten Frequenzgangs und die kleinste Phase dazu; die Lautheit ist angeglichen, der Ausgang wird also nicht verglichen.',

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
  '{0}, spool {1}': '{0}, Drahtspule {1}',

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
} as const;
