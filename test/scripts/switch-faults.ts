/**
 * Random single faults in wirings that do what they should: how many are found at their end, and how long it takes. `npx tsx
 * test/scripts/switch-faults.ts [count] [seed]`.
 */
import { soughtFaults } from '../physics/switching/random-faults.ts';

const [count = '200', seed = '20268'] = process.argv.slice(2);
const sought = soughtFaults(Number(count), Number(seed));
const missed = sought.filter(({ isFound }) => !isFound);
const times = sought.map(({ milliseconds }) => milliseconds).sort((a, b) => a - b);
const at = (share: number) => (times[Math.floor(share * (times.length - 1))] ?? 0).toFixed(0);
console.log(
  `${sought.length - missed.length} of ${sought.length} faults found at their end; ${Math.max(...sought.map(({ terminals }) => terminals))} terminals at most`,
);
console.log(`ms of processor time: median ${at(0.5)}, nine in ten below ${at(0.9)}, slowest ${at(1)}`);
for (const { id, fault } of missed) console.log(`not found: ${id} ${fault}`);
