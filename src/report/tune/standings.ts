import type { Standing } from '../../study/tune/results.js';
import { NEUTRALS, STRATEGY_TONES } from '../palette.js';

interface Look {
  readonly tone: string;
  readonly shape: string;
}

/** How settings of each standing are drawn. */
const LOOKS: Readonly<Record<Standing, Look>> = {
  winner: { tone: STRATEGY_TONES[0].light, shape: 'circle' },
  'not told apart': { tone: STRATEGY_TONES[3].light, shape: 'circle' },
  better: { tone: STRATEGY_TONES[5].light, shape: 'triangle-up' },
  worse: { tone: NEUTRALS.soft.light, shape: 'square' },
  'fails the yield': { tone: STRATEGY_TONES[2].light, shape: 'cross' },
  'yield not told': { tone: STRATEGY_TONES[1].light, shape: 'diamond' },
  'no winner': { tone: NEUTRALS.soft.light, shape: 'square' },
};

const ORDER: readonly Standing[] = [
  'winner',
  'not told apart',
  'better',
  'worse',
  'yield not told',
  'fails the yield',
  'no winner',
];

/** Colour and shape by standing, for the standings that come up. */
export function standingScales(standings: readonly Standing[]) {
  const domain = ORDER.filter((each) => standings.includes(each));
  const field = { field: 'standing', type: 'nominal' as const };
  const legend = { title: null, orient: 'top' as const, symbolOpacity: 1 };
  return {
    color: { ...field, scale: { domain, range: domain.map((each) => LOOKS[each].tone) }, legend },
    shape: { ...field, scale: { domain, range: domain.map((each) => LOOKS[each].shape) }, legend },
  };
}
