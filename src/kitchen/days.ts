const MILLISECONDS_A_DAY = 86_400_000;

/** Whether a text is a day of the calendar written as ISO 8601 year-month-day. */
export function isIsoDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = midnight(text);
  return !Number.isNaN(time.getTime()) && time.toISOString().startsWith(text);
}

/** Whole days from one ISO date to another, negative when it lies before. No time zone enters. */
export function daysBetween(from: string, to: string): number {
  return (midnight(to).getTime() - midnight(from).getTime()) / MILLISECONDS_A_DAY;
}

/** The ISO date so many days after another. */
export function addDays(date: string, days: number): string {
  return new Date(midnight(date).getTime() + days * MILLISECONDS_A_DAY).toISOString().slice(0, 10);
}

/** An ISO date for the runtime's calendar, in UTC. */
export function midnight(date: string): Date {
  return new Date(`${date}T00:00:00Z`);
}
