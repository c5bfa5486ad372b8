import { parseArgs } from 'node:util';
import { crash } from './crash.ts';

const { values } = parseArgs({
  options: { rounds: { type: 'string', default: '1000' }, keep: { type: 'string' } },
});
const tally = await crash(Number(values.rounds), console.log, values.keep ?? null);
console.log(
  `${tally.rounds} kills, ${tally.steps} steps: ${tally.whole} came back whole, ${tally.lastMissing} without the last step, ${tally.lost} lost more; the browser threw its store away ${tally.thrownAway} times`,
);
process.exitCode = tally.lost === 0 ? 0 : 1;
