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
  'The hum of {0} adds': 'Der Brumm von {0} addiert sich',
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
  "In {0} hum cancels only in part: {1} of the strongest coil's hum in the same place is left by the best estimate ({2} at one standard deviation).":
    'In {0} hebt sich Brumm nur teilweise auf: Von dem der stärksten Spule am selben Ort bleiben nach bester Schätzung {1} ({2} bei einer Standardabweichung).',
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
  'In {0} hum cancels in part: {1}.': 'In {0} hebt sich Brumm teilweise auf: {1}.',
  '{0} hums: {1}.': '{0} brummt: {1}.',
  '{0} turn the same way round': '{0} laufen gleich herum',
  'what turns against {0} is too weak': 'was gegen {0} läuft, ist zu schwach',
  'Take {0} in place of {1}, and hum cancels.': '{0} statt {1} nehmen, und Brumm hebt sich auf.',
  'Take {0} in place of {1}, and hum is {2} dB less.': '{0} statt {1} nehmen, und Brumm ist {2}\u202FdB kleiner.',
  'Take {0} in place of {1}, and hum is less.': '{0} statt {1} nehmen, und Brumm ist kleiner.',
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

  // Circuits, leads and metal.
  'no lead is hot': 'keine Litze ist heiß',
  'no lead is ground': 'keine Litze ist Masse',
  'no path leads from hot {0} to ground {1}': 'kein Weg führt von heiß {0} nach Masse {1}',
  'The pickup is silent: {0}.': 'Der Tonabnehmer ist stumm: {0}.',
  'The pickup is silent: {0}; {1} are joined to nothing.':
    'Der Tonabnehmer ist stumm: {0}; {1} sind mit nichts verbunden.',
  'The pickup is silent: {0}; {1} is joined to nothing.':
    'Der Tonabnehmer ist stumm: {0}; {1} ist mit nichts verbunden.',
  'Say which lead is hot.': 'Angeben, welche Litze heiß ist.',
  'Say which lead is ground.': 'Angeben, welche Litze Masse ist.',
  'Follow the path from hot through the coils to ground, and join it where it ends.':
    'Den Weg von heiß durch die Spulen nach Masse verfolgen und dort verbinden, wo er endet.',
  '{0} leaves the pickup here and is joined to nothing':
    '{0} verlässt hier den Tonabnehmer und ist mit nichts verbunden',
  'Join them: `{0}`': 'Verbinden: `{0}`',
  '{0} is silent: nothing of what it names drives the output.':
    '{0} ist stumm: Nichts von dem, was sie nennt, treibt den Ausgang.',
  'Take a pickup or a coil whose two ends reach hot and ground.':
    'Einen Tonabnehmer oder eine Spule nehmen, deren zwei Enden heiß und Masse erreichen.',
  'In {0} {1} gives nothing: no coil is soldered to {2} of {3}.':
    'In {0} gibt {1} nichts: An {2} von {3} ist keine Spule gelötet.',
  'In {0} {1} gives nothing: which leads are those of {2} is neither stated nor measured.':
    'In {0} gibt {1} nichts: Welche Litzen die von {2} sind, ist weder angegeben noch gemessen.',
  'Solder an end or a tap of a coil to it, or take another lead.':
    'Ein Ende oder einen Abgriff einer Spule daran löten oder eine andere Litze nehmen.',
  'State the start and the finish of that coil, or find them by a kick.':
    'Anfang und Ende dieser Spule angeben oder mit einer Probe mit Stahl finden.',
  'Both ends of {0} ({1}) are joined, so it is shorted and only {2} sounds.':
    'Beide Enden von {0} ({1}) sind verbunden, also ist sie kurzgeschlossen, und nur {2} klingt.',
  'Both ends of {0} ({1}) are joined, so it is shorted and gives nothing.':
    'Beide Enden von {0} ({1}) sind verbunden, also ist sie kurzgeschlossen und gibt nichts.',
  'Give the two ends joints of their own.': 'Den zwei Enden eigene Lötstellen geben.',
  'Part them: `{0}` and `{1}`': 'Trennen: `{0}` und `{1}`',
  '{0} lies in two joints': '{0} liegt in zwei Lötstellen',
  '{0} would be hot': '{0} wäre heiß',
  'Hot and ground are joined, so the pickup is silent; {0}.':
    'Heiß und Masse sind verbunden, also ist der Tonabnehmer stumm; {0}.',
  'Hot and ground are joined, so the pickup is silent.':
    'Heiß und Masse sind verbunden, also ist der Tonabnehmer stumm.',
  'Take out the joint, or the lead in a joint, that brings the two together.':
    'Die Lötstelle herausnehmen oder die Litze in einer Lötstelle, die die beiden zusammenbringt.',
  '{0} joins the same net': '`{0}` verbindet dasselbe Netz',
  'Take out `{0}`': '`{0}` herausnehmen',
  'Take {0} off: `{1}`': '{0} ablöten: `{1}`',
  '{0} is silent: hot and ground are joined because {1} is taken at a lead that lies on its ground.':
    '{0} ist stumm: Heiß und Masse sind verbunden, weil {1} an einer Litze genommen wird, die an Masse liegt.',
  '{0} is silent: hot and ground are joined as it joins its parts.':
    '{0} ist stumm: Heiß und Masse sind verbunden, so wie sie ihre Teile verbindet.',
  'Take it at a lead between its coils.': 'An einer Litze zwischen seinen Spulen nehmen.',
  'Leave out the part that joins hot to ground.': 'Den Teil weglassen, der heiß mit Masse verbindet.',
  'The foil of {0} is joined to nothing: it shields nothing.':
    'Die Folie von {0} ist mit nichts verbunden: Sie schirmt nichts ab.',
  'The {0} is joined to nothing: it shields nothing and buzzes when touched.':
    '{0} ist mit nichts verbunden: schirmt nichts ab und schnarrt beim Berühren.',
  'Tie it to what is grounded.': 'Mit dem verbinden, was an Masse liegt.',
  'Ground it: `{0}`': 'An Masse legen: `{0}`',
  'Tie it to {0}: `{1}`': 'Verbinden mit {0}: `{1}`',
  '{0} lies on {1}: {2}.': '{0} liegt an {1}: {2}.',
  '{0} lie on {1}: {2}.': '{0} liegen an {1}: {2}.',
  'the middle of the circuit': 'der Mitte der Schaltung',
  'touching it hums, and metal against grounded foil silences the pickup':
    'Berühren brummt, und Metall an geerdeter Folie macht den Tonabnehmer stumm',
  'touching them hums, and metal against grounded foil silences the pickup':
    'Berühren brummt, und Metall an geerdeter Folie macht den Tonabnehmer stumm',
  'it carries hum in instead of keeping it off, and grounded metal against it silences the pickup':
    'sie trägt Brumm hinein, statt ihn abzuhalten, und geerdetes Metall daran macht den Tonabnehmer stumm',
  'they carry hum in instead of keeping it off, and grounded metal against them silences the pickup':
    'sie tragen Brumm hinein, statt ihn abzuhalten, und geerdetes Metall daran macht den Tonabnehmer stumm',
  'Take it to ground.': 'An Masse legen.',
  'Take them to ground.': 'Alle an Masse legen.',
  'the shield {0}': 'Schirm {0}',
  'the {0}': '{0}',
  'the foil of {0}': 'Folie von {0}',
  '{0} is on that net': '{0} liegt an diesem Netz',
  '{0}, and {1} to keep the phase': '{0}, und {1}, damit die Phase bleibt',
  '{0} is joined to nothing: no coil is soldered to it and the hookup does not name it; an open end picks up noise.':
    '{0} ist mit nichts verbunden: Keine Spule ist daran gelötet, und `hookup` nennt sie nicht; ein offenes Ende fängt Störungen ein.',
  '{0} is joined to nothing: the hookup does not name it; an open end picks up noise.':
    '{0} ist mit nichts verbunden: `hookup` nennt sie nicht; ein offenes Ende fängt Störungen ein.',
  'Name it in a joint, or tape it off or take it to the switch (`{0}`).':
    'In einer Lötstelle nennen, isolieren oder zum Schalter führen (`{0}`).',
  'Tape it off: `{0}`': 'Isolieren: `{0}`',
  'Two parts bring out a lead called {0}, so a joint that names it could mean either.':
    'Zwei Teile führen eine Litze namens {0} heraus, also könnte eine Lötstelle, die sie nennt, jede meinen.',
  '{0} is named in two joints; a lead is soldered once, or the two joints are one.':
    '{0} ist in zwei Lötstellen genannt; eine Litze wird einmal gelötet, oder die zwei Lötstellen sind eine.',
  'Name the ends of the coils in its place.': 'An ihrer Stelle die Enden der Spulen nennen.',
  'The cable and the coils both bring out {0}, so a joint that names one could mean either.':
    'Kabel und Spulen führen beide {0} heraus, also könnte eine Lötstelle, die eine davon nennt, jede meinen.',
  'Where the end of the coil is soldered to that lead of the cable, say so (`{0}`); where it leaves the pickup by itself, the cable has none of that name.':
    'Wo das Ende der Spule an diese Litze des Kabels gelötet ist, das schreiben (`{0}`); wo es selbst herausführt, hat das Kabel keine dieses Namens.',
  'Soldered to the cable: {0}': 'Ans Kabel gelötet: {0}',
  'Name it in one of them, or make one joint of the two.':
    'In einer davon nennen oder aus beiden eine Lötstelle machen.',
  '{0} for the first time': '{0} zum ersten Mal',
  'Name the ends: {0}': 'Die Enden nennen: {0}',
  'No part of this pickup brings out {0}: what leaves it is {1}.':
    'Kein Teil dieses Tonabnehmers führt {0} heraus: Heraus führen {1}.',
  'No part of this pickup brings out {0}: no lead leaves it.':
    'Kein Teil dieses Tonabnehmers führt {0} heraus: Keine Litze führt heraus.',
  'Name one of these, or say which part brings out {0}.':
    'Eine davon nennen oder angeben, welches Teil {0} herausführt.',
  'Say which end of a coil it is, or which conductor.': 'Angeben, welches Ende einer Spule oder welche Ader es ist.',
  '{0} is named here too': '{0} ist auch hier genannt',
  'Change to `{0}`': 'In `{0}` ändern',

  // What fits, and levels.
  '{0} is about {1} dB quieter than {2}, by turns and load alone: switching will be heard as a jump.':
    '{0} ist etwa {1}\u202FdB leiser als {2}, allein nach Windungen und Last: Das Umschalten wird als Sprung zu hören sein.',
  '{0} is about {1} dB louder than {2}, by turns and load alone: switching will be heard as a jump.':
    '{0} ist etwa {1}\u202FdB lauter als {2}, allein nach Windungen und Last: Das Umschalten wird als Sprung zu hören sein.',
  'Bring the levels together, or say `on purpose` behind the position.':
    'Die Pegel angleichen oder hinter die Schalterstellung `on purpose` schreiben.',
  '{0} is the neighbour': '{0} ist die benachbarte',
  '{0} is a pickup for {1} strings, the instrument has {2}: some strings find no pole, or some poles no string.':
    '{0} ist ein Tonabnehmer für {1} Saiten, das Instrument hat {2}: Saiten liegen über keinem Pol oder Pole unter keiner Saite.',
  'Take a pickup for {0} strings, or correct the number that is stated wrongly.':
    'Einen Tonabnehmer für {0} Saiten nehmen oder die falsch angegebene Zahl berichtigen.',
  'strings of the pickup': 'Saiten des Tonabnehmers',
  'strings of the instrument': 'Saiten des Instruments',
  'The outer poles of {0} lie {1} mm outside the outer strings: {2} mm from first to last pole, where the strings are {3} mm apart.':
    'Die äußeren Pole von {0} liegen {1}\u202Fmm außerhalb der äußeren Saiten: {2}\u202Fmm vom ersten bis zum letzten Pol, wo die Saiten {3}\u202Fmm auseinander liegen.',
  'The outer poles of {0} lie {1} mm inside the outer strings: {2} mm from first to last pole, where the strings are {3} mm apart.':
    'Die äußeren Pole von {0} liegen {1}\u202Fmm innerhalb der äußeren Saiten: {2}\u202Fmm vom ersten bis zum letzten Pol, wo die Saiten {3}\u202Fmm auseinander liegen.',
  'More than {0} mm leaves those strings weak.': 'Mehr als {0}\u202Fmm macht diese Saiten schwach.',
  'Take bobbins with the spread of the strings at this place.':
    'Wickelkörper mit dem Saitenabstand an diesem Platz nehmen.',
  'the spread of the poles': 'der Abstand der Pole',
  'the spread of the strings': 'der Abstand der Saiten',
  'The {0} control of {1} is only {2} times the {3} of {4}.':
    'Der Regler für {0} mit {1} hat nur das {2}-fache der {3} von {4}.',
  'With less than about {0} times, the other pickup stays heard at the end of the travel.':
    'Unter etwa dem {0}-fachen bleibt der andere Tonabnehmer am Ende des Wegs hörbar.',
  'Less than about {0} times loads the pickup: the peak flattens and the treble falls.':
    'Weniger als etwa das {0}-fache belastet den Tonabnehmer: Die Überhöhung wird flach, und die Höhen fallen ab.',
  'Take a pot of {0} or more.': 'Einen Regler von {0} oder mehr nehmen.',

  // Windings, targets and potting.
  '{0} take {1} of wire, {2}; spool {3} has {4} left: it runs out before the last turn.':
    '{0} brauchen {1} Draht, {2}; auf Drahtrolle {3} sind {4}: Sie ist vor der letzten Windung leer.',
  '{0} takes {1} of wire, {2}; spool {3} has {4} left: it runs out before the last turn.':
    '{0} braucht {1} Draht, {2}; auf Drahtrolle {3} sind {4}: Sie ist vor der letzten Windung leer.',
  'Begin on a fuller spool.': 'Mit einer volleren Drahtrolle beginnen.',
  'What is left on the spool': 'Der Rest auf der Drahtrolle',
  'A bath of {0} is too hot: {1}.': 'Ein Bad von {0} ist zu heiß: {1}.',
  'Hot wax can catch fire: never unattended, a lid and a dry-powder extinguisher at hand, never water.':
    'Heißes Wachs kann Feuer fangen: nie unbeaufsichtigt, Deckel und Pulverlöscher zur Hand, nie Wasser.',
  'Lower the bath.': 'Das Bad kühler halten.',
  'Lower the bath, or try it on a scrap bobbin first.':
    'Das Bad kühler halten oder es erst an einem Ausschuss-Wickelkörper probieren.',
  'The plastic of the bobbin': 'Der Kunststoff des Wickelkörpers',
  'Lower the bath: `{0}`': 'Das Bad kühler halten: `{0}`',
  'A bath of {0} does not melt the main wax of the mix: its softest grade melts at {1}.':
    'Ein Bad von {0} schmilzt das Hauptwachs der Mischung nicht: Seine weichste Sorte schmilzt bei {1}.',
  'Warm the bath, or take a softer wax.': 'Das Bad wärmer halten oder ein weicheres Wachs nehmen.',
  'The parts of the mix sum to {0}, not 100 %: {1}; what to weigh out stays open.':
    'Die Anteile der Mischung ergeben {0}, nicht 100\u202F%: {1}; was abzuwiegen ist, bleibt offen.',
  'Correct the part that is wrong.': 'Den falschen Anteil berichtigen.',
  'The unloaded response has no peak: there is none that could reach the target of {0}.':
    'Der Frequenzgang ohne Last hat keine Spitze: Keine kann das Ziel {0} erreichen.',
  'The loaded response has no peak: there is none that could reach the target of {0}.':
    'Der Frequenzgang unter Last hat keine Spitze: Keine kann das Ziel {0} erreichen.',
  'Thinner metal about the coils, or metal that conducts less, brings a peak back; under a load larger pots do, too.':
    'Dünneres Metall um die Spulen oder Metall, das weniger leitet, bringt eine Spitze zurück; unter Last auch größere Regler.',
  'The {0} comes to {1}, {2} above the target of {3}: turns, wire or target are not what was meant.':
    '{0} ergibt {1}, {2} über dem Ziel {3}: Windungen, Draht oder Ziel sind nicht, was gemeint war.',
  'The {0} comes to {1}, {2} below the target of {3}: turns, wire or target are not what was meant.':
    '{0} ergibt {1}, {2} unter dem Ziel {3}: Windungen, Draht oder Ziel sind nicht, was gemeint war.',
  'Wind the turns that reach it: {0}': 'Die Windungen wickeln, die es erreichen: {0}',

  'Whether the target of {0} is reached is not decidable within the uncertainty: the {1} comes to {2}, within the tolerance with odds of {3}.':
    'Ob das Ziel {0} erreicht wird, ist innerhalb der Unsicherheit nicht zu entscheiden: {1} ergibt {2}, innerhalb der Toleranz mit einer Chance von {3}.',
  '{0}: that settles it sooner than anything else.': '{0}: Das klärt es eher als alles andere.',
  'Read it once it is wound.': 'Messen, wenn gewickelt ist.',
  'of {0} wire': 'mit Draht von {0}',
  'at packing {0}': 'bei Füllung {0}',
  '{0} build {1} deep, the window of {2} has {3} ({4}): the flanges bulge or the last turns fall over them.':
    '{0} bauen {1} tief, das Wickelfenster von {2} hat {3} ({4}): Die Flansche wölben sich, oder die letzten Windungen fallen darüber.',
  '{0} build {1} deep, the window of {2} has {3} ({4}): it may just go in, and it may bulge the flanges.':
    '{0} bauen {1} tief, das Wickelfenster von {2} hat {3} ({4}): Es kann gerade hineingehen, und es kann die Flansche wölben.',
  'Wind fewer turns, or take thinner wire or a deeper bobbin.':
    'Weniger Windungen wickeln oder dünneren Draht oder einen tieferen Wickelkörper nehmen.',
  'Its bobbin': 'Ihr Wickelkörper',
  '{0}: match {1} by turns, `{2}`': '{0}: in Windungen an {1} angleichen, `{2}`',
  'Wind what the window holds, `{0}`': 'Wickeln, was das Wickelfenster fasst, `{0}`',
  '{0} has neither turns nor a reading of it.': '{0} hat weder Windungen noch einen Messwert.',
  'Reading {0} between its ends is not used: as found, the coils may have been joined otherwise.':
    'Der Messwert {0} zwischen ihren Enden zählt nicht: Im vorgefundenen Zustand können die Spulen anders verbunden gewesen sein.',
  'If nothing joined them, say `readings found apart`; if it is of this coil alone, name it: `{0}`.':
    'Wenn nichts sie verband, `readings found apart` schreiben; wenn der Wert dieser Spule allein gilt, sie nennen: `{0}`.',
  'Kick the pairs that were read at its poles (`{0}`, else {1}): the one that answers is its own, and its turns follow from its reading.':
    'An den gemessenen Paaren die Probe mit Stahl an ihren Polen (`{0}`, sonst {1}): Das Paar, das antwortet, ist ihres, und ihre Windungen folgen aus seinem Messwert.',
  'Kick the pairs that were read at its poles (`{0}`): the one that answers is its own, and its turns follow from its reading.':
    'An den gemessenen Paaren die Probe mit Stahl an ihren Polen (`{0}`): Das Paar, das antwortet, ist ihres, und ihre Windungen folgen aus seinem Messwert.',
  'Read its resistance with the temperature (`{0}` in a readings block), and the turns follow from wire and bobbin.':
    'Ihren Widerstand mit der Temperatur messen (`{0}` in einem Block `readings`); die Windungen folgen aus Draht und Wickelkörper.',
  'The target of {0} takes {1} ({2}); {3}.': 'Das Ziel {0} braucht {1} ({2}); {3}.',
  'Plan them: `{0}`.': 'Sie planen: `{0}`.',
  'Take thinner wire or a deeper bobbin, or aim at less; these turns would be `{0}`.':
    'Dünneren Draht oder einen tieferen Wickelkörper nehmen oder weniger anstreben; diese Windungen wären `{0}`.',
  'Wind for the target: `{0}`': 'Für das Ziel wickeln: `{0}`',
  'Free are its {0}: `Propose Builds` here or at the target, and `pickup-spec propose`, work out what reaches the target with what lies on the shelf.':
    'Frei sind {0}: Der Befehl `Propose Builds` hier oder am Ziel und `pickup-spec propose` finden, was mit dem Regal das Ziel erreicht.',
  'wire {0}': 'Draht {0}',
  '{0}; spool {1} is not weighed: state what is `left`':
    '{0}; Drahtrolle {1} ist nicht gewogen: mit `left` angeben, was darauf ist',
  '{0}; spool {1} has {2} left': '{0}; auf Drahtrolle {1} sind {2}',
  '{0}; spool {1} has {2} left, enough': '{0}; auf Drahtrolle {1} sind {2}, genug',
  '{0}; spool {1} has {2} left, not enough: it runs out before the last turn':
    '{0}; auf Drahtrolle {1} sind {2}, nicht genug: Sie ist vor der letzten Windung leer',
} as const;
