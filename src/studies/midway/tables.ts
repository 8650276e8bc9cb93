import type { MidwayResult } from './results.js';
import { estimateLine, estimateText, moneyScale, numberText, PLAIN, SHARE, workScale } from '../../wording/numbers.js';
import type { Table } from '../../report/table.js';
import { chanceOfEnd, tipText } from './words.js';
import { counted } from '../../wording/phrases.js';

/** Ways to go on, a row each. */
export function waysTable(result: MidwayResult): Table {
  const { strategies, allocation, scenario } = result;
  const scale = workScale(Math.max(...strategies.map(({ measures }) => measures.instrumentTime.value)));
  return {
    columns: [
      { label: 'Way to go on' },
      { label: allocation === null ? 'Ever finished' : 'Finished in time', numeric: true },
      { label: 'Instrument time left', numeric: true },
      { label: 'Yield', numeric: true },
      { label: 'Tips from now', numeric: true },
      { label: 'Cost from now', numeric: true },
    ],
    rows: strategies.map((course) => [
      course.name,
      estimateLine(chanceOfEnd(course), SHARE),
      estimateLine(course.measures.instrumentTime, scale),
      estimateLine(course.measures.yield, SHARE),
      estimateLine(course.measures.tips, PLAIN),
      estimateLine(course.measures.cost, moneyScale(scenario.currency)),
    ]),
  };
}

/** The same for the terminal: the chance with its interval, of all else the mean. */
export function waysInShort(result: MidwayResult): Table {
  const { strategies, allocation, scenario } = result;
  const scale = workScale(Math.max(...strategies.map(({ measures }) => measures.instrumentTime.value)));
  return {
    columns: [
      { label: 'way' },
      { label: allocation === null ? 'ever finished' : 'finished in time', numeric: true },
      { label: 'instrument time', numeric: true },
      { label: 'yield', numeric: true },
      { label: 'tips', numeric: true },
      { label: 'cost', numeric: true },
    ],
    rows: strategies.map((course) => [
      course.name,
      estimateLine(chanceOfEnd(course), SHARE),
      estimateText(course.measures.instrumentTime, scale).value,
      estimateText(course.measures.yield, SHARE).value,
      estimateText(course.measures.tips, PLAIN).value,
      estimateText(course.measures.cost, moneyScale(scenario.currency)).value,
    ]),
  };
}

/** The probability of completion by the end of each session, one column a way to go on; no rows where there are no bookings. */
export function sessionsTable({ strategies, sessionEnds }: MidwayResult): Table {
  return {
    columns: [{ label: 'By the end of' }, ...strategies.map(({ name }) => ({ label: name, numeric: true }))],
    rows: sessionEnds.map((clock, place) => [
      `session ${place + 1} from now, ${clock}`,
      ...strategies.map((course) => estimateLine(course.finishedBySession.at(place) ?? course.finishes, SHARE)),
    ]),
  };
}

/** The same for the terminal, of the first way alone. */
export function sessionsInShort({ strategies, sessionEnds }: MidwayResult): Table {
  const [first] = strategies;
  return {
    columns: [{ label: 'by the end of session' }, { label: 'chance', numeric: true }],
    rows: sessionEnds.map((clock, place) => [
      `${place + 1} from now, ${clock}`,
      estimateLine(first.finishedBySession.at(place) ?? first.finishes, SHARE),
    ]),
  };
}

/** What was read of the campaign, so that it can be checked. */
export function standingTable({ now, supplies }: MidwayResult): Table {
  const { images } = now;
  const counts = [
    `${numberText(images.kept)} kept`,
    ...(images.unreviewed > 0 ? [`${numberText(images.unreviewed)} waiting for review`] : []),
    ...(images.toRetake > 0 ? [`${numberText(images.toRetake)} to be taken again`] : []),
    ...(images.givenUp > 0 ? [`${numberText(images.givenUp)} given up`] : []),
    `${numberText(images.notYet)} not taken yet`,
  ];
  const several = now.instruments.length > 1;
  const rows = now.instruments.flatMap(({ standing, sample, region, tip, parked }, place) => {
    const at = several ? ` ${place + 1}` : '';
    return [
      [
        `Instrument${at}`,
        `${standing}${sample === null ? '' : `, ${sample} on`}${region === null ? '' : `, region ${numberText(region)} in place`}`,
      ],
      [`Tip on${at}`, tip === null ? 'none' : tipText(tip)],
      ...parked.map((one) => [`Tip parked${at}`, tipText(one)]),
    ];
  });
  return {
    columns: [{ label: 'What' }, { label: 'As read' }],
    rows: [
      ['It is', now.clock],
      ['Images', `${counts.join(', ')}, of ${numberText(images.planned)}`],
      ...rows,
      ['Left', supplies.map(({ what, left }) => counted(left, what)).join(', ') || 'nothing is limited'],
    ],
  };
}
