import { useMemo } from 'preact/hooks';
import { type Curve, Curves } from '../../page/parts/curves.js';
import type { NumberSetting } from '../state.js';
import type { Varied as Answer } from '../tasks/settings.js';
import { StatusLine } from './controls.js';
import { Figure, type FigureData } from './figure.js';

interface VariedProps<Point> {
  /** What has been said of it. */
  readonly asked: {
    readonly latest: { readonly answer: Answer<Point> } | null;
    readonly whole: { readonly answer: Answer<Point>; readonly question: { readonly chosen: number } } | null;
    readonly fault: string | null;
  };
  readonly setting: NumberSetting;
  /** What is varied, as the axis has it. */
  readonly title: string;
  /** The person's choice. */
  readonly chosen: number;
  readonly caption: string;
  readonly curves: (points: readonly Point[]) => readonly Curve[];
  /** The numbers, over so many campaigns. */
  readonly data: (points: readonly Point[], campaigns: number) => FigureData;
  /** The person's choice beside the others. */
  readonly comparison: (mine: Point, points: readonly Point[]) => string;
}

/** What comes of a value at some of its settings: curves, their numbers, and a sentence about the person's choice. */
export function Varied<Point extends { readonly at: number }>(props: VariedProps<Point>) {
  const { asked, setting, title, chosen, caption, curves, data } = props;
  const { latest, whole, fault } = asked;
  const answer = latest?.answer ?? null;
  const drawn = useMemo(() => curves(answer?.points ?? []), [answer]);
  return (
    <>
      <Figure caption={caption} far={answer} data={answer && data(answer.points, answer.done)}>
        <Curves curves={drawn} {...{ title, chosen, least: setting.least, most: setting.most }} />
      </Figure>
      <StatusLine>{fault ?? (whole && said(whole.answer, whole.question.chosen, props.comparison))}</StatusLine>
    </>
  );
}

function said<Point extends { readonly at: number }>(
  { points, refused }: Answer<Point>,
  chosen: number,
  comparison: VariedProps<Point>['comparison'],
): string {
  const impossible = refused.find(({ at }) => at === chosen);
  if (impossible !== undefined) return `Nobody should measure like this: ${impossible.message}`;
  const mine = points.find(({ at }) => at === chosen);
  return mine === undefined ? '' : comparison(mine, points);
}
