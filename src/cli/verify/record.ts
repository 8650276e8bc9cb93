import { basename } from 'node:path';
import * as z from 'zod';
import { shellLineOf } from '../../scenario/shell-line.js';
import type { Maker } from '../../analysis/about.js';
import { isInterrupted } from '../../analysis/interrupted.js';
import { Failure } from '../../scenario/failure.js';
import { readText } from '../text-file.js';

const SUMMARY_TEXT = { what: 'a summary', form: 'a summary is JSON in UTF-8', most: 400_000_000 } as const;

/** A name alone: a summary that somebody sends leads to no folder of one's own. */
const fileName = z.string().refine((name) => name !== '..' && basename(name) === name, 'it has folders in it');

const record = z.object({
  format: z.string().startsWith('swap-or-hop '),
  formatVersion: z.literal(2),
  tool: z.object({ version: z.string(), commit: z.string().nullable() }),
  // Whoever wrote it: what is shown of it makes a shell do nothing else.
  command: z.string().transform((line) => shellLineOf(line) ?? line),
  platform: z.object({ system: z.string(), architecture: z.string(), node: z.string() }),
  stopping: z
    .union([z.string(), z.object({ rule: z.string() }).transform(({ rule }) => rule)])
    .optional()
    .catch(undefined),
  inputs: z.array(z.object({ option: z.string(), file: fileName, sha256: z.string() })).min(1),
});

/** What a summary says of how it was made. */
export interface Recorded extends Pick<z.infer<typeof record>, 'command' | 'inputs'> {
  readonly maker: Maker;
}

export interface ReadSummary {
  readonly text: string;
  readonly recorded: Recorded;
}

/** Reads a summary as far as it says how it was made; what does not say so is a failure. */
export function readSummary(file: string): ReadSummary {
  const { text } = readText(file, SUMMARY_TEXT);
  const read = record.safeParse(parsed(file, text));
  if (!read.success) {
    const [{ path, code, message }] = read.error.issues;
    const fault = code === 'custom' ? message : 'it is missing or is not as this program writes it';
    throw new Failure([
      `${file}: this does not say how it was made, so it cannot be made again; \`${path.join('.')}\`: ${fault}`,
      'Wanted is the summary.json of a report',
    ]);
  }
  const { tool, platform, command, inputs, stopping } = read.data;
  if (stopping !== undefined && isInterrupted(stopping))
    throw new Failure(
      `${file}: this study was interrupted and cannot be repeated; run it to its end and verify that summary`,
    );
  return { text, recorded: { command, inputs, maker: { toolVersion: tool.version, commit: tool.commit, platform } } };
}

function parsed(file: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Failure(`${file}: this is no JSON; the summary.json of a report is wanted`);
  }
}
