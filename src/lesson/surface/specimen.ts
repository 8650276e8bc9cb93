import { type Luck, PURPOSES } from '../../chance/luck.js';
import type { Relief } from './relief.js';

/** Side of the piece of a region that is shown, nanometres, and its grid points along a side. */
export const SHOWN_SIDE = 320;
export const GRID_POINTS = 128;

/** Heights in nanometres; all of our own invention. */
const STEP_HEIGHT = 1.5;
const STEPS = 3;
const ISLANDS = 9;
const PARTICLES = 14;

/** What a pictured region is made of, its numbers drawn one after the other. */
class Builder {
  private drawn = 0;
  private readonly heights = new Float64Array(GRID_POINTS * GRID_POINTS);

  constructor(
    private readonly luck: Luck,
    private readonly region: number,
  ) {}

  relief(): Relief {
    this.terraces();
    for (let made = 0; made < ISLANDS; made += 1) this.island();
    for (let made = 0; made < PARTICLES; made += 1) this.particle();
    return { columns: GRID_POINTS, rows: GRID_POINTS, pitch: SHOWN_SIDE / GRID_POINTS, heights: this.heights };
  }

  /** Steps that run slantwise from side to side. */
  private terraces(): void {
    const slant = this.between(-0.6, 0.6);
    const edges = Array.from({ length: STEPS }, (_, step) => SHOWN_SIDE * ((step + this.between(0.2, 0.8)) / STEPS));
    this.each(
      (x, y, height) => height + edges.filter((edge) => x + slant * (y - SHOWN_SIDE / 2) > edge).length * STEP_HEIGHT,
    );
  }

  /** A flat round island on the terrace. */
  private island(): void {
    const [x0, y0, radius] = [this.between(0, SHOWN_SIDE), this.between(0, SHOWN_SIDE), this.between(7, 20)];
    const thickness = this.between(3, 5);
    this.each((x, y, height) =>
      (x - x0) * (x - x0) + (y - y0) * (y - y0) < radius * radius ? height + thickness : height,
    );
  }

  /** A ball that lies on whatever is below it. */
  private particle(): void {
    const [x0, y0, radius] = [this.between(0, SHOWN_SIDE), this.between(0, SHOWN_SIDE), this.between(2.5, 4.5)];
    const below = this.heights[this.placeOf(y0) * GRID_POINTS + this.placeOf(x0)];
    this.each((x, y, height) => {
      const left = radius * radius - (x - x0) * (x - x0) - (y - y0) * (y - y0);
      return left > 0 ? Math.max(height, below + radius + Math.sqrt(left)) : height;
    });
  }

  private each(changed: (x: number, y: number, height: number) => number): void {
    const pitch = SHOWN_SIDE / GRID_POINTS;
    for (let place = 0; place < this.heights.length; place += 1) {
      const x = (place % GRID_POINTS) * pitch;
      const y = Math.floor(place / GRID_POINTS) * pitch;
      this.heights[place] = changed(x, y, this.heights[place]);
    }
  }

  private placeOf(length: number): number {
    return Math.min(GRID_POINTS - 1, Math.floor((length / SHOWN_SIDE) * GRID_POINTS));
  }

  private between(least: number, most: number): number {
    this.drawn += 1;
    return least + (most - least) * this.luck.uniform(PURPOSES.pictures, 0, 0, this.region, this.drawn);
  }
}

/** An invented piece of a region with steps, islands and particles: the same for common random numbers and region. */
export function specimenOf(luck: Luck, region: number): Relief {
  return new Builder(luck, region).relief();
}
