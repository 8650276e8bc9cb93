import { allocationText } from '../../scenario/exposure.js';
import { Failure } from '../../scenario/failure.js';
import { nearest } from '../../scenario/nearest.js';
import { meaning, text } from '../options.js';
import { exactly, SEED, strategyNamed } from '../shared-options.js';
import { study } from '../study.js';
import { budgetWork } from './budget.js';
import { budgetReport } from './report.js';
import { CHANCES } from './results.js';

const PERCENTS = CHANCES.map((chance) => String(chance * 100));

export const budgetStudy = study({
  question: 'How many hours, tips and how much money do I ask for?',
  does: 'Say how much time, tips and money to ask for, and write the text for a proposal',
  isShared: true,
  options: {
    strategy: text('Strategy that the proposal is written for [default: the first one]'),
    chance: meaning(
      `Chance of finishing that the proposal asks for, in percent: ${PERCENTS.join(', ')}`,
      chanceMeant,
      '90',
    ),
    granted: meaning(
      'What comes of so much time, `3 sessions` or `20 h` [default: what the scenario grants]',
      grantedMeant,
    ),
    seed: SEED,
    replications: exactly(100),
  },
  begin: (ground, { strategy: name, chance, granted, replications }) => {
    const scenario = ground.scenario();
    return budgetWork(scenario.loaded, {
      ...ground.making(scenario),
      strategy: strategyNamed(scenario.loaded, name),
      chance,
      ...(replications === undefined ? {} : { replications }),
      ...(granted === undefined ? {} : { granted }),
    });
  },
  report: budgetReport,
});

function chanceMeant(typed: string): number {
  const place = PERCENTS.indexOf(typed.replace(/\s*%$/, ''));
  if (place >= 0) return CHANCES[place];
  const near = nearest(typed, PERCENTS);
  const meant = near === null ? '' : `; did you mean \`${near}\`?`;
  throw new Failure(`--chance ${typed}: one of ${PERCENTS.join(', ')} is wanted${meant}`);
}

function grantedMeant(typed: string) {
  const allocation = allocationText().safeParse(typed);
  if (!allocation.success) throw new Failure(`--granted: ${allocation.error.issues[0].message}`);
  return allocation.data;
}
