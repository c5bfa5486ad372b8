import type { Edit } from '../job/edits/index.ts';
import type { Surface } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { Choice, Section, TextField } from './fields.tsx';
import { CONDITION_OPTIONS, SYSTEM_OPTIONS, TEXTURE_OPTIONS, TRAFFIC_OPTIONS } from './words.ts';

/** One of the things that are selected together. */
export interface Selected {
  readonly id: string;
  readonly words: string;
  readonly leaveOut: () => void;
}

/** Several things in hand: which they are, and what is said of all zones among them at once. */
export function SeveralForm(props: {
  readonly items: readonly Selected[];
  readonly zones: readonly ZoneTakeoff[];
  /** The edit that says something of one zone. */
  readonly describe: (zone: ZoneTakeoff, surface: Partial<Surface>) => Edit;
  readonly onChange: (edits: readonly Edit[], merge?: string) => void;
  readonly onDelete: () => void;
}) {
  const { items, zones } = props;
  const say = (surface: Partial<Surface>, merge?: string) =>
    props.onChange(
      zones.map((zone) => props.describe(zone, surface)),
      merge,
    );
  return (
    <Section
      title={tr`${items.length} selected`}
      actions={<button type="button" onClick={props.onDelete}>{tr`Delete them`}</button>}
    >
      <ul className="plain">
        {items.map((item) => (
          <li key={item.id}>
            {item.words}{' '}
            <button
              type="button"
              className="link"
              aria-label={tr`Leave out ${item.words}`}
              onClick={item.leaveOut}
            >{tr`leave out`}</button>
          </li>
        ))}
      </ul>
      {zones.length > 1 && (
        <>
          <h3>{tr`All ${zones.length} zones`}</h3>
          <div className="fields">
            <Shared label={tr`Texture`} of="texture" zones={zones} options={TEXTURE_OPTIONS} onSay={say} />
            <Shared label={tr`Traffic`} of="traffic" zones={zones} options={TRAFFIC_OPTIONS} onSay={say} />
            <Shared
              label={tr`Concrete`}
              of="condition"
              zones={zones}
              options={CONDITION_OPTIONS}
              onSay={say}
            />
            <Shared label={tr`System`} of="systemId" zones={zones} options={SYSTEM_OPTIONS} onSay={say} />
            <TextField
              label={tr`Colour`}
              value={common(zones, 'colour') ?? ''}
              onChange={(colour) => say({ colour }, `colour of ${zones.map((z) => z.slabId).join(' ')}`)}
            />
          </div>
        </>
      )}
    </Section>
  );
}

/** What all zones have in common; undefined where they differ. */
function common<K extends keyof Surface>(zones: readonly ZoneTakeoff[], key: K): Surface[K] | undefined {
  const value = zones[0]!.surface[key];
  return zones.every((z) => z.surface[key] === value) ? value : undefined;
}

const DIFFERS = ['differs', tr`differs`] as const;

/** A choice for all zones; it says so where they differ. */
function Shared<K extends 'texture' | 'traffic' | 'condition' | 'systemId'>(props: {
  readonly label: string;
  readonly of: K;
  readonly zones: readonly ZoneTakeoff[];
  readonly options: ReadonlyArray<readonly [NonNullable<Surface[K]> | '', string]>;
  readonly onSay: (surface: Partial<Surface>) => void;
}) {
  const value = common(props.zones, props.of);
  return (
    <Choice<string>
      label={props.label}
      value={value === undefined ? DIFFERS[0] : (value ?? '')}
      options={value === undefined ? [DIFFERS, ...props.options] : props.options}
      onChange={(chosen) => {
        if (chosen !== DIFFERS[0]) props.onSay({ [props.of]: chosen === '' ? null : chosen });
      }}
    />
  );
}
