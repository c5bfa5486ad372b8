/** The hour of a local time: 9 of 2026-03-14T09:30. */
export const isoHour = (at: string): number => Number(at.slice(11, 13));

/** The day after a date: 2026-03-15 after 2026-03-14. */
export const tomorrow = (date: string): string =>
  new Date(Date.parse(`${date}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
