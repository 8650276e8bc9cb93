import type { StudyRecord } from '../analysis/about.js';
import type { Answer } from '../analysis/answer.js';
import { isInterrupted } from '../analysis/interrupted.js';
import { answerBox, answerText, findingsSection, type TerminalTable } from './answer.js';
import type { Chart } from './charts/chart.js';
import { numberText } from '../wording/numbers.js';
import { madeMeanwhile } from './meanwhile.js';
import { picturesSection, studyPage } from './page.js';
import { cautionsSection, citation, howComputedSection, inCharts } from './page/method.js';
import { type Draw, drawCharts, type Pictures } from './pictures.js';
import { prettyJson } from './json.js';
import { recordFacts } from './study-facts.js';
import type { Styles } from './styles.js';

/** What a file holds; what may be long in parts, which are made as they are read, once. */
export type Content = string | Iterable<string>;

/** How the result of a study is shown: the same result gives the same bytes. Nothing is written here. */
export interface Report<Result> {
  /** Its charts, a list for each place in the page. */
  readonly charts: (result: Result) => readonly ChartList[];
  /**
   * @param figures HTML for each list of charts
   * @param isWhole false where somebody waits, so that what takes long was left out
   */
  readonly page: (result: Result, figures: readonly (readonly string[])[], isWhole: boolean) => string;
  /** For the terminal; all that was found where that is asked for. */
  readonly text: (result: Result, styles: Styles, columns?: number, isVerbose?: boolean) => string;
  /** `summary.json`. */
  readonly json: (result: Result) => Content;
  /** What stands beside page, summary and charts, by name; null where a result has none. */
  readonly files: Readonly<Record<string, (result: Result, isWhole: boolean) => Content | null>>;
}

/** Charts with what they show. */
export type ChartList = (draw: Draw | null | undefined) => Promise<Pictures>;

export function chartList<Shown>(charts: readonly Chart<Shown>[], shown: Shown): ChartList {
  return (draw) => drawCharts(charts, shown, draw);
}

/**
 * All files of a report by their name inside its folder, such as `charts/finish.svg`. Throws only where a chart of ours is wrong.
 * @param draw null where somebody waits: what takes long is then left out, pictures above all
 */
export async function reportFiles<Result>(
  { charts, page, json, files }: Report<Result>,
  result: Result,
  draw?: Draw | null,
): Promise<ReadonlyMap<string, Content>> {
  const isWhole = draw !== null;
  const drawn = Promise.all(charts(result).map((list) => list(draw)));
  const beside = new Map<string, Content>();
  for (const [name, content] of Object.entries(files)) {
    const made = content(result, isWhole);
    if (made !== null) beside.set(name, typeof made === 'string' ? made : await madeMeanwhile(made, drawn));
  }
  const pictures = await drawn;
  const figures = pictures.map((each) => each.figures);
  return new Map([
    ...pictures.flatMap((each) => [...each.files]),
    ['report.html', page(result, figures, isWhole)],
    ['summary.json', json(result)],
    ...beside,
  ]);
}

/** The report of a study whose result is of one kind or another. */
export function eitherReport<First, Second>(
  isFirst: (result: First | Second) => result is First,
  first: Report<First>,
  second: Report<Second>,
): Report<First | Second> {
  const own = (result: First | Second) => (isFirst(result) ? of(first, result) : of(second, result));
  const names = Object.keys({ ...first.files, ...second.files });
  return {
    charts: (result) => own(result).charts(),
    page: (result, figures, isWhole) => own(result).page(figures, isWhole),
    text: (result, styles, columns, isVerbose) => own(result).text(styles, columns, isVerbose),
    json: (result) => own(result).json(),
    files: Object.fromEntries(
      names.map((name) => [name, (result: First | Second, isWhole: boolean) => own(result).file(name, isWhole)]),
    ),
  };
}

/** The report of one result. */
function of<Result>({ charts, page, text, json, files }: Report<Result>, result: Result) {
  return {
    charts: () => charts(result),
    page: (figures: readonly (readonly string[])[], isWhole: boolean) => page(result, figures, isWhole),
    text: (styles: Styles, columns?: number, isVerbose?: boolean) => text(result, styles, columns, isVerbose),
    json: () => json(result),
    file: (name: string, isWhole: boolean) => new Map(Object.entries(files)).get(name)?.(result, isWhole) ?? null,
  };
}

/** A result that is an answer in words, with what it rests on. */
interface Answered extends StudyRecord<string> {
  readonly stopping: string;
}

/** What is shown of an answer; texts are plain unless they are said to be HTML. */
export interface Shown {
  /** One line above the title that says what kind of study this is. */
  readonly kicker: string;
  /** Name and text of what was studied. */
  readonly facts: readonly (readonly [string, string])[];
  readonly answer: Answer;
  readonly warnings: readonly string[];
  /** What was run, as it is cited, such as `8000 campaigns`. */
  readonly run: string;
  /** The terminal: what was run, and its tables, the most telling first. */
  readonly terminal: {
    readonly run: string;
    readonly tables: (columns?: number) => readonly TerminalTable[];
  };
  /** Sections of the page above and below its charts, as HTML; what was found stands behind the charts. */
  readonly above?: readonly string[];
  readonly below?: readonly string[];
  /** How it was computed. */
  readonly intro: string;
  readonly method: readonly (readonly [string, string])[];
  /** Which files hold the rest, and what else is said behind them; names in backticks. */
  readonly rest: string;
  readonly restAfter?: string;
}

/** The report of a study whose result is an answer in words: page and terminal in the one order that such studies share. */
export function answerReport<Result extends Answered>({
  charts,
  files,
  shown,
}: Pick<Report<Result>, 'files'> & {
  readonly charts: (result: Result) => readonly Chart<Result>[];
  readonly shown: (result: Result) => Shown;
}): Report<Result> {
  return {
    files,
    json: prettyJson,
    charts: (result) => [chartList(charts(result), result)],
    page: (result, [figures]) => answerPage(result, shown(result), figures),
    text: (result, styles, columns, isVerbose) => {
      const { answer, warnings, terminal } = shown(result);
      const { scenario, seed } = result;
      const about = `${numberText(scenario.images)} images, ${terminal.run}, seed ${seed}`;
      const told = { title: scenario.title, about, answer, tables: terminal.tables(columns), warnings };
      return answerText(told, styles, columns, isVerbose);
    },
  };
}

function answerPage(result: Answered, shown: Shown, figures: readonly string[]): string {
  const { stopping, command } = result;
  return studyPage({
    kicker: shown.kicker,
    record: result,
    facts: shown.facts,
    sections: [
      answerBox(shown.answer, shown.warnings),
      ...(shown.above ?? []),
      picturesSection(figures),
      findingsSection(shown.answer),
      ...(shown.below ?? []),
      cautionsSection(result.scenario),
      howComputedSection({
        isStopped: isInterrupted(stopping),
        intro: shown.intro,
        facts: [...shown.method, ...recordFacts(result)],
        command,
        cite: `${citation(result, shown.run)} ${shown.rest}${inCharts(stopping)}${shown.restAfter ?? ''}.`,
      }),
    ],
  });
}
