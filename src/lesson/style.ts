import { controlsStyle, picturesStyle } from '../page/parts/style.js';

/** What the lesson's page has beside the style of every report: controls, large enough for a finger. */
export function lessonStyle(): string {
  return `
${picturesStyle()}
${controlsStyle()}
.controls{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,17rem),1fr));gap:.75rem 2rem;margin:1.25rem 0}
.controls label{display:block;font-weight:600;font-size:.9375rem}
.controls output{font-weight:400;color:var(--soft);font-variant-numeric:tabular-nums}
.said{min-height:1.55em;margin:.25rem 0;max-width:46rem}
.take{margin:1.5rem 0 0;padding:1rem 1.25rem;border-left:4px solid var(--accent);background:var(--raised);border-radius:0 .4rem .4rem 0}
.take p:last-child{margin:0}
fieldset{border:1px solid var(--line);border-radius:.4rem;margin:1.25rem 0 0;padding:.75rem 1.25rem 1rem;max-width:46rem}
legend{font-weight:650;padding-inline:.4rem}
.lesson figure{margin-top:1.25rem}
.tiles{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,9.5rem),1fr));gap:.75rem;margin:1rem 0}
.tiles div{background:var(--raised);border-radius:.4rem;padding:.7rem .9rem}
.tiles dt{color:var(--soft);font-size:.875rem}
.tiles dd{margin:0;font-size:1.25rem;font-weight:600;font-variant-numeric:tabular-nums}
.console{display:grid;gap:0 2rem;margin:1rem 0;scroll-margin-top:.5rem}
.console .row,.asked .row{margin:.5rem 0}
.console .tiles{grid-template-columns:repeat(auto-fit,minmax(min(100%,8.5rem),1fr));gap:.5rem;margin:.5rem 0}
.console .tiles div{padding:.4rem .6rem}
.console .tiles dd{font-size:1rem}
.slot{min-height:11rem}
@media (min-width:48rem){.console .pair>div{max-width:26rem}.console{grid-template:"screen transport" "screen slot" "screen panel" 1fr/minmax(0,24rem) minmax(0,1fr)}.transport{grid-area:transport}.console .scan{grid-area:screen}.slot{grid-area:slot;min-height:12rem}.panel{grid-area:panel}}
.again label{display:block;font-weight:600;font-size:.9375rem}
.lesson .console .scan{margin:0}
.scan .pair{display:flex;flex-wrap:wrap;gap:.75rem}
.scan .pair>div{flex:1 1 8rem;max-width:min(26rem,34svh)}
.console figcaption{margin:.25rem 0}
.scan .pair p{margin:.25rem 0;color:var(--soft);font-size:.875rem}
.scan canvas{display:block;width:100%;aspect-ratio:1;background:var(--faint);border-radius:.3rem}
.asked{margin:.5rem 0;padding:.5rem 1rem;border-left:4px solid var(--warn);background:var(--warnpaper);border-radius:0 .4rem .4rem 0}
.asked p{font-weight:600;margin:0}
.notebook{margin:0;padding-inline-start:1.25rem;font-size:.9375rem;color:var(--soft);min-height:5em}
.after h3{margin-top:1.75rem}
.plot,.timelines{max-width:60rem}
.tally .bars{width:40%}
.tally .bar{height:.9rem;border-radius:.15rem}
`.trim();
}
