import type { CampaignModel } from '../../campaign/model.js';
import { WEEK } from '../../kernel/hours.js';
import { DAYS, momentText } from '../../scenario/hours.js';
import type { Reading } from '../../scenario/quantity.js';
import { show } from '../../scenario/show.js';
import { clockText } from '../../analysis/timeline.js';

const DAY_NAMES = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];
/** A day by any start of its name, and a time by 24 hours or by 12. */
const WRITTEN = /^([A-Za-z]{2,9})\.?,?\s+(?:at\s+)?(\d\d?)(?:[:.](\d\d))?\s*([ap]\.?m\.?)?$/iu;

/**
 * Reads a moment of the experiment: `Tue 14:00` or `Tuesday 2 pm`, the first one from the start on, or `week 2 Tue 14:00`,
 * weeks counted from the one of the start. Microseconds on the campaign's clock.
 */
export function readMoment({ start }: Pick<CampaignModel, 'start'>, text: string): Reading<number> {
  const match = /^(?:week\s+(\d{1,3}),?\s+)?(.*)$/iu.exec(text.trim().slice(0, 100));
  const moment = momentText().safeParse(asInScenarios(match?.[2] ?? ''));
  if (!moment.success)
    return {
      ok: false,
      message: `read ${show(text)}; a moment such as \`Tue 14:00\`, \`Tuesday 2 pm\` or \`week 2 Tue 14:00\` is wanted`,
    };
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

/** `Wednesday 2 pm` as `We 14:00`; what is written otherwise stays as it is. */
function asInScenarios(text: string): string {
  const match = WRITTEN.exec(text);
  if (match === null) return text;
  const [, name, hours] = match;
  const [minutes, half] = [match.at(3), match.at(4)];
  const day = DAY_NAMES.findIndex((each) => each.startsWith(name.toLowerCase()));
  if (day < 0 || (minutes === undefined && half === undefined)) return text;
  const hour = half === undefined ? Number(hours) : hourByTwelve(Number(hours), /^p/iu.test(half));
  return hour === null ? text : `${DAYS[day]} ${hour}:${minutes ?? '00'}`;
}

function hourByTwelve(hour: number, isAfternoon: boolean): number | null {
  if (hour < 1 || hour > 12) return null;
  return (hour % 12) + (isAfternoon ? 12 : 0);
}
