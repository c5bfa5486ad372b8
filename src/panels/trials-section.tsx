import { useState } from 'react';
import { multiplierOf, trialShows } from '../coating/multipliers.ts';
import { sandPatchOf } from '../coating/sand-patch.ts';
import { COAT_NAMES } from '../coating/systems/system.ts';
import { TEXTURE_NAMES } from '../coating/values.ts';
import type { Edit } from '../job/edits/index.ts';
import type { Id, Job, Texture } from '../job/types.ts';
import type { Results } from '../results.ts';
import { areaText, volumeNumber, volumeUnit } from '../units/format.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { Drawer } from './drawer.tsx';
import { Choice, NumberField, Section, Working } from './fields.tsx';
import { rich } from './rich.tsx';
import { TEXTURE_OPTIONS } from './words.ts';

/** Paint used on a test patch or a finished zone, and what the texture multipliers learn from it. */
export function TrialsSection(props: {
  readonly results: Results;
  readonly newId: (prefix: string) => Id;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { job } = props.results;
  const trials = Object.values(job.trials ?? {});
  return (
    <Section title={tr`Learn from paint used`}>
      <p className="dim">{tr`No published table says how much more a rough floor takes. Write down what a test patch or a finished zone took, and the multiplier of its texture moves towards it, here and in later jobs on this device.`}</p>
      {trials.length > 0 && (
        <ul className="rows">
          {trials.map((t) => (
            <li key={t.id}>
              <span>{tr`${TEXTURE_NAMES[t.texture]}, ${t.coat === 'first' ? tr`first coat` : tr`later coat`}: ${volumeNumber(t.usedL, job.settings.units)} ${volumeUnit(job.settings.units)} on ${areaText(t.areaM2, job.settings.units)} ${shownWords(trialShows(job, t))}`}</span>
              <button
                type="button"
                onClick={() => props.onChange([{ type: 'remove-trial', args: { trialId: t.id } }])}
              >{tr`Strike out`}</button>
            </li>
          ))}
        </ul>
      )}
      <Learnt job={job} onWorking={props.onWorking} />
      <TrialForm {...props} />
      <SandPatchForm {...props} job={job} />
    </Section>
  );
}

const shownWords = (k: Quantity | null): string =>
  k
    ? tr`shows a multiplier of ${k.value.toFixed(2)}`
    : tr`is less than the pores alone take: look at it again`;

function Learnt(props: { readonly job: Job; readonly onWorking: (q: Quantity) => void }) {
  const { job } = props;
  const kinds = new Map(
    Object.values(job.trials ?? {}).map((t) => [
      `${t.texture} ${t.coat}`,
      { texture: t.texture, coat: t.coat },
    ]),
  );
  if (kinds.size === 0) return null;
  return (
    <table className="totals">
      <thead>
        <tr>
          <th scope="col">{tr`Texture and coat`}</th>
          <th scope="col" className="num">{tr`Multiplier now`}</th>
          <th scope="col" className="num">
            ± 95 %
          </th>
        </tr>
      </thead>
      <tbody>
        {[...kinds.values()].map(({ texture, coat }) => {
          const m = multiplierOf(job, texture, coat);
          return (
            <tr key={`${texture} ${coat}`}>
              <th scope="row">
                {TEXTURE_NAMES[texture]}, {coat === 'first' ? tr`first coat` : tr`later coats`}
              </th>
              <td className="num">
                <Working of={m.k} text={m.k.value.toFixed(3)} onOpen={props.onWorking} />
              </td>
              <td className="num">
                <Working
                  of={m.spread}
                  text={`${(200 * m.spread.value).toFixed(0)} %`}
                  onOpen={props.onWorking}
                />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** A trial to write down; a finished zone fills in its texture, area and rate. */
function TrialForm(props: {
  readonly results: Results;
  readonly newId: (prefix: string) => Id;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { takeoff, coating, job } = props.results;
  const { units } = job.settings;
  const zones = coating.zones.flatMap((z, i) =>
    z.coats.map((coat, c) => ({ id: `${z.zoneId} ${c}`, zone: takeoff.zones[i]!, coat })),
  );
  const [from, setFrom] = useState('');
  const [texture, setTexture] = useState<Texture>('light-broom');
  const [coat, setCoat] = useState<'first' | 'later'>('first');
  const [areaM2, setArea] = useState<number | null>(null);
  const [usedL, setUsed] = useState<number | null>(null);
  const [rate, setRate] = useState<number | null>(null);
  const [on, setOn] = useState<'bare' | 'not'>('bare');
  const [thinningPct, setThinning] = useState<number>(0);
  const take = (id: string) => {
    setFrom(id);
    const found = zones.find((z) => z.id === id);
    if (!found) return;
    setTexture(found.zone.surface.texture);
    setCoat(found.coat.first ? 'first' : 'later');
    setArea(found.zone.coatedArea.value);
    const { S, T, d } = found.coat.paint.inputs!;
    setRate(S!.value);
    setThinning(100 * T!.value);
    setOn(d!.value > 0 ? 'bare' : 'not');
  };
  const add = () => {
    if (areaM2 === null || usedL === null || rate === null) return;
    const note = (zones.find((z) => z.id === from)?.zone.name ?? tr`test patch`).slice(0, 200);
    const bare = coat === 'first' && on === 'bare';
    const thinning = thinningPct / 100;
    const trial = {
      id: props.newId('u'),
      texture,
      coat,
      areaM2,
      usedL,
      rateM2PerL: rate,
      bare,
      thinning,
      note,
    };
    props.onChange([{ type: 'add-trial', args: trial }]);
    setUsed(null);
  };
  return (
    <div className="fields">
      <Choice
        label={tr`Paint was used on`}
        value={from}
        options={[
          ['', tr`a test patch`],
          ...zones.map(({ id, zone, coat: c }) => [id, `${zone.name}, ${COAT_NAMES[c.role]}`] as const),
        ]}
        onChange={take}
      />
      <Choice label={tr`Its texture`} value={texture} options={TEXTURE_OPTIONS} onChange={setTexture} />
      <Choice
        label={tr`It was the`}
        value={coat}
        options={[
          ['first', tr`first coat on the concrete`],
          ['later', tr`second or a later coat`],
        ]}
        onChange={setCoat}
      />
      {coat === 'first' && (
        <Choice
          label={tr`It went onto`}
          value={on}
          options={[
            ['bare', tr`bare concrete`],
            ['not', tr`old paint, or a sealer`],
          ]}
          onChange={setOn}
        />
      )}
      <NumberField
        label={tr`Thinner in it, of the paint`}
        value={thinningPct}
        unit="%"
        low={0}
        high={100}
        onEnter={setThinning}
      />
      <NumberField
        units={units}
        label={tr`Area it covered`}
        value={areaM2}
        unit="m²"
        low={0.1}
        high={1e5}
        onEnter={setArea}
      />
      <NumberField
        units={units}
        label={tr`Spreading rate of that paint, neat`}
        value={rate}
        unit="m²/L"
        low={0.1}
        high={100}
        onEnter={setRate}
      />
      <NumberField
        units={units}
        label={tr`Paint used, without thinner`}
        value={usedL}
        unit="L"
        low={0.01}
        high={1e5}
        onEnter={setUsed}
      />
      <button
        type="button"
        disabled={areaM2 === null || usedL === null || rate === null}
        onClick={add}
      >{tr`Write it down`}</button>
    </div>
  );
}

/** No paint used yet: how deep the texture is, and what a model makes of it. */
function SandPatchForm(props: {
  readonly job: Job;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const [texture, setTexture] = useState<Texture>('heavy-broom');
  const [sand, setSand] = useState<number | null>(25);
  const [circle, setCircle] = useState<number | null>(null);
  const patch = sand !== null && circle !== null ? sandPatchOf(props.job, texture, sand, circle) : null;
  return (
    <Drawer name="sand patch" summary={tr`No paint used yet? A patch of sand`}>
      <p className="dim">{tr`Spread a measured volume of fine dry sand in a circle, level with the peaks, and measure the circle.`}</p>
      <div className="fields">
        <Choice label={tr`Its texture`} value={texture} options={TEXTURE_OPTIONS} onChange={setTexture} />
        <NumberField label={tr`Sand`} value={sand} unit="mL" low={1} high={1000} onEnter={setSand} />
        <NumberField
          label={tr`Mean diameter`}
          value={circle}
          unit="mm"
          low={20}
          high={2000}
          onEnter={setCircle}
        />
      </div>
      {patch && (
        <p>
          {rich`Texture depth ${<Working of={patch.depth} text={patch.depth.value.toFixed(2)} onOpen={props.onWorking} />} mm.`}{' '}
          {patch.multiplier === null ? (
            tr`That is too shallow for sand to tell: keep the usual multiplier.`
          ) : (
            <>
              {rich`A model that nobody has published makes a first-coat multiplier of ${(
                <Working
                  of={patch.multiplier}
                  text={patch.multiplier.value.toFixed(2)}
                  onOpen={props.onWorking}
                />
              )} of it; trials with paint then move it.`}{' '}
              <button
                type="button"
                onClick={() =>
                  props.onChange([
                    {
                      type: 'set-value',
                      args: {
                        key: `texture.${texture}.first`,
                        value: Number(patch.multiplier!.value.toFixed(2)),
                      },
                    },
                  ])
                }
              >{tr`Use it`}</button>
            </>
          )}
        </p>
      )}
    </Drawer>
  );
}
