/** Dates as ISO 8601 writes them, with any time of day behind; other orders of day and month mean two things. */
const DATE = /^(\d{4})-(\d{2})-(\d{2})(?=$|[T ])/u;

/** The last of these dates, as `2026-03-14`; null where none is written so. */
export function latestDate(texts: readonly string[]): string | null {
  const dates = texts.flatMap((text) => (isDate(text) ? [text.slice(0, 10)] : []));
  return dates.reduce<string | null>((last, each) => (last === null || each > last ? each : last), null);
}

/** Whether a text begins with a day of the calendar. */
export function isDate(text: string): boolean {
  const [, year = '', month = '', day = ''] = DATE.exec(text) ?? [];
  const leap = Number(year) % 4 === 0 && (Number(year) % 100 !== 0 || Number(year) % 400 === 0);
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  return Number(day) >= 1 && Number(day) <= (days[Number(month) - 1] ?? 0);
}
