import { SYSTEMS } from '../coating/systems/index.ts';
import { TEXTURE_NAMES, TRAFFIC_NAMES } from '../coating/values.ts';
import {
  BEYONDS,
  type Beyond,
  CONDITIONS,
  type Condition,
  TEXTURES,
  type Texture,
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
