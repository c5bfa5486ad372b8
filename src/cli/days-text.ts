import { isoHour, tomorrow } from '../days/clock.ts';
import type { DayPlan } from '../days/plan.ts';
import { rushedWords } from '../days/rollout/words.ts';
import type { Results } from '../results.ts';
import { tr } from '../words/tr.ts';

const LETTER = { go: '#', wait: '.', no: '-' } as const;

/** The day plan and the order of rolling for a terminal. */
export function daysText({ job, days, rollouts }: Results): string {
  const lines = [job.name, ''];
  if (days) lines.push(...planText(days));
  for (const r of rollouts) {
    lines.push('', tr`Rolling “${r.name}”`);
    if (r.problem) {
      lines.push(`  ${r.problem}`);
      continue;
    }
    lines.push(
      tr`  off over ${r.exits.join(', ')}${r.exitsSaid ? '' : tr` (nobody marked a way out; taken from what stands there)`}`,
    );
    for (const b of r.bays) {
      lines.push(
        tr`  ${String(b.number).padStart(3)}  ${b.areaM2.toFixed(1).padStart(5)} m²  ${b.cutInM.toFixed(1).padStart(5)} m cut in ${b.cutMin.toFixed(0).padStart(3)} min, rolled ${b.rollMin.toFixed(0).padStart(3)} min, from minute ${b.startMin.toFixed(0)}${b.late ? tr`, two people and still late` : b.people === 2 ? tr`, two people` : ''}`,
      );
    }
    if (r.rushed) lines.push(`  ${rushedWords()}`);
    for (const l of r.coldLaps) {
      lines.push(
        tr`  The edge between ${l.first} and ${l.second} is ${l.ageMin.toFixed(0)} min old when they meet, past its ${r.wetEdgeMin.toFixed(0)}: put it on a joint.`,
      );
    }
  }
  return lines.join('\n');
}

function planText(days: DayPlan): string[] {
  const lines = [tr`Weather: ${days.weather.name}, ${days.weather.latitude}°, ${days.weather.longitude}°`];
  for (const strip of days.strips) {
    lines.push('', tr`${strip.product.name} (# go, . wait, - no)`);
    for (let i = 0; i < days.climate.length; ) {
      const date = days.climate[i]!.hour.at.slice(0, 10);
      const next = days.climate.findIndex((h) => h.hour.at >= tomorrow(date));
      const end = next < 0 ? days.climate.length : next;
      const first = isoHour(days.climate[i]!.hour.at);
      const day = strip.verdicts.slice(i, end);
      const refusal = day.find(
        (v, k) => v.go !== 'go' && isoHour(days.climate[i + k]!.hour.at) >= 12 && v.code !== 'dark',
      );
      lines.push(
        `  ${date} ${' '.repeat(first)}${day.map((v) => LETTER[v.go]).join('')}${refusal ? tr`  afternoon: ${refusal.reason}` : ''}`,
      );
      i = end;
    }
  }
  lines.push('');
  if (days.problem) return [...lines, days.problem];
  for (const t of days.tasks) {
    lines.push(`${t.startAt.replace('T', ' ')} – ${t.endAt.replace('T', ' ')}  ${t.slabName}: ${t.name}`);
  }
  lines.push(
    '',
    tr`Done by ${days.finishAt!.replace('T', ' ')}${days.exact ? tr`; no other order of these pieces of work ends earlier` : tr`; a better order may exist`}.`,
  );
  for (const r of days.reopenings) {
    lines.push(
      tr`${r.slabName}: feet from ${r.feetAt?.replace('T', ' ') ?? tr`after the weather known ends`}, vehicles from ${r.vehiclesAt?.replace('T', ' ') ?? tr`after the weather known ends`}; estimates, and never before the label’s time.`,
    );
  }
  return [...lines, ...days.shorter];
}
