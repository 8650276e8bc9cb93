import { durationText } from '../../../report/format.js';
import { clockText } from '../../../study/timeline.js';
import { element, pictureOf } from '../../dom.js';
import type { Stage } from '../../part.js';
import { imagesWith, keptAt, knownAt, scanAt, stepAt, tallyAt } from '../../session/moment.js';
import { imagesText } from '../../words.js';
import { accountsTable, truthList } from './afterwards.js';
import { LookAgain } from './again.js';
import { ScanView } from './canvas.js';
import type { Game } from './game.js';
import { TallyTable } from './tally.js';
import { radiusKnown, tipName } from './words.js';

/** Entries of the notebook that are shown. */
const NOTES = 3;
const FACTS = ['Clock', 'Booked time left', 'Now', 'Images kept', 'Tip', 'Apex radius'] as const;

/** What is seen of a session: the image, the clock, what is known of the tip, where the time went, and at the end the truth. */
export class Board {
  /** The image. */
  readonly screen: HTMLElement;
  /** What is known, and at the end the images to be looked at again. */
  readonly panel: HTMLElement;
  /** Where the time went, and what is shown once the session is over. */
  readonly below: readonly Node[];
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
    this.screen = this.scans.content;
    this.panel = element(
      'div',
      { class: 'panel' },
      element(
        'dl',
        { class: 'tiles' },
        ...[...this.facts].map(([name, value]) => element('div', {}, element('dt', {}, name), value)),
      ),
      this.again.content,
      this.notes,
    );
    this.below = [
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

  /** In one sentence how it ended. */
  ending({ playing, afterwards }: Game): string {
    const { images, end, startsAt, bookedUntil } = playing;
    const isComplete = afterwards?.accounts[0].isComplete === true;
    const isBookedUp = bookedUntil !== null && end >= bookedUntil;
    const why = isComplete ? 'every image is done' : isBookedUp ? 'the booked time ends' : 'what is needed has run out';
    return `The session is over at ${clockOf(startsAt + end)}, as ${why}: ${keptAt(playing, end)} of ${imagesText(images)} kept.`;
  }

  show(game: Game): void {
    const { playing, time } = game;
    const step = stepAt(playing, time);
    const known = knownAt(playing, time);
    this.put('Clock', clockOf(playing.startsAt + time));
    this.put('Booked time left', leftText(game));
    this.put('Now', step === null ? still(game) : step.words === 'wait' ? step.activity : step.words);
    this.put('Images kept', `${keptAt(playing, time)} of ${playing.images}`);
    const used = known === null ? 0 : game.asked === null ? imagesWith(playing, known, time) : known.images;
    this.put('Tip', known === null ? '–' : `${tipName(known)}, ${imagesText(used)}`);
    this.put('Apex radius', known === null ? '–' : radiusKnown(known));
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
    this.notes.hidden = afterwards !== null;
    this.again.fill(afterwards === null ? [] : playing.steps);
    if (afterwards === null) return;
    this.showAgain();
    this.after.replaceChildren(
      element('h3', {}, 'Your decisions and the rules'),
      element(
        'div',
        { class: 'wide', role: 'group', tabindex: 0, 'aria-label': 'Both sessions' },
        accountsTable(afterwards),
      ),
      element(
        'figure',
        {},
        element(
          'div',
          { class: 'wide', role: 'group', tabindex: 0, 'aria-label': 'Both sessions (picture)' },
          pictureOf(afterwards.svg),
        ),
      ),
      element('h3', {}, 'True tip history'),
      truthList(afterwards, playing.startsAt),
    );
  }
}

function clockOf(seconds: number): string {
  return clockText(seconds * 1e6).replace(/:\d\d$/u, '');
}

function leftText({ playing: { bookedUntil }, time }: Game): string {
  return bookedUntil === null ? 'no end' : durationText(Math.max(0, bookedUntil - time));
}

/** What is said where no step runs. */
function still({ isOver, asked }: Game): string {
  if (isOver) return 'over';
  return asked === null ? '–' : 'waits for you';
}
