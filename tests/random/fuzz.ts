import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { comparePlan, newTally, type Tally } from './compare.ts';

/** `npm run fuzz -- --cases 1000000 --seed 1`: measures random plans and counts what is wrong; exit status 1 unless nothing is. */
const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    from: { type: 'string' },
    step: { type: 'string', default: '1' },
  },
});
const cases = Number(values.cases);
const seed = Number(values.seed);

if (values.from === undefined) await runAll();
else runShare(Number(values.from), Number(values.step));

/** Every step-th plan from the given one on; the tally goes to standard output. */
function runShare(from: number, step: number): void {
  const tally = newTally();
  for (let i = from; i < cases; i += step) {
    comparePlan(seed, i, tally);
    if (tally.plans % 5000 === 0) process.stderr.write('.');
  }
  process.stdout.write(JSON.stringify(tally));
}

/** One process a processor. */
async function runAll(): Promise<void> {
  const step = availableParallelism();
  const shares = await Promise.all(Array.from({ length: step }, (_, from) => share(from, step)));
  const total = newTally();
  for (const s of shares) {
    for (const key of Object.keys(total) as Array<keyof Tally>) {
      if (key === 'faults') total.faults.push(...s.faults);
      else total[key] = key === 'largest' ? Math.max(total.largest, s.largest) : total[key] + s[key];
    }
  }
  for (const fault of total.faults) process.stdout.write(`\n${fault}`);
  process.stdout.write(`
${total.plans} plans, seed ${seed}
JSTS answered ${total.jstsAnswered}, of which it differs from the scanbeam reference on ${total.jstsDiffers}
largest difference from the reference ${total.largest.toExponential(2)} m², always within the stated bound
zones on which polygon-clipping disagreed ${total.disagreed}, sums that do not hold ${total.unbalanced}
wrong areas ${total.wrong}, thrown errors ${total.thrown}
`);
  process.exitCode = total.wrong + total.thrown + total.unbalanced + total.disagreed === 0 ? 0 : 1;
}

function share(from: number, step: number): Promise<Tally> {
  const args = [
    '--import',
    'tsx',
    fileURLToPath(import.meta.url),
    '--cases',
    `${cases}`,
    '--seed',
    `${seed}`,
  ];
  const child = spawn(process.execPath, [...args, '--from', `${from}`, '--step', `${step}`], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let text = '';
  child.stdout.on('data', (chunk) => {
    text += chunk;
  });
  return new Promise((resolve, reject) => {
    child.on('close', (code) => {
      if (code === 0) resolve(JSON.parse(text));
      else reject(new Error(`a share of the plans ended with ${code}`));
    });
  });
}
