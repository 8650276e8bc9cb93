import {
  type Answers,
  NO_ANSWERS,
  type Question,
  questionGroups,
  usualAnswer,
  withKnown,
  withOwn,
} from '../guide/questions.js';
import { scenarioText } from '../guide/scenario-text.js';
import { loadScenario } from '../scenario/load.js';
import type { Ask } from '../studies/study.js';

/** Asks what a scenario is made from, and gives its text. What is refused is asked again. */
export async function askScenario(ask: Ask, say: (line: string) => void): Promise<string> {
  let answers = NO_ANSWERS;
  say(
    'Press Enter for the value in brackets. Type ? if it is unknown: a wide range is then tried. Add measured after an answer, or type it alone, if the value was measured here.',
  );
  for (const [group, [about]] of questionGroups(answers).entries()) {
    say(`\n${about}`);
    // How many there are hangs on what is answered on the way.
    for (let next = 0; ; next += 1) {
      const question = questionGroups(answers)[group][1].at(next);
      if (question === undefined) break;
      answers = await askOne(question, answers, ask, say);
    }
  }
  return scenarioText(answers);
}

async function askOne(question: Question, answers: Answers, ask: Ask, say: (line: string) => void): Promise<Answers> {
  const { asks, from, within } = question;
  const isKnowable = within !== undefined;
  const usual = `${usualAnswer(question, answers)}; ${from}`;
  for (;;) {
    const typed = await ask(`  ${asks} [${usual}]${isKnowable ? ' or ?' : ''}`);
    const next = withAnswer(answers, question, typed);
    const refused =
      typed === '?' && !isKnowable ? ['this is chosen, so somebody has to know it'] : faultsOf(next, question);
    if (refused.length === 0) return next;
    for (const message of refused) say(`    ${message}`);
  }
}

function withAnswer(answers: Answers, { key, within }: Question, typed: string): Answers {
  if (typed === '') return answers;
  if (typed === '?') return withKnown(answers, key, 'unknown');
  const measured = within === undefined ? null : MEASURED.exec(typed);
  if (measured === null) return withOwn(answers, key, typed);
  const known = withKnown(answers, key, 'measured');
  return measured[1] === '' ? known : withOwn(known, key, measured[1]);
}

const MEASURED = /^(|.*?\S)[\s,]*\bmeasured$/iu;

/** What is wrong with the last answer, as all before it were right. */
function faultsOf(answers: Answers, { key, words }: Question): readonly string[] {
  const word = answers.own.get(key);
  if (words !== null && word !== undefined && !words.includes(word)) return [`one of ${words.join(', ')} is wanted`];
  const read = loadScenario(scenarioText(answers));
  return read.ok ? [] : [...new Set(read.faults.map(({ message }) => message))];
}
