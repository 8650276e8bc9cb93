import type { ShownScan } from '../../session/play.js';
import { element } from '../../dom.js';
import type { Stage } from '../../part.js';
import { emptyCanvas, paint } from '../../paint.js';
import type { TipPicture } from '../../tasks/tip-picture.js';

/** Rows and columns of a picture. */
const SIDE = 128;
/** Fractions of a scan are quotients of times. */
const ROUNDING = 1e-9;

/** The image of a scan, drawn line by line as far as it has come; beside it, on demand, the surface as it is. */
export class ScanView {
  readonly content: HTMLElement;
  private readonly shown = emptyCanvas(SIDE);
  private readonly real = emptyCanvas(SIDE);
  private readonly caption = element('figcaption', {}, 'No image yet.');
  private readonly realHolder: HTMLElement;
  private picture: TipPicture | null = null;
  private drop: (() => void) | null = null;
  private key = '';
  private rows = 0;
  private wanted = 0;
  private said = '';
  private saidOf: TipPicture | null = null;

  constructor(
    private readonly stage: Stage,
    /** The session's number. */
    private readonly replication: () => number,
  ) {
    this.realHolder = element('div', { hidden: true }, this.real, element('p', {}, 'As it really is'));
    const shownHolder = element('div', {}, this.shown, element('p', {}, 'As the tip shows it'));
    this.content = element(
      'figure',
      { class: 'scan' },
      element('div', { class: 'pair' }, shownHolder, this.realHolder),
      this.caption,
    );
  }

  /** Shows so much of a scan; `done` is the fraction of its scan time. */
  show(scan: ShownScan, done: number, withReal: boolean): void {
    this.realHolder.hidden = !withReal;
    const key = `${this.replication()} ${scan.image} ${scan.take}`;
    if (key !== this.key) this.fetch(key, scan);
    this.wanted = Math.min(1, done + ROUNDING);
    const what = `Image ${scan.image + 1}${scan.take === 0 ? '' : `, attempt ${scan.take + 1}`}, ${scan.place}`;
    this.say(`${what}: ${this.wanted >= 1 ? 'complete' : 'scanning from the top'}`);
    this.draw();
  }

  /** Nothing has been scanned yet. */
  clear(): void {
    this.key = '';
    this.picture = null;
    this.realHolder.hidden = true;
    clear(this.shown);
    this.say('No image yet');
  }

  private say(text: string): void {
    const { picture } = this;
    if (this.said === text && this.saidOf === picture) return;
    this.said = text;
    this.saidOf = picture;
    const scale =
      picture === null
        ? ''
        : ` A piece of it, ${picture.side} nm wide; black to white is ${picture.range.toFixed(0)} nm.`;
    this.caption.textContent = `${text}.${scale}`;
    this.shown.setAttribute('aria-label', `${text}, as the tip shows it`);
    this.real.setAttribute('aria-label', `${text}: the surface as it really is`);
  }

  private fetch(key: string, { region, before, after, changesAt }: ShownScan): void {
    this.key = key;
    this.picture = null;
    this.drop?.();
    const { engine, seed } = this.stage;
    const asked = { changes: [], seed, replication: this.replication(), region, before, after, changesAt };
    this.drop = engine.ask('tipPicture', asked, {
      onAnswer: (picture) => {
        this.picture = picture;
        this.rows = 0;
        clear(this.shown);
        paint(this.real, picture, picture.real, 0, picture.rows);
        this.say(this.said);
        this.draw();
      },
    });
  }

  private draw(): void {
    if (this.picture === null) return;
    const rows = Math.min(this.picture.rows, Math.floor(this.wanted * this.picture.rows));
    if (rows < this.rows) clear(this.shown);
    const from = rows < this.rows ? 0 : this.rows;
    this.rows = rows;
    if (rows > from) paint(this.shown, this.picture, this.picture.shown, from, rows);
  }
}

function clear(canvas: HTMLCanvasElement): void {
  canvas.getContext('2d')?.clearRect(0, 0, canvas.width, canvas.height);
}
