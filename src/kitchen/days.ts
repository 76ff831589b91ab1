const MILLISECONDS_A_DAY = 86_400_000;

/** Whether a text is a day of the calendar written as ISO 8601 year-month-day. */
export function isIsoDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

/** Whole days from one ISO date to another, negative when it lies before. No time zone enters. */
export function daysBetween(from: string, to: string): number {
  return (midnight(to) - midnight(from)) / MILLISECONDS_A_DAY;
}

/** The ISO date so many days after another. */
export function addDays(date: string, days: number): string {
  return new Date(midnight(date) + days * MILLISECONDS_A_DAY).toISOString().slice(0, 10);
}

function midnight(date: string): number {
  return Date.parse(`${date}T00:00:00Z`);
}
