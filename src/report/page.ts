import type { AboutScenario, Granted, StudyRecord } from '../analysis/about.js';
import { numberText, workScale } from '../wording/numbers.js';
import { hoursRead, imagesText } from '../wording/phrases.js';
import { shortToolText } from './study-facts.js';
import { styleSheet } from './style.js';
import { html } from './text.js';

const NO_SCRIPT = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

/** A page that needs nothing from outside and, by its usual policy, runs no script. `body` is HTML, `title` plain text, `style` CSS. */
export function document(title: string, body: string, style = styleSheet(), policy = NO_SCRIPT): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${html(title)}</title>
<style>
${style}
</style>
</head>
<body>
${body}
</body>
</html>
`;
}

/** What every report page has, from its head to its foot. Texts are plain; `sections` are HTML. */
export interface PageParts {
  /** One line above the title that says what kind of study this is. */
  readonly kicker: string;
  /** What was studied: a scenario, or what stands in its place, such as a log. */
  readonly record: Pick<StudyRecord<string>, 'tool'> & {
    /** Null where nothing is left to chance. */
    readonly seed: string | null;
    readonly scenario: Pick<AboutScenario, 'title' | 'about' | 'file'>;
  };
  /** Name and text of what was studied. */
  readonly facts: readonly (readonly [string, string])[];
  readonly sections: readonly string[];
}

/** A report page in the one frame that all studies share. */
export function studyPage({ kicker, record, facts, sections }: PageParts): string {
  const { scenario, tool, seed } = record;
  const about = scenario.about === null ? '' : `<p class="about">${html(scenario.about)}</p>`;
  // What is read first is the answer; what it is an answer about stands below it.
  const [answer, ...rest] = sections;
  const body = `<header>
<p class="kicker">${html(kicker)}</p>
<h1>${html(scenario.title)}</h1>
<dl class="facts">${facts.map(([name, text]) => `<div><dt>${html(name)}</dt><dd>${html(text)}</dd></div>`).join('')}</dl>
</header>
<main>
${[answer, about, ...rest].filter((section) => section !== '').join('\n')}
</main>
<footer>${html(shortToolText(tool))} · ${html(scenario.file)}${seed === null ? '' : ` · seed ${html(seed)}`}</footer>`;
  return document(scenario.title, body);
}

/** The facts of a plan, for the head of its page. */
export function planFacts(scenario: AboutScenario, granted: Granted | null): readonly (readonly [string, string])[] {
  return [
    ['Plan', imagesText(scenario.images, scenario.regions, scenario.samples.length)],
    ['Scan time', numberText(scenario.scanTime, workScale(scenario.scanTime))],
    ['Sliding path', numberText(scenario.slidingPath, { divisor: 1, unit: 'mm' })],
    ['Order', scenario.order],
    ['Bookings', hoursRead(scenario.bookings)],
    ...(scenario.instruments > 1 ? [['Instruments', String(scenario.instruments)] as const] : []),
    ...(scenario.operators > 1 ? [['Operators', String(scenario.operators)] as const] : []),
    ...(granted === null ? [] : [['Granted', granted.text] as const]),
  ];
}

/** The part of a page that holds its charts; nothing where there are none. */
export function picturesSection(figures: readonly string[], title = 'Charts'): string {
  if (figures.length === 0) return '';
  return `<section aria-labelledby="charts">
<h2 id="charts">${html(title)}</h2>
${figures.join('\n')}
</section>`;
}
