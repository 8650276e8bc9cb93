import { driftFitReport } from '../../src/studies/fit/drift/report.js';
import type { DriftFitSummary } from '../../src/studies/fit/drift/results.js';
import { NO_STYLES } from '../../src/report/styles.js';
import { textsOf } from './report-texts.js';

/** What a fit of drift shows, place by place. */
export async function driftShown(summary: DriftFitSummary) {
  const files = await textsOf(driftFitReport, summary);
  const drift = files.get('drift.yaml') ?? '';
  return {
    files,
    drift,
    page: files.get('report.html') ?? '',
    methods: files.get('methods.md') ?? '',
    terminal: driftFitReport.text(summary, NO_STYLES, undefined, true),
  };
}
