/// <reference lib="dom" />
import type { ComponentChildren } from 'preact';
import { useCallback, useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { shellLine } from '../../scenario/shell-line.js';
import { plainText } from '../../report/text.js';
import { numberText } from '../../wording/numbers.js';
import { type Answers, NO_ANSWERS } from '../../guide/questions.js';
import { scenarioText } from '../../guide/scenario-text.js';
import type { Embedded } from '../shell.js';
import type { Field } from '../engine/form.js';
import { MOST } from '../engine/stages.js';
import { KICKER } from '../../studies/compare/page/headline.js';
import { AnswerPane } from './answer.js';
import { opened as openedFile } from '../../page/parts/files.js';
import { Entry } from './entry.js';
import { Guide } from './guide.js';
import { PlanForm } from './form.js';
import { linkedIn, linkTo } from './link.js';
import { MeasureFirst } from './measure-first.js';
import { Faults, ScenarioText } from './scenario-text.js';
import { type OnOpen, OpenFile, Tools } from './tools.js';
import { type Asking, type Seen, useExplorer } from './use-explorer.js';

interface AppProps {
  readonly embedded: Embedded;
  readonly worker: string;
}

/** The whole page. */
export function App({ embedded, worker }: AppProps) {
  const [seen, asking] = useExplorer(worker);
  const [file, setFile] = useState<string | null>(null);
  const [answers, setAnswers] = useState<Answers | null>(null);
  const [opened, setOpened] = useState<ReadonlyMap<string, Field>>(new Map());
  const isFresh = useRef(true);
  const linked = useRef(linkedIn(location.hash));
  const open = useCallback(
    (name: string, text: string) => {
      isFresh.current = true;
      setFile(name);
      setAnswers(null);
      asking.setText(text);
    },
    [asking],
  );
  const answer = useCallback(
    (given: Answers) => {
      isFresh.current = true;
      setFile('my-plan.yaml');
      setAnswers(given);
      asking.setText(scenarioText(given));
    },
    [asking],
  );
  useEffect(() => {
    if (linked.current?.kind === 'text') open('linked.yaml', linked.current.text);
    else if (embedded.scenario !== null) open(embedded.scenario.file, embedded.scenario.text);
  }, [embedded, open]);
  useEffect(() => {
    const form = seen.reading?.form ?? null;
    if (form === null || !isFresh.current) return;
    isFresh.current = false;
    setOpened(new Map(form.groups.flatMap(({ fields }) => fields.map((field) => [field.path, field]))));
    if (linked.current?.kind === 'values')
      for (const [path, value] of linked.current.values) asking.setValue(path, value);
    linked.current = null;
  }, [seen.reading, asking]);
  useDropped(open);
  if (file === null) return <Start {...{ embedded, onOpen: open, onAnswers: answer }} />;
  const guide =
    answers === null ? null : (
      <Guide
        {...{ answers, faults: seen.reading?.faults ?? [], onAnswers: answer }}
        onDone={() => {
          setAnswers(null);
        }}
      />
    );
  return <Explored {...{ seen, asking, file, opened, isOwn: file === embedded.scenario?.file, guide, onOpen: open }} />;
}

/** Opens what is dropped anywhere on the page. */
function useDropped(onOpen: OnOpen): void {
  useEffect(() => {
    const over = (event: DragEvent) => {
      event.preventDefault();
    };
    const drop = (event: DragEvent) => {
      event.preventDefault();
      void openedFile(event.dataTransfer?.files).then((found) => {
        if (found !== null) onOpen(found.file, found.text);
      });
    };
    addEventListener('dragover', over);
    addEventListener('drop', drop);
    return () => {
      removeEventListener('dragover', over);
      removeEventListener('drop', drop);
    };
  }, [onOpen]);
}

interface StartProps {
  readonly embedded: Embedded;
  readonly onOpen: OnOpen;
  readonly onAnswers: (answers: Answers) => void;
}

function Start({ embedded, onOpen, onAnswers }: StartProps) {
  return (
    <main class="start">
      <p class="kicker">{KICKER}</p>
      <h1>Does hopping pay on your plan?</h1>
      <p>
        Tips wear, pick up contamination and break while you measure. This page simulates a plan thousands of times,
        with probes swapped by hand and with the specimen hopping from tip to tip over a chip (array-hop), and says how
        many hours each takes and how much of the data is good. Everything runs here; nothing leaves this page.
      </p>
      <div class="row">
        <button
          type="button"
          class="main"
          onClick={() => {
            onAnswers(NO_ANSWERS);
          }}
        >
          Begin with a few questions
        </button>
        <OpenFile onOpen={onOpen} />
        <button
          type="button"
          onClick={() => {
            onOpen(embedded.example.file, embedded.example.text);
          }}
        >
          Look at an example
        </button>
      </div>
    </main>
  );
}

interface ExploredProps {
  readonly seen: Seen;
  readonly asking: Asking;
  readonly file: string;
  readonly opened: ReadonlyMap<string, Field>;
  /** Whether it is the scenario that the page was made for. */
  readonly isOwn: boolean;
  /** The questions, while they are asked. */
  readonly guide: ComponentChildren;
  readonly onOpen: OnOpen;
}

function Explored({ seen, asking, file, opened, isOwn, guide, onOpen }: ExploredProps) {
  const { form, reading, text, answer, isOld, progress, failure } = seen;
  const [view, setView] = useState<'form' | 'text'>('form');
  const faults = useMemo(() => reading?.faults ?? [], [reading]);
  const isShown = view === 'form' && form !== null;
  return (
    <>
      <header>
        <p class="kicker">{KICKER}</p>
        <h1>{plainText(form?.title ?? file)}</h1>
        <Tools
          {...{ asking, file, text, onOpen }}
          pinned={answer?.pinned.map(({ slot }) => slot) ?? []}
          link={() => {
            const now = reading?.form ?? null;
            return now === null ? null : linkTo(location.href, now, text, isOwn ? opened : null);
          }}
        />
      </header>
      <main class="explore">
        <section class="plan" aria-label="The plan">
          <h2 class="hidden">The plan</h2>
          {guide ?? (
            <>
              <div class="row switch" role="group" aria-label="Show the plan as">
                {(['form', 'text'] as const).map((each) => (
                  <button
                    type="button"
                    aria-pressed={view === each}
                    onClick={() => {
                      setView(each);
                    }}
                  >
                    {each === 'form' ? 'Form' : 'YAML text'}
                  </button>
                ))}
              </div>
              {isShown ? (
                <>
                  <Faults faults={faults.filter(({ severity }) => severity === 'error')} onGo={null} />
                  <PlanForm
                    form={form}
                    opened={opened}
                    faults={faults}
                    onValue={asking.setValue}
                    along={seen.along}
                    onLook={asking.lookAlong}
                    file={file}
                  />
                </>
              ) : (
                <ScenarioText text={text} faults={faults} onText={asking.setText} />
              )}
            </>
          )}
        </section>
        <section class={`answer${isOld ? ' old' : ''}`} aria-label="The answer" aria-busy={progress !== null}>
          <Status seen={seen} />
          {failure === null ? null : <p class="fault">{plainText(failure)}</p>}
          {answer === null ? null : <AnswerPane answer={answer} />}
          <MeasureFirst seen={seen} file={file} onWeigh={asking.weigh} />
          {answer === null ? null : <Replications asking={asking} file={file} />}
        </section>
      </main>
    </>
  );
}

/** More take longer than anybody waits before a page. */
const MOST_ASKED = 100_000;

/** How many replications the figures come to, and the command that gives the same numbers. */
function Replications({ asking, file }: { readonly asking: Asking; readonly file: string }) {
  const [most, setMost] = useState(MOST);
  return (
    <div class="row">
      <label>
        Replications{' '}
        <Entry
          value={String(most)}
          onPut={(text) => {
            const wanted = Math.min(MOST_ASKED, Math.max(2, Math.floor(Number(text))));
            if (!Number.isFinite(wanted)) return;
            setMost(wanted);
            asking.runTo(wanted);
          }}
        />
      </label>
      <p class="note">
        The same numbers come of the saved file by{' '}
        <code>{shellLine('compare', file, { replications: String(most) })}</code>
      </p>
    </div>
  );
}

/** How far it is; of which setting the figures are. */
function Status({ seen: { answer, isOld, progress, reading } }: { readonly seen: Seen }) {
  const isRun = reading?.form !== null;
  const done = answer === null ? 'no figures yet' : `${numberText(answer.summary.replications)} replications`;
  const whose = isOld && answer !== null ? ' (of an earlier setting)' : '';
  const what = !isRun
    ? 'This scenario has faults; the figures are of the last one without.'
    : progress === null
      ? answer === null
        ? ''
        : `Complete: ${done}, limits of unmeasured values tried`
      : `${progress.phase} … ${done}${whose}`;
  return (
    <div class="status">
      <p role="status">
        {what}
        {progress === null && isRun && answer !== null ? (
          <span class="hidden">. {plainText(answer.summary.verdict.headline[0])}</span>
        ) : null}
      </p>
      <progress max={1} value={progress === null ? 1 : progress.share} aria-label="Computed so far" />
    </div>
  );
}
