import type { Catalogue } from './tr.ts';

export const SPANISH: Catalogue = {};
