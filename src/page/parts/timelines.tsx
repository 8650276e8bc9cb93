import { useMemo } from 'preact/hooks';
import type { Timeline } from '../../analysis/results.js';
import { ACTIVITY_NUMBER } from '../../campaign/activities.js';
import { timeTicks } from '../../report/charts/axes.js';
import type { Block, Stretch } from '../../report/charts/strips.js';
import { type DrawnRow, drawnTimelines, type RateLimits, STATES } from '../../report/charts/timeline-rows.js';
import { numberText } from '../../wording/numbers.js';

interface TimelinesProps {
  readonly timelines: readonly Timeline[];
  /** What a person who cannot see the picture is told. */
  readonly label: string;
}

/** One row for each strategy and instrument: what its time went to, the state of its tip below, and drift where there is any. */
export function Timelines({ timelines, label }: TimelinesProps) {
  const drawn = useMemo(() => drawnTimelines(timelines), [timelines]);
  if (drawn === null) return null;
  const { rows, activities, states, rates, end, scale, title } = drawn;
  return (
    <div class={`timelines${rates === null ? '' : ' drifting'}`} role="img" aria-label={label}>
      {rows.map((row) => (
        <Row row={row} end={end} rates={rates} />
      ))}
      <div class="axis">
        {timeTicks(end, scale, 6).map((tick) => (
          <span style={{ left: `${(100 * tick) / end}%` }}>{numberText(tick)}</span>
        ))}
      </div>
      <p>{title}</p>
      <ul class="legend">
        {activities.map((activity) => (
          <li>
            <span class={`key ${activityClass(activity)}`} />
            {activity}
          </li>
        ))}
      </ul>
      <ul class="legend">
        <li>tip, below:</li>
        {states.map((state) => (
          <li>
            <span class={`key ${stateClass({ state })}`} />
            {state}
          </li>
        ))}
      </ul>
    </div>
  );
}

const activityClass = (activity: DrawnRow['activities'][number]['what']): string =>
  `activity-${ACTIVITY_NUMBER[activity] + 1}`;
const stateClass = ({ state }: Pick<DrawnRow['tips'][number]['what'], 'state'>): string =>
  `tip-${STATES.indexOf(state) + 1}`;

interface RowProps {
  readonly row: DrawnRow;
  readonly end: number;
  readonly rates: RateLimits | null;
}

function Row({ row: { name, activities, tips, drift, cuts }, end, rates }: RowProps) {
  const frame = { viewBox: `0 0 ${end} 1`, preserveAspectRatio: 'none' };
  return (
    <>
      <p>{name}</p>
      <svg class="activities" {...frame}>
        {boxes(activities, activityClass)}
        {cuts.map((cut) => (
          <path d={`M${cut} 0V.2`} />
        ))}
      </svg>
      <svg class="tips" {...frame}>
        {boxes(tips, stateClass)}
      </svg>
      {rates === null || drift.length === 0 ? null : (
        <div class="drift">
          <span>{rates.high} nm/s</span>
          <svg {...frame}>
            <path d={stepsOf(drift, rates)} />
          </svg>
          <span>{rates.low} nm/s</span>
        </div>
      )}
    </>
  );
}

function boxes<What>(blocks: readonly Block<What>[], look: (what: What) => string) {
  return blocks.map(({ start, end, what, from, to }) => (
    <rect class={look(what)} x={start} width={end - start} y={1 - to} height={to - from} />
  ));
}

/** A stepped line on a logarithmic scale, the greatest rate at the top. */
function stepsOf(drift: readonly Stretch<number>[], { low, high }: RateLimits): string {
  const at = (rate: number) => 1 - Math.log(Math.max(rate, low) / low) / Math.log(high / low);
  const steps = drift.map(({ end, what }) => `V${at(what)}H${end}`);
  return `M${drift[0].start} ${at(drift[0].what)}${steps.join('')}`;
}
