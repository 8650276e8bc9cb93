/**
 * From a chart's spec to SVG text, in Node or a worker of a page, without a canvas. vega is loaded at the first picture only,
 * with the interpreter of its expressions, as a page's policy lets in no eval.
 */

import type { TopLevelSpec } from 'vega-lite';
import { customProperties } from './palette.js';
import { textWidth } from './text-width.js';
import { html, plainLines } from './text.js';

declare module 'vega' {
  /** Exported by vega, which leaves it out of its types; made to be replaced. */
  export const textMetrics: { width: (item: { readonly fontSize?: number }, text: unknown) => number };
}

/** A picture that stands alone, with the colours of light pages in it. `warnings` are those of the compiler. */
export interface Picture {
  readonly svg: string;
  readonly warnings: readonly string[];
}

export interface Words {
  /** Put before every id, so that pictures of one page do not share any. */
  readonly prefix: string;
  readonly title: string;
  readonly description: string;
}

/** The same spec gives the same bytes: vega numbers its definitions through a counter of its own, which starts anew here. */
export async function renderPicture(spec: TopLevelSpec, words: Words): Promise<Picture> {
  const [{ compile }, vega, { expressionInterpreter }] = await Promise.all([
    import('vega-lite'),
    import('vega'),
    import('vega-interpreter'),
  ]);
  const warnings: string[] = [];
  const logger = {
    level: () => logger,
    error: (...parts: readonly unknown[]) => note(parts),
    warn: (...parts: readonly unknown[]) => note(parts),
    info: () => logger,
    debug: () => logger,
  };
  function note(parts: readonly unknown[]): typeof logger {
    warnings.push(parts.map(String).join(' '));
    return logger;
  }
  const compiled = compile(spec, { logger });
  vega.textMetrics.width = (item, text) => textWidth(typeof text === 'string' ? text : '', item.fontSize ?? 11);
  vega.resetSVGDefIds();
  const view = new vega.View(vega.parse(compiled.spec, LAYOUT, { ast: true }), {
    renderer: 'none',
    expr: expressionInterpreter,
  });
  view.logger(logger);
  try {
    return { svg: spoken(plainLines(await view.toSVG()), words), warnings };
  } finally {
    view.finalize();
  }
}

/** Two legends below a picture stand under one another; vega-lite has no word for it. */
const LAYOUT = {
  legend: { layout: { bottom: { anchor: 'start' as const, direction: 'vertical' as const, margin: 10 } } },
};

const OWN_ROLES = / (?:role|aria-[a-z]+)="[^"]*"/g;

/**
 * Gives the picture a title and a description, makes its ids its own, and takes away the roles of its inner parts:
 * to a reader it is one image, whose numbers stand in a table.
 */
function spoken(svg: string, { prefix, title, description }: Words): string {
  const own = svg.replace(/<[a-z][^>]*>/g, (tag) =>
    tag
      .replace(OWN_ROLES, '')
      .replace(' class="mark-rect', ' shape-rendering="crispEdges" class="mark-rect')
      .replace(/ id="([^"]*)"/g, ` id="${prefix}-$1"`)
      .replace(/url\(#([^)]*)\)/g, `url(#${prefix}-$1)`)
      .replace(/ ((?:xlink:)?href)="#([^"]*)"/g, ` $1="#${prefix}-$2"`),
  );
  const head = own.indexOf('<svg ');
  const end = own.indexOf('>', head);
  const root = `${own.slice(head, end)} role="img" aria-labelledby="${prefix}-title ${prefix}-desc">`;
  const words = `<title id="${prefix}-title">${html(title)}</title><desc id="${prefix}-desc">${html(description)}</desc>`;
  return `${root}${words}${own.slice(end + 1)}\n`;
}

/** A picture for inside a page: colours become the page's custom properties, its font and size follow the text. */
export function inPage(svg: string): string {
  const names = new Map([...customProperties()].map(([name, { light }]) => [light, `var(--${name})`]));
  const width = /^<svg [^>]*? width="([\d.]+)"/.exec(svg)?.[1] ?? '0';
  return svg
    .replace(/<[a-z][^>]*>/g, (tag) =>
      tag
        .replace(/ (fill|stroke)="(#[0-9a-f]{6})"/g, (whole, attribute: string, colour: string) => {
          const name = names.get(colour);
          return name === undefined ? whole : ` ${attribute}="${name}"`;
        })
        .replace(/ font-family="[^"]*"/g, ''),
    )
    .replace(/^(<svg [^>]*?) width="[^"]*" height="[^"]*"/, `$1 style="width:${(Number(width) / 16).toFixed(2)}rem"`);
}
