import { fixed } from '../../../report/format.js';
import type { ShownScan, ShownStep } from '../../session/play.js';
import { element } from '../../dom.js';

/** A menu of every scan of a session that is over, to look at it again with what nobody could know then. */
export class LookAgain {
  readonly content: HTMLElement;
  private readonly menu = element('select', { id: 'session-again' });
  private readonly truth = element('p', { 'aria-live': 'polite' });
  private scans: readonly ShownScan[] = [];

  constructor(changed: () => void) {
    this.menu.addEventListener('change', () => {
      this.tell();
      changed();
    });
    this.content = element(
      'div',
      { class: 'again', hidden: true },
      element('div', {}, element('label', { for: 'session-again' }, 'Look at an image again'), this.menu),
      this.truth,
    );
  }

  /** The scan that is looked at; null where there was none. */
  get chosen(): ShownScan | null {
    return this.scans.at(this.menu.selectedIndex) ?? null;
  }

  fill(steps: readonly ShownStep[]): void {
    this.scans = steps.flatMap(({ scan }) => scan ?? []);
    this.content.hidden = this.scans.length === 0;
    this.menu.replaceChildren(
      ...this.scans.map((scan) => element('option', {}, `Image ${scan.image + 1}, attempt ${scan.take + 1}`)),
    );
    this.menu.selectedIndex = this.scans.length - 1;
    this.tell();
  }

  private tell(): void {
    const { chosen } = this;
    if (chosen === null) return;
    const { before, after, quality, accept, lostAt } = chosen;
    const tip = before.state === after.state ? after.state : `${before.state}, then ${after.state}`;
    const isGood = quality >= accept;
    const fate = lostAt === null ? (isGood ? 'good, and kept' : 'bad, and kept: nobody noticed') : 'not kept';
    this.truth.textContent = `The tip was ${tip}, its apex radius ${fixed(after.radius, 0)} nm. Quality ${fixed(quality, 2)} of 1, at least ${fixed(accept, 2)} wanted: ${fate}.`;
  }
}
