import type { Summary } from '../study/results.js';

/** `summary.json`: keys in the order in which the study wrote them, two spaces, a newline at the end. */
export function summaryJson(summary: Summary): string {
  return prettyJson(summary);
}

/** Any plain data in the same form. */
export function prettyJson(data: object): string {
  return `${JSON.stringify(data, null, 2)}\n`;
}
