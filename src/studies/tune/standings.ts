import type { Standing, TunedSetting, TuneResult } from './results.js';
import type { Look } from '../../report/charts/chart.js';
import { NEUTRALS, STRATEGY_TONES } from '../../report/palette.js';

/** How a standing is shown: what differs clearly by less than the indifference zone counts as equal. */
type Shown = Standing | 'within the zone';

export function shownStanding({ standing, loss }: TunedSetting, { procedure }: Pick<TuneResult, 'procedure'>): Shown {
  const differs = standing === 'worse' || standing === 'better';
  const isWithin = loss !== null && Math.max(Math.abs(loss.low), Math.abs(loss.high)) < procedure.zone.size;
  return differs && isWithin ? 'within the zone' : standing;
}

/** How settings of each standing are drawn. */
const LOOKS: Readonly<Record<Shown, Omit<Look, 'name'>>> = {
  winner: { tone: STRATEGY_TONES[0], shape: 'circle' },
  'no clear difference': { tone: STRATEGY_TONES[7], shape: 'triangle-down' },
  'within the zone': { tone: STRATEGY_TONES[3], shape: 'triangle-right' },
  better: { tone: STRATEGY_TONES[4], shape: 'triangle-up' },
  worse: { tone: NEUTRALS.soft, shape: 'square' },
  'fails the yield': { tone: STRATEGY_TONES[2], shape: 'cross' },
  'yield unclear': { tone: STRATEGY_TONES[1], shape: 'diamond' },
  'no winner': { tone: NEUTRALS.soft, shape: 'square' },
};

const ORDER: readonly Shown[] = [
  'winner',
  'no clear difference',
  'within the zone',
  'better',
  'worse',
  'yield unclear',
  'fails the yield',
  'no winner',
];

/** Looks by standing, for the standings that come up. */
export function standingLooks(standings: readonly Shown[]): readonly Look[] {
  return ORDER.filter((each) => standings.includes(each)).map((name) => ({ name, ...LOOKS[name] }));
}
