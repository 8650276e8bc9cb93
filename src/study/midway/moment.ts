import type { CampaignModel } from '../../campaign/model.js';
import { WEEK } from '../../kernel/hours.js';
import { momentText } from '../../scenario/hours.js';
import type { Reading } from '../../scenario/quantity.js';
import { show } from '../../scenario/show.js';
import { clockText } from '../timeline.js';

/**
 * Reads a moment of the experiment: `Tu 14:00`, the first one from the start on, or `week 2 Tu 14:00`, weeks counted from
 * the one of the start. Microseconds on the campaign's clock.
 */
export function readMoment({ start }: Pick<CampaignModel, 'start'>, text: string): Reading<number> {
  const match = /^(?:week\s+(\d{1,3})\s+)?(.*)$/u.exec(text.trim());
  const moment = momentText().safeParse(match?.[2] ?? '');
  if (!moment.success) return { ok: false, message: `${moment.error.issues[0].message}, or \`week 2 Tu 14:00\`` };
  const first = moment.data >= start ? moment.data : moment.data + WEEK;
  const value = match?.[1] === undefined ? first : moment.data + (Number(match[1]) - 1) * WEEK;
  if (value >= start) return { ok: true, value };
  return {
    ok: false,
    message: `read ${show(text)}, which is before the start of the experiment (${momentName(start)})`,
  };
}

/** A moment as the table has it: without seconds. */
export function momentName(microseconds: number): string {
  return clockText(microseconds).replace(/:\d\d$/u, '');
}
