import * as z from 'zod';
import { count, factor, flag, fraction, name, quantity, USUAL, WITHIN_TWO } from './leaf.js';

const MOST_SAMPLES = 1000;

const passSchema = z
  .strictObject({
    name: name.meta({ description: 'Name of the pass; one pass is one image of every region' }),
    tip: name.meta({ description: 'The tip kind that the pass needs: a key of `tips`' }),
    size: quantity(
      'length',
      { description: 'Scan size; length of the fast-scan and of the slow-scan axis' },
      { min: 1, max: 1e7 },
    ),
    lines: count({ description: 'Scan lines of an image', source: USUAL }, { min: 1, max: 65_536 }).prefault(256),
    pixels: count(
      { description: 'Pixels per line; as many as lines where not given' },
      { min: 1, max: 65_536 },
    ).optional(),
    lineRate: quantity(
      'frequency',
      { description: 'Line rate at pace 1; one line is trace and retrace', source: USUAL },
      { positive: true, max: 1e6 },
    ).prefault('1 Hz'),
    load: quantity(
      'force',
      {
        description: 'Load on the tip; in intermittent contact an equivalent',
        source: `${USUAL}: 1 nN equivalent in intermittent contact, 10 nN in contact`,
        range: { times: [0.1, 10] },
      },
      { positive: true, max: 1e6 },
    ).prefault('1 nN'),
    neededResolution: quantity(
      'length',
      { description: 'Needed resolution; separation of two features that must be resolved' },
      { positive: true, max: 1e6 },
    ).optional(),
    dip: quantity(
      'length',
      {
        description: 'Resolvable dip; smallest dip between two features that the noise lets one see',
        range: WITHIN_TWO,
      },
      { positive: true, max: 1e6 },
    ).optional(),
    trackingBandwidth: quantity(
      'frequency',
      { description: 'Tracking bandwidth; that of the feedback loop that follows the surface', range: WITHIN_TWO },
      { positive: true, max: 1e9 },
    ).optional(),
    driftTolerance: quantity(
      'length',
      {
        description: 'Drift tolerance; displacement over one image that the question bears',
        source: 'assumed: half of what must be resolved, between a fifth and the whole of it',
        range: { times: [0.4, 2] },
      },
      { positive: true, max: 1e6 },
    ).optional(),
    accept: fraction({ description: 'Least quality of a good image', source: USUAL }).prefault(0.8),
    weight: factor(
      { description: 'Weight of an image; what it is worth to the experiment' },
      { min: 0, max: 1e6 },
    ).prefault(1),
    signal: z
      .enum(['topography', 'electrical'])
      .meta({ description: 'electrical: the image also needs the coating' })
      .prefault('topography'),
    critical: flag({ description: 'Every attempt starts on a tip that has scanned nothing' }).prefault(false),
  })
  .meta({ id: 'pass', description: 'One image of every region' });

/** Samples that are measured one after the other, with the same passes. */
const samplesSchema = z
  .union([
    count({ description: 'Number of samples' }, { min: 1, max: MOST_SAMPLES }),
    z
      .array(
        z.strictObject({
          name: name.meta({ description: 'Name of the sample' }),
          regions: count(
            { description: 'Regions of this sample; `plan.regions` where not given' },
            { min: 1, max: 100_000 },
          ).optional(),
        }),
      )
      .min(1)
      .max(MOST_SAMPLES),
  ])
  .meta({ description: 'Samples measured one after the other: how many, or a list of names with their own regions' });

export const planSchema = z
  .strictObject({
    order: z
      .enum(['region-first', 'tip-first'])
      .meta({
        description: 'region-first: all passes of a region, then the next; tip-first: for each tip kind all its images',
      })
      .prefault('region-first'),
    samples: samplesSchema.prefault(1),
    regions: count({ description: 'Regions of interest of each sample' }, { min: 1, max: 100_000 }),
    regionGap: quantity('length', { description: 'Free distance between neighbouring regions' }, { max: 1e7 }).prefault(
      '0 nm',
    ),
    passes: z.array(passSchema).min(1).max(100),
  })
  .meta({ id: 'plan', description: 'Measurement plan: samples × regions × passes' });
