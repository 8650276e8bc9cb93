import type { TopLevelSpec } from 'vega-lite';
import { inPage, renderPicture, type Words } from '../report/render.js';

/** A chart as SVG in the colours of the page; `prefix` is the name of its place there. */
export async function drawn(spec: TopLevelSpec, words: Words): Promise<string> {
  return inPage((await renderPicture(spec, words)).svg);
}
