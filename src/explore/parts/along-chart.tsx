import { useCallback } from 'preact/hooks';
import { STRATEGY_DASHES } from '../../report/palette.js';
import type { Table } from '../../report/table.js';
import { plainText, unbroken } from '../../report/text.js';
import { Figure, Legend } from '../../page/parts/figure.js';
import { axis, dashedUpright, type Drawn, type Palette, painting, Plot } from '../../page/parts/plot.js';
import { estimateLine, numberText, SHARE, unitName, workScale } from '../../wording/numbers.js';
import { shellLine } from '../../scenario/shell-line.js';
import { listed, quoted } from '../../wording/phrases.js';
import { type Along, rangeText, writtenIn } from '../engine/along-values.js';

/** Instrument time along the range of a value: where two lines cross, strategies break even; of a value that is chosen, a ring stands at the best for each. */
export function AlongChart({ along, file }: { readonly along: Along; readonly file: string }) {
  const draw = useCallback((palette: Palette) => drawnOf(along, palette), [along]);
  const names = along.strategies.map(plainText);
  const title = 'Instrument time along the range';
  const lines = [
    ...(names.length < 2 ? [] : [breakEvenLine(along, file)]),
    ...along.tuned.map(({ strategy }) => shellLine('tune', file, { strategy, vary: rangeText(along) })),
  ];
  return (
    <>
      <Figure
        title={title}
        caption={`Means of ${along.replications} replications with common random numbers. The vertical line stands at the present value${along.slider.isPlausible ? '' : '; a ring at the best value of a strategy'}.`}
        table={tableOf(along)}
      >
        <Legend names={names} />
        <Plot
          height={170}
          label={`${title}, a line for each strategy; the numbers are in the table below.`}
          draw={draw}
        />
      </Figure>
      <div role="status" class="said">
        {breakEvenTexts(along).map((text) => (
          <p>{unbroken(plainText(text))}</p>
        ))}
        {along.tuned.map(({ strategy, said }) => (
          <p>
            <b>Best for {quoted(plainText(strategy))}:</b> {unbroken(plainText(said.join(' ')))}
          </p>
        ))}
        {along.isTuning === null ? null : (
          <p class="note">Looking for the best value for {quoted(plainText(along.isTuning))} …</p>
        )}
      </div>
      <details>
        <summary>The same as reports</summary>
        <pre>{lines.join('\n')}</pre>
      </details>
    </>
  );
}

/** Where each strategy breaks even with the first one, as far as the differences at the values tell. */
export function breakEvenTexts({ strategies: [first, ...others], points, slider }: Along): readonly string[] {
  const written = (at: number) => String(writtenIn(slider, at));
  return others.flatMap((name, place) => {
    const differences = points.map(({ difference }) => difference[place + 1].value);
    // Neither of the two hangs on the value.
    if (differences.every((each) => each === differences[0])) return [];
    const signs = points.map(({ at, difference }) => {
      const { low, high } = difference[place + 1];
      return { at, sign: high < 0 ? -1 : low > 0 ? 1 : 0 };
    });
    const clear = signs.filter(({ sign }) => sign !== 0);
    const less = (sign: number) => quoted(sign < 0 ? name : first);
    if (clear.length === 0) return `No clear difference in time between ${quoted(first)} and ${quoted(name)} anywhere.`;
    const turns = clear
      .slice(1)
      .flatMap((each, before) => (each.sign === clear[before].sign ? [] : [[clear[before], each]]));
    if (turns.length > 0)
      return `${quoted(first)} and ${quoted(name)} break even between ${listed(
        turns.map(([from, to]) => `${written(from.at)} and ${written(to.at)}`),
      )}: below, ${less(turns[0][0].sign)} takes less time.`;
    const where =
      clear.length === signs.length
        ? 'all along'
        : `at ${clear.length} of ${signs.length} values, with no clear difference at the others`;
    return `${less(clear[0].sign)} takes less time than ${less(-clear[0].sign)} ${where}.`;
  });
}

/** The command that finds the break-even of the first strategy with the one that it crosses, else with the last. */
function breakEvenLine(along: Along, file: string): string {
  const { strategies, points, path, slider } = along;
  const others = strategies.slice(1);
  const crossed = others.findIndex((_, place) =>
    [-1, 1].every((sign) => points.some(({ difference }) => sign * difference[place + 1].value > 0)),
  );
  const [low, high] = [points[0], points[points.length - 1]].map(({ at }) => at);
  return shellLine('breakeven', file, {
    vary: `${path}=${low}..${writtenIn(slider, high)}`,
    between: strategies[0],
    and: others.at(crossed),
  });
}

function scaleOf({ points }: Along) {
  return workScale(Math.max(...points.flatMap(({ time }) => time.map(({ value }) => value))));
}

function tableOf(along: Along): Table {
  const { points, strategies, slider } = along;
  const scale = scaleOf(along);
  return {
    columns: [
      { label: 'Value' },
      ...strategies.flatMap((name) => [
        { label: `${name}, time`, numeric: true },
        { label: `${name}, yield`, numeric: true },
      ]),
    ],
    rows: points.map((point) => [
      `${point.at} ${slider.unit}`.trim(),
      ...strategies.flatMap((_, place) => [
        estimateLine(point.time[place], scale),
        estimateLine(point.yield[place], SHARE),
      ]),
    ]),
  };
}

/** Where the present value lies among the points, which stand at equal distances; outside of them just beyond the nearest. */
function placeOf({ at, isByFactors }: Along['slider'], points: Along['points']): number {
  const after = points.findIndex((point) => point.at >= at);
  if (after < 0) return points.length - 0.8;
  if (points[after].at === at) return after;
  if (after === 0) return -0.2;
  const scaled = (value: number) => (isByFactors ? Math.log(value) : value);
  const [from, to] = [points[after - 1].at, points[after].at];
  return after - 1 + (scaled(at) - scaled(from)) / (scaled(to) - scaled(from));
}

function drawnOf(along: Along, palette: Palette): Drawn {
  const { points, strategies, slider } = along;
  const scale = scaleOf(along);
  const present = placeOf(slider, points);
  return {
    data: [
      points.map((_, place) => place),
      ...strategies.map((_, place) => points.map(({ time }) => time[place].value / scale.divisor)),
    ],
    options: {
      legend: { show: false },
      cursor: { show: false },
      scales: { x: { time: false, range: [-0.3, points.length - 0.7] } },
      axes: [
        axis(palette, {
          ...(slider.unit === '' ? {} : { label: slider.unit }),
          size: 34,
          splits: points.map((_, place) => place),
          values: (_, places) => places.map((place) => numberText(points[place].at)),
        }),
        axis(palette, { label: unitName(scale), size: 50 }),
      ],
      series: [
        {},
        ...strategies.map((_, place) => ({
          ...{ stroke: palette.strategy(place), width: 2, points: { show: true, size: 5 } },
          dash: place === 0 ? [] : [...STRATEGY_DASHES[place % STRATEGY_DASHES.length]],
        })),
      ],
      hooks: {
        draw: [
          painting((chart, context, pixel) => {
            const x = chart.valToPos(present, 'x', true);
            context.strokeStyle = palette.ink;
            context.lineWidth = pixel;
            dashedUpright(chart, context, x, [4 * pixel, 3 * pixel]);
            context.lineWidth = 2 * pixel;
            for (const { strategy, at: best } of along.tuned) {
              const place = points.findIndex((point) => point.at === best);
              if (place < 0) continue;
              const line = strategies.indexOf(strategy);
              const height = points[place].time[line].value / scale.divisor;
              context.strokeStyle = palette.strategy(line);
              context.beginPath();
              context.arc(
                chart.valToPos(place, 'x', true),
                chart.valToPos(height, 'y', true),
                7 * pixel,
                0,
                2 * Math.PI,
              );
              context.stroke();
            }
          }),
        ],
      },
    },
  };
}
