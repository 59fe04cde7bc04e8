/** Where the pots stand, for commands that compute a selector position. */
const stands = (control: string) =>
  ({
    type: 'number',
    value: '0..10',
    min: 0,
    max: 10,
    meaning: `where the ${control} controls stand; 10 unless given`,
  }) as const;

export const POT_OPTIONS = { volume: stands('volume'), tone: stands('tone') } as const;
