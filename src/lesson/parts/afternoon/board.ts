import { clockText } from '../../../study/timeline.js';
import { imagesWith, keptAt, knownAt, scanAt, stepAt, tallyAt } from '../../afternoon/moment.js';
import { element, pictureOf } from '../../dom.js';
import type { Stage } from '../../part.js';
import { accountsTable, truthList } from './afterwards.js';
import { LookAgain } from './again.js';
import { ScanView } from './canvas.js';
import type { Game } from './game.js';
import { TallyTable } from './tally.js';
import { radiusKnown, tipName } from './words.js';

/** Entries of the notebook that are shown. */
const NOTES = 5;
const FACTS = ['Clock', 'Now', 'Images kept', 'Tip', 'Images with it', 'Its apex radius'] as const;

/** What is seen of an afternoon: the image, the clock, what is known of the tip, where the time went, and at the end what was hidden. */
export class Board {
  readonly content: readonly Node[];
  private readonly scans: ScanView;
  private readonly tally = new TallyTable();
  private readonly facts = new Map(FACTS.map((name) => [name, element('dd', {}, '–')]));
  private readonly notes = element('ol', { class: 'notebook', 'aria-label': 'Notebook' });
  private readonly after = element('div', { class: 'after', hidden: true });
  private readonly again = new LookAgain(() => {
    this.showAgain();
  });
  /** What stands in the notebook, and whether the end is shown. */
  private noted = -1;
  private ended: unknown = null;

  constructor(stage: Stage, replication: () => number) {
    this.scans = new ScanView(stage, replication);
    this.content = [
      element(
        'div',
        { class: 'bench' },
        this.scans.content,
        element(
          'div',
          {},
          element(
            'dl',
            { class: 'tiles' },
            ...[...this.facts].map(([name, value]) => element('div', {}, element('dt', {}, name), value)),
          ),
          this.notes,
        ),
      ),
      element(
        'div',
        { class: 'wide', role: 'group', tabindex: 0, 'aria-label': 'Where the time went' },
        this.tally.content,
      ),
      this.after,
    ];
  }

  clear(): void {
    this.scans.clear();
    this.noted = -1;
  }

  /** In one sentence what goes on. */
  now({ playing, time }: Game): string {
    const step = stepAt(playing, time);
    const what = step === null ? '' : step.words === 'wait' ? step.activity : step.words;
    return `${clockOf(playing.startsAt + time)}: ${what === '' ? 'nothing' : what}.`;
  }

  show(game: Game): void {
    const { playing, time } = game;
    const step = stepAt(playing, time);
    const known = knownAt(playing, time);
    this.put('Clock', clockOf(playing.startsAt + time));
    this.put('Now', step === null ? still(game) : step.words === 'wait' ? step.activity : step.words);
    this.put('Images kept', `${keptAt(playing, time)} of ${playing.images}`);
    this.put('Tip', known === null ? '–' : tipName(known));
    this.put(
      'Images with it',
      known === null ? '–' : String(game.asked === null ? imagesWith(playing, known, time) : known.images),
    );
    this.put('Its apex radius', known === null ? '–' : radiusKnown(known));
    this.tally.show(tallyAt(playing, time));
    const scan = scanAt(playing, time);
    if (scan !== null && !game.isOver) this.scans.show(scan.scan, scan.done, false);
    this.note(game);
    this.end(game);
  }

  private showAgain(): void {
    const { chosen } = this.again;
    if (chosen !== null) this.scans.show(chosen, chosen.duration, true);
  }

  private put(name: (typeof FACTS)[number], text: string): void {
    const value = this.facts.get(name);
    if (value !== undefined && value.textContent !== text) value.textContent = text;
  }

  private note({ playing, time }: Game): void {
    const told = playing.told.filter((each) => each.time <= time);
    if (told.length === this.noted) return;
    this.noted = told.length;
    this.notes.replaceChildren(
      ...told
        .slice(-NOTES)
        .map((each) => element('li', {}, `${clockOf(playing.startsAt + each.time)} ${each.what}: ${each.detail}`)),
    );
  }

  private end({ afterwards, playing }: Game): void {
    if (afterwards === this.ended) return;
    this.ended = afterwards;
    this.after.hidden = afterwards === null;
    if (afterwards === null) return;
    this.again.fill(playing.steps);
    this.showAgain();
    this.after.replaceChildren(
      this.again.content,
      element('h3', {}, 'What was hidden'),
      truthList(afterwards, playing.startsAt),
      element('h3', {}, 'The same luck by the rules'),
      element(
        'div',
        { class: 'wide', role: 'group', tabindex: 0, 'aria-label': 'Both afternoons' },
        accountsTable(afterwards),
      ),
      element(
        'figure',
        {},
        element(
          'div',
          { class: 'wide', role: 'group', tabindex: 0, 'aria-label': 'Both afternoons (picture)' },
          pictureOf(afterwards.svg),
        ),
      ),
    );
  }
}

function clockOf(seconds: number): string {
  return clockText(seconds * 1e6).replace(/:\d\d$/u, '');
}

/** What is said where no step runs. */
function still({ isOver, asked }: Game): string {
  if (isOver) return 'over';
  return asked === null ? '–' : 'waits for you';
}
