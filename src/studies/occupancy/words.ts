import { type Answer, fullestWithin } from '../../analysis/answer.js';
import { levelText } from '../../analysis/effect-words.js';
import { estimateLine, estimateText, plainSpaces, SHARE } from '../../wording/numbers.js';
import { listed, quoted } from '../../wording/phrases.js';
import type { OccupiedStrategy, Session, Use } from './results.js';

/** What the first session of each strategy yields; then what else it goes to, and how much of the next one is needed at all. */
export function answerOf(strategies: readonly OccupiedStrategy[], level: number): Answer {
  const findings = strategies.flatMap(({ name, sessions: [first, ...further] }) => [
    `${quoted(name)}: ${firstSentence(first)}.`,
    ...further.slice(0, 1).map((session) => `${quoted(name)}: ${furtherSentence(session)}`),
  ]);
  const kept = (most: number) => {
    const said = strategies.slice(0, most).map(({ name, sessions: [first] }, place) => {
      const use = first.uses.find((each) => each.use === 'scanning kept');
      const { value, interval } = estimateText(use ?? NOTHING, SHARE);
      const ends = interval === '' ? '' : ` (${place === 0 ? levelText(level) : ''}${interval})`;
      return plainSpaces(`${value}${ends} with ${quoted(name)}`);
    });
    const [{ sessions }] = strategies;
    return [`Of the booked hours of session ${sessions[0].session}, scans that are kept take ${listed(said)}.`];
  };
  return {
    headline: fullestWithin([kept(strategies.length), kept(3), kept(1)]),
    remarks: [],
    findings,
    decided: true,
  };
}

const NOTHING = { value: 0, low: 0, high: 0 };

function firstSentence(session: Session): string {
  const kept = shareIn(session, 'scanning kept') ?? 'nothing';
  const [most] = session.uses
    .filter(({ use }) => use !== 'scanning kept' && use !== 'no longer needed')
    .sort((a, b) => b.value - a.value);
  const unused = shareIn(session, 'no longer needed');
  return `${kept} of the booked hours of session 1 go to scans that are kept, and most of the rest to ${most.use}, ${estimateLine(most, SHARE)}${unused === null ? '' : `; ${unused} are no longer needed`}`;
}

function furtherSentence(session: Session): string {
  const unused = shareIn(session, 'no longer needed') ?? 'none';
  return `session ${session.session} is needed by ${estimateLine(session.needed, SHARE)} of campaigns; ${unused} of its booked hours are no longer needed.`;
}

function shareIn({ uses }: Session, use: Use): string | null {
  const found = uses.find((each) => each.use === use);
  return found === undefined ? null : estimateLine(found, SHARE);
}
