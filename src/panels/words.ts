import { PREPARATION_NAMES } from '../coating/preparation.ts';
import { PRIMERS, SYSTEMS } from '../coating/systems/index.ts';
import { TEXTURE_NAMES, TRAFFIC_NAMES } from '../coating/values.ts';
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

/** What the choices of a job are called on screen. */
export const TRAFFIC_WORDS = TRAFFIC_NAMES;

const BEYOND_WORDS: Readonly<Record<Beyond, string>> = {
  open: 'open ground',
  wall: 'wall',
  fence: 'fence',
  kerb: 'kerb',
  planting: 'planting',
  threshold: 'threshold',
  slab: 'another slab',
};

const CONDITION_WORDS: Readonly<Record<Condition, string>> = {
  bare: 'bare concrete',
  painted: 'painted before',
  sealed: 'sealed',
  patterned: 'stencilled or stamped',
  coloured: 'coloured all through',
};

const VOID_WORDS: Readonly<Record<VoidKind, string>> = {
  drain: 'drain',
  post: 'post',
  pit: 'pit',
  planter: 'planter',
  plinth: 'plinth',
  other: 'something else',
};

const options = <T extends string>(values: readonly T[], words: Readonly<Record<T, string>>) =>
  values.map((v): readonly [T, string] => [v, words[v]]);

export const TEXTURE_OPTIONS = options<Texture>(TEXTURES, TEXTURE_NAMES);
export const TRAFFIC_OPTIONS = options(TRAFFICS, TRAFFIC_WORDS);
export const CONDITION_OPTIONS = options(CONDITIONS, CONDITION_WORDS);
export const VOID_OPTIONS = options(VOID_KINDS, VOID_WORDS);
export const BEYOND_OPTIONS: ReadonlyArray<readonly [Beyond | '', string]> = [
  ['', 'not said'],
  ...options(BEYONDS, BEYOND_WORDS),
];
export const SYSTEM_OPTIONS: ReadonlyArray<readonly [string, string]> = [
  ...SYSTEMS.map((s): readonly [string, string] => [s.id, s.name]),
  ['', 'not coated'],
];

export const PREPARATION_OPTIONS: ReadonlyArray<readonly [Preparation | '', string]> = [
  ['', 'the usual for such concrete'],
  ...options(PREPARATIONS, PREPARATION_NAMES),
];
export const PRIMER_OPTIONS: ReadonlyArray<readonly [string, string]> = [
  ['', 'as the system has it'],
  ['none', 'none'],
  ...PRIMERS.map((p): readonly [string, string] => [p.id, p.name]),
];
export const BASE_OPTIONS: ReadonlyArray<readonly [TintBase | '', string]> = [
  ['', 'not said'],
  ...TINT_BASES.map((b): readonly [TintBase, string] => [b, b]),
];
export const FINISH_OPTIONS: ReadonlyArray<readonly [Finish | '', string]> = [
  ['', 'not said'],
  ...FINISHES.map((f): readonly [Finish, string] => [f, f]),
];
