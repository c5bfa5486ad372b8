import { useEffect, useState } from 'react';
import type { Rollout } from '../days/rollout/rollout.ts';
import { peopleWords, rushedWords, worstLaps } from '../days/rollout/words.ts';
import type { Id } from '../job/types.ts';
import { areaNumber, areaUnit, lengthNumber, lengthUnit, type UnitSystem } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import { Choice, Section } from './fields.tsx';

/** The order of rolling, one slab at a time: shown on the board as numbered bays, to be played or stepped through. */
export function RolloutSection(props: {
  readonly rollouts: readonly Rollout[];
  readonly units: UnitSystem;
  readonly shown: { readonly slabId: Id; readonly step: number } | null;
  readonly onShow: (shown: { readonly slabId: Id; readonly step: number } | null) => void;
}) {
  const { rollouts, shown, units, onShow } = props;
  if (rollouts.length === 0) return null;
  const rollout = rollouts.find((r) => r.slabId === shown?.slabId) ?? null;
  return (
    <Section title={tr`Order of rolling`}>
      <p className="dim">{tr`Mark the ways out along the edges of a slab, in its form under Zones. Bays are as large as one person rolls while the edge is wet, but none too small to number; whoever rolls them can always step off over unpainted ground.`}</p>
      <Choice
        label={tr`Show on the board`}
        value={rollout?.slabId ?? ''}
        options={[['', tr`nothing`], ...rollouts.map((r) => [r.slabId, r.name] as const)]}
        onChange={(slabId) => onShow(slabId === '' ? null : { slabId, step: 0 })}
      />
      {rollout && <Steps {...props} rollout={rollout} step={shown!.step} />}
      {rollout && !rollout.problem && (
        <div className="scroll">
          <table className="totals">
            <thead>
              <tr>
                <th scope="col">{tr`Bay`}</th>
                <th scope="col" className="num">
                  {areaUnit(units)}
                </th>
                <th scope="col" className="num">{tr`Cut in ${lengthUnit(units)}`}</th>
                <th scope="col" className="num">{tr`Cut min`}</th>
                <th scope="col" className="num">{tr`Roll min`}</th>
                <th scope="col">{tr`People`}</th>
              </tr>
            </thead>
            <tbody>
              {rollout.bays.map((b) => (
                <tr key={b.number} className={b.number === shown!.step ? 'chosen' : ''}>
                  <th scope="row">{b.number}</th>
                  <td className="num">{areaNumber(b.areaM2, units)}</td>
                  <td className="num">{lengthNumber(b.cutInM, units)}</td>
                  <td className="num">{b.cutMin.toFixed(0)}</td>
                  <td className="num">{b.rollMin.toFixed(0)}</td>
                  <td>{peopleWords(b)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </Section>
  );
}

/** Milliseconds that a bay is shown for while it plays. */
const BEAT_MS = 700;

function Steps(props: {
  readonly rollout: Rollout;
  readonly step: number;
  readonly onShow: (shown: { readonly slabId: Id; readonly step: number } | null) => void;
}) {
  const { rollout, step, onShow } = props;
  const { slabId, bays } = rollout;
  const [playing, setPlaying] = useState(false);
  useEffect(() => {
    if (!playing) return;
    const timer = setTimeout(() => {
      if (step >= bays.length + 1) setPlaying(false);
      else onShow({ slabId, step: step + 1 });
    }, BEAT_MS);
    return () => clearTimeout(timer);
  }, [playing, step, slabId, bays.length, onShow]);
  if (rollout.problem) return <p className="wrong">{rollout.problem}</p>;
  const last = bays[bays.length - 1]!;
  const laps = worstLaps(rollout.coldLaps);
  const listed = laps.worst.map((l) => `${l.first}–${l.second} (${Math.round(l.ageMin)} min)`).join(', ');
  return (
    <>
      <p>{tr`${bays.length} bays in ${Math.ceil(last.endMin)} minutes a coat, off over ${rollout.exits.join(', ')}${rollout.exitsSaid ? '' : tr` (nobody marked a way out; taken from what stands there)`}. The edge stays wet for ${rollout.wetEdgeMin.toFixed(0)} minutes.`}</p>
      <div className="scrub">
        <button
          type="button"
          onClick={() => {
            if (step > bays.length) onShow({ slabId, step: 0 });
            setPlaying(!playing);
          }}
        >
          {playing ? tr`Hold` : tr`Play`}
        </button>
        <label>
          <span className="unseen">{tr`Bay being rolled`}</span>
          <input
            type="range"
            min={0}
            max={bays.length + 1}
            value={step}
            aria-valuetext={stepWords(step, bays.length)}
            onChange={(e) => {
              setPlaying(false);
              onShow({ slabId, step: Number(e.target.value) });
            }}
          />
        </label>
        <span>{stepWords(step, bays.length)}</span>
      </div>
      {rollout.rushed && <p className="dim">{rushedWords()}</p>}
      {laps.worst.length > 0 && (
        <p className="dim">{tr`Some edges have set, after ${rollout.wetEdgeMin.toFixed(0)} minutes, before the next bay meets them: bays ${laps.more > 0 ? tr`${listed} and ${laps.more} more` : listed}. Put them on joints, or work with more people.`}</p>
      )}
    </>
  );
}

const stepWords = (step: number, bays: number): string =>
  step === 0 ? tr`all bays` : step > bays ? tr`done, and off` : tr`bay ${step} of ${bays}`;
