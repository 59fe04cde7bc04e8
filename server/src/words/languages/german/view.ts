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
} as const;
