import type { Summary } from '../study/results.js';

/** `summary.json`: keys in the order in which the study wrote them. */
export function summaryJson(summary: Summary): string {
  return prettyJson(summary);
}

/**
 * Plain data as JSON with two spaces and a newline at the end. What holds no other list or object stands on one line,
 * so that a table of a thousand rows has a thousand lines.
 */
export function prettyJson(data: object): string {
  return `${written(data, '')}\n`;
}

/**
 * Plain data as JSON in one line, of which no sign acts where it is shown: controls, signs that turn the order of a line and
 * the like are written as \uXXXX, which reads back as the same.
 */
export function lineJson(data: unknown): string {
  return JSON.stringify(data).replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, escaped);
}

function escaped(sign: string): string {
  return Array.from({ length: sign.length }, (_, at) => {
    const unit = sign.charCodeAt(at).toString(16).padStart(4, '0');
    return `\\u${unit}`;
  }).join('');
}

function written(value: unknown, indent: string): string {
  if (typeof value !== 'object' || value === null) return lineJson(value);
  const list = Array.isArray(value);
  const parts = list
    ? value.map((each) => ({ name: '', each: defined(each) }))
    : Object.entries(value)
        .filter(([, each]) => each !== undefined)
        .map(([name, each]: [string, unknown]) => ({ name: `${lineJson(name)}: `, each }));
  const [open, close] = list ? ['[', ']'] : ['{', '}'];
  if (parts.length === 0) return `${open}${close}`;
  if (parts.every(({ each }) => typeof each !== 'object' || each === null)) {
    const line = parts.map(({ name, each }) => `${name}${lineJson(each)}`).join(', ');
    return list ? `[${line}]` : `{ ${line} }`;
  }
  const deeper = `${indent}  `;
  return `${open}\n${parts.map(({ name, each }) => `${deeper}${name}${written(each, deeper)}`).join(',\n')}\n${indent}${close}`;
}

/** In a list, what JSON cannot say is null. */
function defined(value: unknown): unknown {
  return value === undefined ? null : value;
}
