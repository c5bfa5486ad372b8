import type { History } from '../job/history.ts';

/** What undo would take back, in the user's words; empty when there is nothing. */
export const editLabelOf = (history: History): string => history.past[history.past.length - 1]?.label ?? '';
