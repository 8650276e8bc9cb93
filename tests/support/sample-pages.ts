import type { ComparisonResult } from '../../src/analysis/results.js';
import { tracePage } from '../../src/report/trace.js';
import { reportTexts } from './report-texts.js';

/** Page and brief of each comparison, by its name and by its name with `-brief`. */
export async function pagesOf(samples: Readonly<Record<string, ComparisonResult>>): Promise<Record<string, string>> {
  const written: Record<string, string> = {};
  for (const [name, sample] of Object.entries(samples)) {
    const files = await reportTexts(sample);
    written[name] = files.get('report.html') ?? '';
    written[`${name}-brief`] = files.get('brief.html') ?? '';
  }
  return written;
}

/** The page of a trace of the first strategy that a comparison shows. */
export function tracedPage({ summary }: ComparisonResult): Promise<string> {
  const events = [{ time: 0, clock: 'Mo 09:00:00', instrument: 0, what: 'start', detail: 'set up' }];
  const { tool, platform, inputs, command } = summary;
  const traced = { title: 'Oxide', strategy: 'Swap', replication: 3, seed: '1', tool, platform, inputs, command };
  return tracePage(summary.shown[0].timelines[0], events, traced);
}
