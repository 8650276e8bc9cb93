/** How names, counts and lists stand in a sentence. */

import { numberText } from './numbers.js';

/** Days of the week as people read them, Monday first. */
export const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** Weekly hours as a scenario has them, `Mo-Fr 09:00-17:00`, as people read them: `Mon–Fri 09:00–17:00`. */
export function hoursRead(hours: string): string {
  return hours
    .replace(/\b(?:Mo|Tu|We|Th|Fr|Sa|Su)\b/gu, (day) => WEEKDAYS.find((name) => name.startsWith(day)) ?? day)
    .replace(/(?<=\w)\s*-\s*(?=\w)/gu, '–');
}

/** A name in quotation marks that no name can contain. */
export function quoted(named: { readonly name: string } | string): string {
  return `“${typeof named === 'string' ? named : named.name}”`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[]): string {
  if (items.length <= 1) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;
}

/** `1 event`, `12 events`. */
export function counted(number: number, one: string, many = `${one}s`): string {
  return `${numberText(number)} ${number === 1 ? one : many}`;
}

/** `1st`, `2nd`, `90th`. */
export function ordinal(number: number): string {
  const whole = Math.round(number);
  const tens = whole % 100;
  const ending = tens >= 11 && tens <= 13 ? undefined : ['th', 'st', 'nd', 'rd'].at(whole % 10);
  return `${String(whole)}${ending ?? 'th'}`;
}

/** With its first letter as it stands at the head of a sentence. */
export function capital(text: string): string {
  return text.replace(/^./u, (first) => first.toUpperCase());
}

/** `60 images of 20 regions`; of several samples `180 images of 60 regions on 3 samples`. */
export function imagesText(images: number, regions: number, samples: number): string {
  const text = `${counted(images, 'image')} of ${counted(regions, 'region')}`;
  return samples === 1 ? text : `${text} on ${counted(samples, 'sample')}`;
}
