/** What findings tell, in German: of each that is told in German all parts, its fixes' titles and what stands at related places. */
export const FINDINGS = {
  'It is meant: say `on purpose`': 'Es ist gewollt: `on purpose` schreiben',
  'the line that it is taken over from': 'die Zeile, von der es übernommen ist',
  '{0} more findings follow': '{0} weitere Befunde folgen',
  'Accepted.': 'Hingenommen.',
  'Accepted: {0}': 'Hingenommen: {0}',
  'Nothing is left to accept: {0} is not found here any more.':
    'Nichts ist mehr hinzunehmen: {0} wird hier nicht mehr gefunden.',
  'Remove the line.': 'Die Zeile entfernen.',
  'Remove the line': 'Die Zeile entfernen',

  'the {0} coil': 'Spule {0}',
  '{0}, and {1}': '{0}, und {1}',
  '{0} in {1}': '{0} in {1}',
  'Take {0}.': '{0} nehmen.',
  'start {0}, finish {1}': 'Anfang {0}, Ende {1}',

  // Phase.
  'winding direction and polarity': 'Wickelrichtung und Polung',
  'the polarity': 'die Polung',
  'the winding direction': 'die Wickelrichtung',
  '{0} ({1}) works against {2}: their string signals subtract at the output; {3}.':
    '{0} ({1}) arbeitet gegen {2}: Ihre Saitensignale ziehen sich am Ausgang voneinander ab; {3}.',
  '{0} ({1}) work against {2}: their string signals subtract at the output; {3}.':
    '{0} ({1}) arbeiten gegen {2}: Ihre Saitensignale ziehen sich am Ausgang voneinander ab; {3}.',
  '{0} ({1}) works against {2}: their string signals subtract at the output, and their hum adds; {3}.':
    '{0} ({1}) arbeitet gegen {2}: Ihre Saitensignale ziehen sich am Ausgang voneinander ab, und ihr Brumm addiert sich; {3}.',
  '{0} ({1}) work against {2}: their string signals subtract at the output, and their hum adds; {3}.':
    '{0} ({1}) arbeiten gegen {2}: Ihre Saitensignale ziehen sich am Ausgang voneinander ab, und ihr Brumm addiert sich; {3}.',
  'both have the same poles up': 'beide haben dieselben Pole oben',
  'their e.m.f.s meet head on': 'ihre Spannungen stehen gegeneinander',
  'the path turns the same way round in both, over unlike poles':
    'der Weg läuft in beiden gleich herum, über ungleichen Polen',
  'the kicks taken show it': 'die Proben mit Stahl zeigen es',
  'by its kick': 'nach ihrer Probe mit Stahl',
  'Swap the leads of {0}.': 'Die Litzen von {0} tauschen.',
  'Swap the leads of {0}, or {1}.': 'Die Litzen von {0} tauschen oder {1}.',
  '{0}: with leads swapped, hum would add.': '{0}: Mit getauschten Litzen würde sich der Brumm addieren.',
  'Wind {0} the other way': '{0} andersherum wickeln',
  'Each lies under its own strings: say `serves`': 'Jede liegt unter eigenen Saiten: `serves` schreiben',
  'Hot and ground of {0} were swapped after its kick was read: keep the state that it was read in as a record':
    'Heiß und Masse von {0} wurden nach der Probe mit Stahl getauscht: den Stand, in dem gemessen wurde, als Aufzeichnung behalten',
  'What {0} give at the output is not measured, so phase and hum stay open.':
    'Was {0} am Ausgang geben, ist nicht gemessen; Phase und Brumm bleiben offen.',
  'What {0} gives at the output is not measured, so phase and hum stay open.':
    'Was {0} am Ausgang gibt, ist nicht gemessen; Phase und Brumm bleiben offen.',
  'Take {0} with approach or pull-off stated: no lead inside needs to be known.':
    '{0} nehmen, mit Annähern oder Abziehen angegeben: Keine Litze im Inneren muss bekannt sein.',
  'a kick `hot to ground at {0}`': 'eine Probe mit Stahl `hot to ground at {0}`',
  'Which leads belong to {0} is neither stated nor measured, so phase and hum stay open.':
    'Welche Litzen zu {0} gehören, ist weder angegeben noch gemessen; Phase und Brumm bleiben offen.',
  'Read the resistance between pairs of conductors, then kick the pair at its poles (`kick A to B at {0} approach positive`).':
    'Den Widerstand zwischen je zwei Adern messen, dann an dem Paar die Probe mit Stahl an seinen Polen (`kick A to B at {0} approach positive`).',
  'Whether {0} are in phase is open: {1} is neither stated nor measured.':
    'Ob {0} gleichphasig sind, ist offen: {1} ist weder angegeben noch gemessen.',
  'Whether {0} are in phase is open: {1} are neither stated nor measured.':
    'Ob {0} gleichphasig sind, ist offen: {1} sind weder angegeben noch gemessen.',
  'Whether {0} cancel hum is open: {1} is neither stated nor measured.':
    'Ob sich der Brumm von {0} aufhebt, ist offen: {1} ist weder angegeben noch gemessen.',
  'Whether {0} cancel hum is open: {1} are neither stated nor measured.':
    'Ob sich der Brumm von {0} aufhebt, ist offen: {1} sind weder angegeben noch gemessen.',
  'Whether {0} are in phase in {1} is open: {2} is neither stated nor measured.':
    'Ob {0} in {1} gleichphasig sind, ist offen: {2} ist weder angegeben noch gemessen.',
  'Whether {0} are in phase in {1} is open: {2} are neither stated nor measured.':
    'Ob {0} in {1} gleichphasig sind, ist offen: {2} sind weder angegeben noch gemessen.',
  'Whether {0} cancel hum in {1} is open: {2} is neither stated nor measured.':
    'Ob sich der Brumm von {0} in {1} aufhebt, ist offen: {2} ist weder angegeben noch gemessen.',
  'Whether {0} cancel hum in {1} is open: {2} are neither stated nor measured.':
    'Ob sich der Brumm von {0} in {1} aufhebt, ist offen: {2} sind weder angegeben noch gemessen.',
  '{0} is open too': '{0} ist auch offen',
  '{0} is the open one': '{0} ist die offene',
  'a kick `{0}` at {1} with approach or pull-off stated':
    'eine Probe mit Stahl `{0}` an {1}, mit Annähern oder Abziehen angegeben',
  'a kick `{0}` with approach or pull-off stated': 'eine Probe mit Stahl `{0}`, mit Annähern oder Abziehen angegeben',
  'a compass reading over {0}': 'einen Kompass über {0}',
  'In {0} {1} work against {2}: string signals subtract, the sound is thin':
    'In {0} arbeiten {1} gegen {2}: Saitensignale ziehen sich voneinander ab, der Klang ist dünn',
  'In {0} {1} works against {2}: string signals subtract, the sound is thin':
    'In {0} arbeitet {1} gegen {2}: Saitensignale ziehen sich voneinander ab, der Klang ist dünn',
  '{0}; hum still cancels.': '{0}; Brumm hebt sich dennoch auf.',
  '{0}; hum still cancels in part.': '{0}; Brumm hebt sich dennoch teilweise auf.',
  '{0} is fitted here': '{0} ist hier eingebaut',
  '{0} were read from hot to ground: a swap of the two since then must be told by `reworks`, or the reading says the opposite of what holds now.':
    '{0} wurden von heiß nach Masse gemessen: Ein Tausch der beiden seither muss mit `reworks` gesagt sein, sonst sagt der Messwert das Gegenteil von dem, was jetzt gilt.',
  '{0} was read from hot to ground: a swap of the two since then must be told by `reworks`, or the reading says the opposite of what holds now.':
    '{0} wurde von heiß nach Masse gemessen: Ein Tausch der beiden seither muss mit `reworks` gesagt sein, sonst sagt der Messwert das Gegenteil von dem, was jetzt gilt.',
  'Make the coils of {0} agree first': 'Erst die Spulen von {0} gleichphasig machen',
  'Take another coil': 'Eine andere Spule nehmen',
  'Swap hot and ground of {0}, or {1}': 'Heiß und Masse von {0} tauschen oder {1}',
  '{0}, or say `on purpose` behind the position where it is meant.':
    '{0}, oder, wo es gewollt ist, hinter die Schalterstellung `on purpose` schreiben.',
  '{0} is meant: say `on purpose`': '{0} ist gewollt: `on purpose` schreiben',

  // Hum.
  'The hum of {0} adds, {1} dB over one coil': 'Der Brumm von {0} addiert sich, {1}\u202FdB über einer Spule',
  'The hum of {0} is not cancelled': 'Der Brumm von {0} hebt sich nicht auf',
  '{0}: the path turns the same way round in each of them; their poles are alike, so no wiring of these coils cancels hum and keeps them in phase.':
    '{0}: Der Weg läuft in jeder gleich herum; ihre Pole sind gleich, also hebt keine Verdrahtung dieser Spulen den Brumm auf und hält sie gleichphasig.',
  '{0}: the path turns the same way round in each of them, so {1} ({2}) is reversed.':
    '{0}: Der Weg läuft in jeder gleich herum, also ist {1} ({2}) umgepolt.',
  'one half': 'eine Hälfte',
  '{0} and swap its leads.': '{0} und ihre Litzen tauschen.',
  '{0} and swap its leads': '{0} und ihre Litzen tauschen',
  '{0} as wound': '{0} wie gewickelt',
  "Hum cancels only in part: {0} of the stronger coil's is left by the best estimate ({1} at one standard deviation).":
    'Brumm hebt sich nur teilweise auf: Von dem der stärkeren Spule bleiben nach bester Schätzung {0} ({1} bei einer Standardabweichung).',
  'The coils are unequal: {0}.': 'Die Spulen sind ungleich: {0}.',
  'The coils are unequal.': 'Die Spulen sind ungleich.',
  'Match their turns, or say `on purpose` in the hookup where it is meant.':
    'Ihre Windungen angleichen oder, wo es gewollt ist, in `hookup` `on purpose` schreiben.',
  "In {0} hum cancels only in part: {1} of the strongest coil's hum in the same place is left by the best estimate.":
    'In {0} hebt sich Brumm nur teilweise auf: Von dem der stärksten Spule am selben Ort bleiben nach bester Schätzung {1}.',
  'The coils weigh by turns over impedance, and they are unequal ({0}).':
    'Die Spulen zählen nach Windungen durch Impedanz, und sie sind ungleich ({0}).',
  'The coils weigh by turns over impedance, and they are unequal.':
    'Die Spulen zählen nach Windungen durch Impedanz, und sie sind ungleich.',
  'in different wire': 'in verschiedenem Draht',
  'Where less hum is wanted, take coils that are nearer to each other in turns and wire.':
    'Wo weniger Brumm gewünscht ist, Spulen nehmen, die sich in Windungen und Draht näher sind.',
  'In {0} hum cancels in part, {1} against its strongest coil: {2}.':
    'In {0} hebt sich Brumm teilweise auf, {1} gegen die stärkste Spule: {2}.',
  '{0} hums, {1} against its strongest coil: {2}.': '{0} brummt, {1} gegen die stärkste Spule: {2}.',
  '{0} turn the same way round': '{0} laufen gleich herum',
  'what turns against {0} is too weak': 'was gegen {0} läuft, ist zu schwach',
  'Take {0} in place of {1}, and hum cancels.': '{0} statt {1} nehmen, und Brumm hebt sich auf.',
  'Take {0} in place of {1}, and hum is {2} dB less.': '{0} statt {1} nehmen, und Brumm ist {2}\u202FdB kleiner.',
  'Turn the dummy coil round: `{0}` instead of `{1}`': 'Die Blindspule umdrehen: `{0}` statt `{1}`',
  'Take the other coil: `{0}` instead of `{1}`': 'Die andere Spule nehmen: `{0}` statt `{1}`',

  // Readings.
  '{0} to {1} reads {2}': '{0} gegen {1} zeigt {2}',
  '{0} reads {1}': '{0} zeigt {1}',
  'No usual cause explains it.': 'Keine übliche Ursache erklärt es.',
  'Measure again.': 'Noch einmal messen.',
  'It is {0}: nothing else explains every reading.': 'Es ist: {0}. Nichts anderes erklärt jeden Messwert.',
  'Most likely {0}.': 'Am wahrscheinlichsten: {0}.',
  'Most likely {0}; else {1}.': 'Am wahrscheinlichsten: {0}; sonst {1}.',
  'Take {0}: it tells.': '{0} nehmen: Er sagt es.',
  'Look there first, then read once more.': 'Erst dort nachsehen, dann noch einmal messen.',
  'Rewind the coil: a short inside a winding is not mended.':
    'Die Spule neu wickeln: Ein Schluss in einer Wicklung lässt sich nicht beheben.',
  'These readings fit the coils before any joint was made, not the pickup as its hookup joins it; they are judged so.':
    'Diese Messwerte passen zu den Spulen vor jeder Lötstelle, nicht zum Tonabnehmer, wie `hookup` ihn verbindet; so werden sie beurteilt.',
  'Say `readings apart`.': '`readings apart` schreiben.',
  'Read before the leads were joined: `readings apart`': 'Vor dem Verbinden der Litzen gemessen: `readings apart`',
  '{0}, {1}.': '{0}, {1}.',
  'The earlier reading': 'Der frühere Messwert',
  '{0}, from the same cause': '{0}, aus derselben Ursache',
  'The turns it is computed from': 'Die Windungen, aus denen es berechnet ist',
  'but {0} compute to {1}': 'aber {0} ergeben berechnet {1}',
  'but winding, metal and cable compute to {0}': 'aber Wicklung, Metall und Kabel ergeben berechnet {0}',
  'but nothing stated joins {0} to {1}': 'aber nichts Angegebenes verbindet {0} mit {1}',
  'but nothing stated joins it': 'aber nichts Angegebenes verbindet es',
  'where a coil should read': 'wo eine Spule zu messen sein sollte',
  'where {0} should read': 'wo {0} zu messen sein sollten',
  'though both are joined': 'obwohl beide verbunden sind',
  'but was {0} by an earlier reading, more than the meter explains':
    'war aber {0} nach einem früheren Messwert, mehr als das Messgerät erklärt',
  'but its own readings make it {0}': 'aber die eigenen Messwerte ergeben {0}',
  'but {0} compute to {1}, outside what wire and meter allow':
    'aber {0} ergeben berechnet {1}, außerhalb dessen, was Draht und Messgerät zulassen',
  '{0} turns from spool {1}': '{0} Windungen von Drahtrolle {1}',
  '{0} turns from wire {1}': '{0} Windungen aus Draht {1}',
  '{0}, but {1}.': '{0}, aber {1}.',
  '{0} by itself': '{0} für sich',
  'nothing stated joins them': 'nichts Angegebenes verbindet sie',
  "the coils' own readings make it {0}": 'die eigenen Messwerte der Spulen ergeben {0}',
  '{0} kΩ more than read': '{0}\u202FkΩ mehr als gemessen',
  '{0} kΩ less than read': '{0}\u202FkΩ weniger als gemessen',
  '{0} is {1} kΩ at {2}, {3}': '{0} ist {1}\u202FkΩ bei {2}, {3}',
  "the coils' own readings make it {0} kΩ at {1}, {2}":
    'die eigenen Messwerte der Spulen ergeben {0}\u202FkΩ bei {1}, {2}',
  '{0} read {1} as found, but its turns compute to {2} at {3}: nothing says whether it is still the coil that was found, so the reading is not used.':
    '{0} zeigte wie vorgefunden {1}, aber ihre Windungen ergeben berechnet {2} bei {3}: Nichts sagt, ob es noch die vorgefundene Spule ist, also wird der Messwert nicht verwendet.',
  '{0} read {1} as found, and what its turns would read is not known: nothing says whether it is still the coil that was found, so the reading is not used.':
    '{0} zeigte wie vorgefunden {1}, und was ihre Windungen zeigen würden, ist nicht bekannt: Nichts sagt, ob es noch die vorgefundene Spule ist, also wird der Messwert nicht verwendet.',
  'Most likely the coil was wound anew, and the reading is of the one that came out.':
    'Am wahrscheinlichsten wurde die Spule neu gewickelt, und der Messwert ist von der herausgenommenen.',
  'Say `new` or `kept` in the coil.': 'In der Spule `new` oder `kept` schreiben.',
  'The reading as found': 'Der Messwert wie vorgefunden',
  '{0} is new: the reading is of the one that came out': '{0} ist neu: Der Messwert ist von der herausgenommenen',
  '{0} was kept: the reading is of it': '{0} wurde behalten: Der Messwert ist von ihr',
  '{0} at the jack, but should read {1} with the controls full up.':
    '{0} an der Buchse, sollte aber mit Reglern voll auf {1} zeigen.',
  'Measure again in {0}, controls full up and nothing plugged in but the meter; where it stays so, measure each pickup at its own leads.':
    'Noch einmal messen in {0}, Regler voll auf und nichts eingesteckt außer dem Messgerät; wo es so bleibt, jeden Tonabnehmer an seinen eigenen Litzen messen.',
  '{0} is this': '{0} ist dies',
  '{0} was kept, and as found {1}: over its poles then that is a coil wound {2}, not {3} as stated.':
    '{0} wurde behalten, und wie vorgefunden {1}: Über ihren damaligen Polen ist das eine {2} gewickelte Spule, nicht {3} wie angegeben.',
  '{0} to {1} read {2} on {3}': '{0} gegen {1} zeigte {2} beim {3}',
  'A coil keeps its winding direction whatever becomes of the magnet: it is stated wrong, its start and finish are swapped, or the probes were as it was found.':
    'Eine Spule behält ihre Wickelrichtung, was auch mit dem Magneten geschieht: Sie ist falsch angegeben, Anfang und Ende sind vertauscht, oder die Prüfspitzen waren es damals.',
  'Take a kick at the coil as it is now.': 'Eine Probe mit Stahl an der Spule nehmen, wie sie jetzt ist.',
  'As it was found': 'Wie vorgefunden',
  '{0} is wound {1}': '{0} ist {1} gewickelt',
  'Seen from the strings, the bobbin of {0} turned {1}, which lays the wire {2}, but `wound {3}` is stated.':
    'Von den Saiten gesehen drehte sich der Wickelkörper von {0} {1}, was den Draht {2} legt, aber `wound {3}` ist angegeben.',
  "A spindle's direction is easily written down as the wire's.":
    'Der Drehsinn einer Spindel wird leicht als der des Drahts notiert.',
  'Correct the line that is wrong.': 'Die falsche Zeile berichtigen.',
  'The winding direction as stated': 'Die Wickelrichtung wie angegeben',
  'The spindle turned the other way: `spindle {0}`': 'Die Spindel drehte andersherum: `spindle {0}`',
  'The wire lies the other way: `wound {0}`': 'Der Draht liegt andersherum: `wound {0}`',
  'The compass shows {0} with the other pole up than the bar magnet as stated gives ({1} toward {2}).':
    'Der Kompass zeigt {0} mit dem anderen Pol oben, als der Stabmagnet wie angegeben ergibt ({1} zu {2}).',
  'The kicks show {0} with the other pole up than the bar magnet as stated gives ({1} toward {2}).':
    'Die Proben mit Stahl zeigen {0} mit dem anderen Pol oben, als der Stabmagnet wie angegeben ergibt ({1} zu {2}).',
  'The bar lies the other way round, or the compass was not checked on a known pole.':
    'Der Stab liegt andersherum, oder der Kompass wurde nicht an einem bekannten Pol geprüft.',
  'The bar lies the other way round, or the probes were swapped.':
    'Der Stab liegt andersherum, oder die Prüfspitzen waren vertauscht.',
  'The bar as stated': 'Der Stab wie angegeben',
  'This reading shows the same': 'Dieser Messwert zeigt dasselbe',
  'State the bar as the readings show it': 'Den Stab angeben, wie die Messwerte ihn zeigen',
  'The reading that it contradicts': 'Der Messwert, dem es widerspricht',
  'As stated': 'Wie angegeben',
  'The kick shows the same': 'Die Probe mit Stahl zeigt dasselbe',
  'Take the reading once more before anything is changed.': 'Noch einmal messen, bevor etwas geändert wird.',
  'The compass shows {0} {1}, an earlier compass reading makes it {2}':
    'Der Kompass zeigt {0} mit {1}, ein früherer Kompass ergibt {2}',
  'The compass shows {0} {1}, what is stated makes it {2}': 'Der Kompass zeigt {0} mit {1}, das Angegebene ergibt {2}',
  '{0}; the kick there shows the same.': '{0}; die Probe mit Stahl dort zeigt dasselbe.',
  'The magnet lies the other way round, or the compass was not checked on a known pole.':
    'Der Magnet liegt andersherum, oder der Kompass wurde nicht an einem bekannten Pol geprüft.',
  '{0} to {1} reads {2} on {3} at {4}': '{0} gegen {1} zeigt {2} beim {3} an {4}',
  '{0}, another kick there says the opposite.': '{0}, eine andere Probe dort sagt das Gegenteil.',
  'The probes were swapped, or approach and pull-off mistaken.':
    'Die Prüfspitzen waren vertauscht oder Annähern und Abziehen verwechselt.',
  '{0}; wound {1} and {2}, it must read {3}.': '{0}; {1} gewickelt und {2}, muss es {3} zeigen.',
  'by the compass': 'nach dem Kompass',
  'Hot and ground were swapped since, which `reworks` tells; or the winding direction is wrong, or start and finish are swapped.':
    'Heiß und Masse wurden seither getauscht, was `reworks` sagt; oder die Wickelrichtung ist falsch, oder Anfang und Ende sind vertauscht.',
  'Hot and ground were swapped since, which `reworks` tells; or the winding direction is wrong, or start and finish are swapped, or the poles are the other way.':
    'Heiß und Masse wurden seither getauscht, was `reworks` sagt; oder die Wickelrichtung ist falsch, oder Anfang und Ende sind vertauscht, oder die Pole liegen andersherum.',
  'The compass agrees with the magnet, so the winding direction is wrong, or start and finish are swapped.':
    'Der Kompass stimmt mit dem Magneten überein, also ist die Wickelrichtung falsch, oder Anfang und Ende sind vertauscht.',
  'The winding direction or the poles are the other way, or start and finish are swapped.':
    'Die Wickelrichtung oder die Pole sind andersherum, oder Anfang und Ende sind vertauscht.',
  'State the poles of {0} as the compass shows them': 'Die Pole von {0} angeben, wie der Kompass sie zeigt',
  '{0}: say so, and swap its leads in the hookup': '{0}: so angeben und ihre Litzen in `hookup` tauschen',
  'Start and finish of {0} are swapped: say so, and swap its leads in the hookup':
    'Anfang und Ende von {0} sind vertauscht: so angeben und ihre Litzen in `hookup` tauschen',
  'The poles of {0} are the other way up': 'Die Pole von {0} liegen andersherum',
} as const;
