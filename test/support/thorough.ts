/** How many are tried of what is made by chance: enough for each run of the tests; with THOROUGH=5 in the environment five times as many. */
export const thorough = (count: number): number => count * Number(process.env.THOROUGH ?? 1);
