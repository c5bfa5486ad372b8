import { PREPARATION_NAMES } from '../coating/preparation.ts';
import { PRIMERS, SYSTEMS } from '../coating/systems/index.ts';
import { BASE_NAMES, FINISH_NAMES, TEXTURE_NAMES, TRAFFIC_NAMES } from '../coating/values.ts';
import { VOID_NAMES } from '../job/names.ts';
import {
  BEYONDS,
  type Beyond,
  CONDITIONS,
  type Condition,
  FINISHES,
  type Finish,
  PREPARATIONS,
  type Preparation,
  TEXTURES,
  type Texture,
  TINT_BASES,
  type TintBase,
  TRAFFICS,
  VOID_KINDS,
  type VoidKind,
} from '../job/types.ts';
import { tr } from '../words/tr.ts';

/** What the choices of a job are called on screen. */
export const TRAFFIC_WORDS = TRAFFIC_NAMES;

const BEYOND_WORDS: Readonly<Record<Beyond, string>> = {
  open: tr`open ground`,
  wall: tr`wall`,
  fence: tr`fence`,
  kerb: tr`kerb`,
  planting: tr`planting`,
  threshold: tr`threshold`,
  slab: tr`another slab`,
};

const CONDITION_WORDS: Readonly<Record<Condition, string>> = {
  bare: tr`bare concrete`,
  painted: tr`painted before`,
  sealed: tr`sealed`,
  patterned: tr`stencilled or stamped`,
  coloured: tr`coloured all through`,
};

const VOID_WORDS: Readonly<Record<VoidKind, string>> = { ...VOID_NAMES, other: tr`something else` };

const options = <T extends string>(values: readonly T[], words: Readonly<Record<T, string>>) =>
  values.map((v): readonly [T, string] => [v, words[v]]);

export const TEXTURE_OPTIONS = options<Texture>(TEXTURES, TEXTURE_NAMES);
export const TRAFFIC_OPTIONS = options(TRAFFICS, TRAFFIC_WORDS);
export const CONDITION_OPTIONS = options(CONDITIONS, CONDITION_WORDS);
export const VOID_OPTIONS = options(VOID_KINDS, VOID_WORDS);
export const BEYOND_OPTIONS: ReadonlyArray<readonly [Beyond | '', string]> = [
  ['', tr`not said`],
  ...options(BEYONDS, BEYOND_WORDS),
];
export const SYSTEM_OPTIONS: ReadonlyArray<readonly [string, string]> = [
  ...SYSTEMS.map((s): readonly [string, string] => [s.id, s.name]),
  ['', tr`not coated`],
];

export const PREPARATION_OPTIONS: ReadonlyArray<readonly [Preparation | '', string]> = [
  ['', tr`the usual for such concrete`],
  ...options(PREPARATIONS, PREPARATION_NAMES),
];
export const PRIMER_OPTIONS: ReadonlyArray<readonly [string, string]> = [
  ['', tr`as the system has it`],
  ['none', tr`none`],
  ...PRIMERS.map((p): readonly [string, string] => [p.id, p.name]),
];
export const BASE_OPTIONS: ReadonlyArray<readonly [TintBase | '', string]> = [
  ['', tr`not said`],
  ...options(TINT_BASES, BASE_NAMES),
];
export const FINISH_OPTIONS: ReadonlyArray<readonly [Finish | '', string]> = [
  ['', tr`not said`],
  ...options(FINISHES, FINISH_NAMES),
];
