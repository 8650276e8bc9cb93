import type { KnownTip } from '../../execution/midway/known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import { type ExposureUnit, readExposure } from '../../scenario/exposure.js';
import { type Reading, splitQuantity } from '../../scenario/quantity.js';
import { show } from '../../scenario/show.js';

/** One amount of use as people write it, in the unit that hazards count. */
export interface UseAmount {
  readonly unit: ExposureUnit;
  readonly value: number;
}

/** Use that is written, by its unit. */
export type WrittenUse = ReadonlyMap<ExposureUnit, number>;

/** Reads `12 images`, `8.5 mm`, `3 h` or `4 approaches`; a decimal comma and blanks between thousands are understood. */
export function readUse(text: string): Reading<UseAmount> {
  const point = pointed(text);
  const parts = splitQuantity(point);
  const approaches = parts !== null && /^approach(?:es)?$/u.test(parts.unit) ? parts.number : null;
  if (approaches !== null && approaches >= 0) return { ok: true, value: { unit: 'approach', value: approaches } };
  for (const unit of ['image', 'distance', 'hour'] as const) {
    // No use at all has a unit too, which is read as that of one.
    const isNone = parts?.number === 0;
    const reading = readExposure(unit, isNone ? `1 ${parts.unit}` : point);
    if (reading.ok) return { ok: true, value: { unit, value: isNone ? 0 : reading.value } };
  }
  return {
    ok: false,
    message: `read ${show(text)}; use such as \`12 images\`, \`8.5 mm\`, \`3 h\` or \`4 approaches\` is wanted`,
  };
}

/** A number with a decimal point and without blanks in it. */
export function pointed(text: string): string {
  return text.replace(/(?<=\d)[ \u00a0\u202f](?=\d{3}(?!\d))/gu, '').replace(/^(\d+),(\d+)/u, '$1.$2');
}

/** What follows for a tip of a kind from what is written of its use. */
export class UseReckoning {
  private readonly path: number;
  private readonly hours: number;
  /** Its passes at one visit of a region. */
  private readonly perVisit: number;

  constructor(
    { passes, settings }: CampaignModel,
    kind: number,
    private readonly written: WrittenUse,
  ) {
    const own = passes.filter((pass) => pass.kind === kind);
    const mean = (of: (pass: (typeof own)[number]) => number) =>
      own.reduce((sum, pass) => sum + of(pass), 0) / Math.max(1, own.length);
    this.path = mean((pass) => pass.path);
    this.hours = mean((pass) => pass.scanTime) / 3600;
    this.perVisit = settings.plan.order === 'region-first' ? Math.max(1, own.length) : 1;
  }

  /** Images since new; what is not written follows from the path, the hours or the approaches, by the mean of its passes. */
  get images(): number {
    return (
      this.written.get('image') ??
      this.from('distance', this.path) ??
      this.from('hour', this.hours) ??
      this.from('approach', 1 / this.perVisit) ??
      0
    );
  }

  /** In every unit; what is not written follows from the scans that are known, and for the rest from the mean of its passes. */
  in(known: readonly ImageModel[]): KnownTip['use'] {
    const { images, written } = this;
    const total = (of: (image: ImageModel) => number, mean: number) =>
      Math.max(0, known.reduce((sum, image) => sum + of(image), 0) + (images - known.length) * mean);
    return {
      images,
      path: written.get('distance') ?? total(({ pass }) => pass.path, this.path),
      hours: written.get('hour') ?? total(({ pass }) => pass.scanTime / 3600, this.hours),
      approaches: written.get('approach') ?? Math.max(1, Math.ceil(images / this.perVisit - 1e-9)),
    };
  }

  private from(unit: ExposureUnit, perImage: number): number | undefined {
    const amount = this.written.get(unit);
    return amount === undefined || perImage <= 0 ? undefined : amount / perImage;
  }
}
