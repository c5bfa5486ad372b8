import { useEffect, useMemo, useRef, useState } from 'react';
import type { Edit } from '../job/edits/index.ts';
import { CoatsPanel } from '../panels/coats-panel.tsx';
import { CompareSection } from '../panels/compare-section.tsx';
import { DaysPanel } from '../panels/days-panel.tsx';
import { Choice, Section } from '../panels/fields.tsx';
import { OrderSection } from '../panels/order-section.tsx';
import { PlanSection } from '../panels/plan-section.tsx';
import { PriceSection } from '../panels/price-section.tsx';
import { ReadinessSection } from '../panels/readiness-section.tsx';
import { Remarks } from '../panels/remarks.tsx';
import { RolloutSection } from '../panels/rollout-section.tsx';
import { SitePanel } from '../panels/site-panel.tsx';
import { ZonesTable } from '../panels/zones-table.tsx';
import { listDays } from '../storage/job-log.ts';
import { type KeptTitle, listKeptJobs } from '../storage/job-store.ts';
import { LANGUAGE_NAMES, LANGUAGES, language } from '../words/language.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { DEMOS } from './demos.ts';
import { speak, wear } from './device.ts';
import {
  chooseJob,
  chooseWeather,
  newJob,
  saveJobFile,
  saveKeptText,
  showDay,
  showDemo,
  showKept,
  takeWeather,
} from './files.ts';
import { MeasureStation } from './measure-station.tsx';
import { type NextStep, nextStep } from './next-step.ts';
import { PapersStation } from './papers-station.tsx';
import { showPlace, showStation } from './places.ts';
import { Selected } from './selected-form.tsx';
import { selectedIds } from './selection.ts';
import { DOCK_HEIGHTS, GROUPING_WORDS, GROUPINGS, STATION_WORDS, STATIONS } from './stations.ts';
import { type AppState, change, newId, openSheet, store, useApp } from './store.ts';
import { THEME_WORDS, THEMES } from './theme.ts';
import { today } from './writing.ts';

const onWorking = (working: Quantity): void => store.setState({ working });
const onChange = (edits: readonly Edit[], merge?: string): void => {
  change(edits, merge ?? null);
};

/** Stations, and what the open one holds: beside the board, or below it on a phone. */
export function Dock() {
  const station = useApp((s) => s.station);
  return (
    <aside className="dock" aria-label={tr`Job`}>
      <Grip />
      <nav className="stations" aria-label={tr`Stations`}>
        {STATIONS.map((name) => (
          <button
            key={name}
            type="button"
            aria-current={name === station ? 'step' : undefined}
            onClick={() => showStation(name)}
          >
            {STATION_WORDS[name]}
          </button>
        ))}
      </nav>
      <div className="station" key={station}>
        <Next />
        <StationPanel />
      </div>
    </aside>
  );
}

function useNextStep(): NextStep | null {
  const results = useApp((s) => s.settled);
  const sheetId = useApp((s) => s.sheetId);
  const station = useApp((s) => s.station);
  return useMemo(() => nextStep({ results, sheetId, station }), [results, sheetId, station]);
}

/** Farther than this along the screen it was drawn, not tapped. */
const DRAWN_PX = 12;

/** Raises and lowers the panel on a phone: tapped through its heights, or drawn up and down. */
function Grip() {
  const dock = useApp((s) => s.dock);
  const from = useRef(0);
  const drawn = useRef(false);
  const at = DOCK_HEIGHTS.indexOf(dock);
  const set = (height: number) => store.setState({ dock: DOCK_HEIGHTS[height]! });
  const top = DOCK_HEIGHTS.length - 1;
  return (
    <button
      type="button"
      className="grip"
      onPointerDown={(event) => {
        from.current = event.clientY;
        drawn.current = false;
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerUp={(event) => {
        const by = event.clientY - from.current;
        drawn.current = Math.abs(by) >= DRAWN_PX;
        if (drawn.current) set(by < 0 ? Math.min(at + 1, top) : Math.max(at - 1, 0));
      }}
      onClick={(event) => {
        // A mouse clicks after it has drawn; keys click without having drawn.
        const hasDrawn = drawn.current && event.detail > 0;
        drawn.current = false;
        if (!hasDrawn) set(at === top ? 0 : at + 1);
      }}
    >
      {dock === 'full' ? tr`Lower the panel` : tr`Raise the panel`}
    </button>
  );
}

/** What the job wants next, with a button that begins it. */
function Next() {
  const station = useApp((s) => s.station);
  const step = useNextStep();
  if (!step) return null;
  const { action, or } = step;
  return (
    <p className="next">
      <span>
        <b>{tr`Next.`}</b> {step.words}
      </span>
      {or && (
        <button type="button" onClick={or.run}>
          {or.words}
        </button>
      )}
      {action && step.station !== station && (
        <button type="button" onClick={action.run}>
          {action.words}
        </button>
      )}
    </p>
  );
}

function StationPanel() {
  const station = useApp((s) => s.station);
  switch (station) {
    case 'Site':
      return <Site />;
    case 'Measure':
      return (
        <>
          <JobRemarks />
          <Selected />
          <MeasureStation onShow={showPlace} />
        </>
      );
    case 'Zones':
      return <Zones />;
    case 'Coats':
      return <Coats />;
    case 'Days':
      return <Days />;
    case 'Order':
      return <OrderStation />;
    case 'Papers':
      return (
        <>
          <JobRemarks />
          <PapersStation />
        </>
      );
  }
}

function Site() {
  const job = useApp((s) => s.history.job);
  const saved = useApp((s) => s.saved);
  const readiness = useApp((s) => s.settled.readiness);
  const [kept, setKept] = useState<KeptTitle[]>([]);
  const [days, setDays] = useState<string[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read again when another job is open or one was saved
  useEffect(() => {
    void listKeptJobs().then(setKept);
    void listDays(job.id).then(setDays);
  }, [job.id, saved]);
  return (
    <SitePanel
      kept={kept.filter((k) => k.id !== job.id)}
      onKept={(id) => void showKept(id)}
      onKeptText={(id, name) => void saveKeptText(id, name)}
      days={days}
      onDay={(day) => void showDay(job.id, day)}
      job={job}
      saved={saved}
      demos={DEMOS}
      onChange={onChange}
      onNew={() => void newJob()}
      onOpen={chooseJob}
      onSave={() => void saveJobFile()}
      onDemo={(id) => void showDemo(id)}
      look={<Look />}
    >
      <ReadinessSection readiness={readiness} units={job.settings.units} onChange={onChange} />
    </SitePanel>
  );
}

function Look() {
  const theme = useApp((s) => s.theme);
  return (
    <div className="fields">
      <Choice
        label={tr`Look on this device`}
        value={theme}
        options={THEMES.map((t) => [t, THEME_WORDS[t]] as const)}
        onChange={wear}
      />
      <Choice
        label={tr`Language`}
        value={language}
        options={LANGUAGES.map((l) => [l, LANGUAGE_NAMES[l]] as const)}
        onChange={(chosen) => void speak(chosen)}
      />
    </div>
  );
}

function Zones() {
  const results = useApp((s) => s.settled);
  const grouping = useApp((s) => s.grouping);
  const selection = useApp((s) => s.selection);
  const selected = useMemo(() => selectedIds(selection).zones, [selection]);
  const units = results.job.settings.units;
  return (
    <>
      <JobRemarks />
      {results.takeoff.zones.length === 0 ? (
        <p className="empty">{tr`Trace a slab with the Slab tool; its area and edges appear here.`}</p>
      ) : (
        <Section
          title={tr`Zones`}
          actions={
            <Choice
              label={tr`Grouped by`}
              value={grouping}
              options={GROUPINGS.map((g) => [g, GROUPING_WORDS[g]] as const)}
              onChange={(g) => store.setState({ grouping: g })}
            />
          }
        >
          <ZonesTable
            results={results}
            by={grouping === 'zone' ? null : grouping}
            units={units}
            selected={selected}
            onSelect={showPlace}
            onWorking={onWorking}
          />
        </Section>
      )}
      <Selected />
    </>
  );
}

function Coats() {
  const results = useApp((s) => s.settled);
  return (
    <CoatsPanel
      results={results}
      units={results.job.settings.units}
      onWorking={onWorking}
      onChange={onChange}
      newId={newId}
    />
  );
}

function OrderStation() {
  const results = useApp((s) => s.settled);
  if (results.takeoff.zones.length === 0)
    return <p className="empty">{tr`Trace a slab first; what to buy for it is worked out here.`}</p>;
  return (
    <>
      <JobRemarks />
      <OrderSection
        results={results}
        units={results.job.settings.units}
        onWorking={onWorking}
        onChange={onChange}
      />
      <PriceSection results={results} onWorking={onWorking} onChange={onChange} />
      <CompareSection results={results} onChange={onChange} />
    </>
  );
}

const showRollout = (shown: AppState['rollout']): void => {
  const { job } = store.getState().results;
  const slab = shown && job.slabs[shown.slabId];
  if (slab && slab.sheetId !== store.getState().sheetId) openSheet(slab.sheetId);
  // On a phone the panel makes room for what is shown.
  const { dock } = store.getState();
  store.setState({ rollout: shown, dock: shown && dock === 'full' ? 'half' : dock });
};

function Days() {
  const results = useApp((s) => s.settled);
  const shown = useApp((s) => s.rollout);
  return (
    <DaysPanel results={results} newId={newId} onWorking={onWorking} onChange={onChange}>
      <PlanSection
        results={results}
        today={today()}
        onWeather={chooseWeather}
        onPaste={(text, place) => takeWeather(text, tr`pasted hours`, place)}
        onChange={onChange}
      />
      <RolloutSection
        rollouts={results.rollouts}
        units={results.job.settings.units}
        shown={shown}
        onShow={showRollout}
      />
    </DaysPanel>
  );
}

function JobRemarks() {
  const all = useApp((s) => s.settled.remarks);
  const step = useNextStep();
  const remarks = step?.says ? all.filter((r) => !step.says!.includes(r.code)) : all;
  return <Remarks remarks={remarks} onShow={showPlace} onFix={(edit) => onChange([edit])} />;
}
