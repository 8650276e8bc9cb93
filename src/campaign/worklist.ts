import type { ImageModel } from './model.js';
import type { WorklistState } from './state.js';

const NONE: ReadonlySet<ImageModel> = new Set();

/**
 * What one instrument takes next: images to be taken again in the region in place, then the plan for the sample that is on,
 * then the repeat list of that sample, each in plan order; then the same of the next sample. When the plan is through, the
 * repeat list of the first sample that has one, until none has any.
 */
export class Worklist {
  position = 0;
  again: ImageModel[] = [];
  private repeats: ImageModel[] = [];
  /** The sample that is measured; another one from when this one begins to be taken off. */
  private sample: number;
  /** Samples of which nothing more can be taken. */
  private readonly lost: Set<number>;
  /** Images that had their turn before `turns` begins. */
  private readonly had: ReadonlySet<ImageModel>;
  /** Images in the order in which their turns come. */
  readonly turns: readonly ImageModel[];

  constructor(
    /** The instrument's share of the plan, in plan order. */
    readonly images: readonly ImageModel[],
    from: WorklistState | null = null,
  ) {
    const among = (numbers: readonly number[]) => {
      const wanted = new Set(numbers);
      return images.filter((image) => wanted.has(image.number));
    };
    this.turns = from === null ? images : among(from.turns);
    this.had = from === null ? NONE : new Set(images.filter((image) => !this.turns.includes(image)));
    this.sample = from?.sample ?? images.at(0)?.sample ?? 0;
    this.lost = new Set(from?.lostSamples);
    if (from === null) return;
    this.again = among(from.again);
    this.repeats = among(from.repeats);
  }

  get state(): WorklistState {
    const numbers = (images: readonly ImageModel[]) => images.map((image) => image.number);
    return {
      turns: numbers(this.turns.slice(this.position)),
      again: numbers(this.again),
      repeats: numbers(this.repeats),
      sample: this.sample,
      lostSamples: [...this.lost],
    };
  }

  /** The next image due, or null when there is none; it stays due until `took`. */
  next(): ImageModel | null {
    const { again, turns, position, repeats } = this;
    if (again.length > 0) return again[0];
    const turn = position < turns.length ? turns[position] : null;
    return turn?.sample === this.sample || repeats.length === 0 ? turn : this.nextRepeat(turn);
  }

  private nextRepeat(turn: ImageModel | null): ImageModel {
    const { sample, repeats } = this;
    return repeats.find((image) => image.sample === sample) ?? turn ?? repeats[0];
  }

  /** A sample begins to be put in the place of another. */
  startSample(sample: number): void {
    this.sample = sample;
  }

  /** Nothing more can be taken of a sample. */
  lose(sample: number): void {
    const isLeft = (image: ImageModel) => image.sample !== sample;
    this.lost.add(sample);
    this.again = this.again.filter(isLeft);
    this.repeats = this.repeats.filter(isLeft);
    const { turns } = this;
    while (this.position < turns.length && turns[this.position].sample === sample) this.position += 1;
  }

  /** Something is missing for good. */
  get hasLost(): boolean {
    return this.lost.size > 0;
  }

  /** The image has been taken. */
  took(image: ImageModel): void {
    const { again, turns, position } = this;
    if (position < turns.length && turns[position] === image && !holds(again, image)) this.position += 1;
    else {
      takeOut(again, image);
      takeOut(this.repeats, image);
    }
  }

  /** The image is to be taken again: next, if its region is in place, else when the plan is through for its sample. */
  retake(image: ImageModel, inPlace: boolean): void {
    if (!this.accepts(image)) return;
    const list = inPlace ? this.again : this.repeats;
    putIn(list, image);
  }

  /**
   * A region starts afresh, at which the specimen was lost while the instrument was about to take `due`: those of its
   * images, all of which are given, that have had their turn are due again. With `kindOnly` (tip-first) those that need
   * another kind join the repeat list.
   */
  restart(images: readonly ImageModel[], due: ImageModel, kindOnly: boolean): void {
    for (const image of images) {
      takeOut(this.again, image);
      takeOut(this.repeats, image);
      this.retake(image, !kindOnly || image.pass.kind === due.pass.kind);
    }
  }

  /** Whether it can be put down to be taken again: it is not due already, and its sample not lost. */
  accepts(image: ImageModel): boolean {
    return !this.isDue(image) && !this.lost.has(image.sample);
  }

  private isDue(image: ImageModel): boolean {
    return this.isToCome(image) || holds(this.again, image) || holds(this.repeats, image);
  }

  /** Whether its turn in the plan is still to come. */
  private isToCome(image: ImageModel): boolean {
    const { turns, position } = this;
    return position < turns.length && image.number >= turns[position].number && !this.had.has(image);
  }
}

/** Where an image stands, or would stand, among others in plan order; found by halving, as the list may be long. */
function placeIn(images: readonly ImageModel[], { number }: ImageModel): number {
  let low = 0;
  let high = images.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (images[middle].number < number) low = middle + 1;
    else high = middle;
  }
  return low;
}

function holds(images: readonly ImageModel[], image: ImageModel): boolean {
  return images[placeIn(images, image)] === image;
}

/** Mostly at the end, which costs less than `splice`. */
function putIn(images: ImageModel[], image: ImageModel): void {
  const place = placeIn(images, image);
  if (place === images.length) images.push(image);
  else images.splice(place, 0, image);
}

/** Mostly the first, which costs less than `splice`. */
function takeOut(images: ImageModel[], image: ImageModel): void {
  const place = placeIn(images, image);
  if (images[place] !== image) return;
  if (place === 0) images.shift();
  else images.splice(place, 1);
}
