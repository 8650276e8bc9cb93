import { type Document, isMap, type YAMLMap } from 'yaml';
import { writtenUncertainty } from '../../../scenario/schema/uncertainty.js';
import { edited, mapAt, Refusal, setSource, setValue, type Written } from '../edit.js';
import type { Uncertainty } from '../results.js';
import { workflowDrifts } from './drift-data.js';
import type { DriftFitSummary } from './results.js';

/**
 * Writes fitted drift into a scenario's text, comments kept: a kind of disturbance takes the place of what was said of it, and
 * `sources` say where it comes from. The text is not checked as a scenario here.
 */
export function writeDriftInto(text: string, summary: DriftFitSummary): Written {
  return edited(text, (document) => {
    for (const { workflow, entries, uncertainty, sources } of workflowDrifts(summary)) {
      const drift = nestedAt(document, ['workflows', workflow, 'drift']);
      const kept = keptUncertainty(drift, workflow, Object.keys(entries));
      for (const [key, value] of Object.entries(entries)) {
        const before = drift.get(key, true);
        // Each value by itself, so that comments beside them stay.
        if (isMap(before) && typeof value === 'object')
          for (const [name, one] of Object.entries(value)) setValue(document, before, name, one);
        else setValue(document, drift, key, value);
      }
      // With an uncertainty it is too much for one line.
      drift.flow = false;
      setValue(document, drift, 'uncertainty', besides(kept, uncertainty));
      for (const [path, source] of sources) setSource(document, path, source);
    }
  });
}

function nestedAt(document: Document, path: readonly string[]): YAMLMap {
  const outer = path.slice(0, -1);
  if (outer.length > 0) nestedAt(document, outer);
  return mapAt(document, path);
}

/** What the scenario says of values that are not replaced. */
function keptUncertainty(drift: YAMLMap, workflow: string, replaced: readonly string[]): Uncertainty {
  const node = drift.get('uncertainty', true);
  const written = isMap(node) ? writtenUncertainty.safeParse(node.toJSON()) : null;
  if (written?.success !== true) return { of: [], covariance: [] };
  const isKept = (name: string) => !replaced.includes(name.split('.')[0]);
  if ('range' in written.data) {
    const kept = Object.keys(written.data.range).filter(isKept);
    if (kept.length === 0) return { of: [], covariance: [] };
    throw new Refusal([
      `workflows.${workflow}.drift.uncertainty gives ranges of ${kept.join(', ')}, beside which no covariance can stand; take them out, or fit readings of them too`,
    ]);
  }
  const { of, covariance } = written.data;
  const indices = [...of.keys()].filter((index) => isKept(of[index]));
  return {
    of: indices.map((index) => of[index]),
    covariance: indices.map((row) => indices.map((column) => covariance.at(row)?.at(column) ?? 0)),
  };
}

function besides(kept: Uncertainty, fitted: Uncertainty): Uncertainty {
  const [before, after] = [kept, fitted].map(({ of }) => of.map(() => 0));
  return {
    of: [...kept.of, ...fitted.of],
    covariance: [
      ...kept.covariance.map((row) => [...row, ...after]),
      ...fitted.covariance.map((row) => [...before, ...row]),
    ],
  };
}
