import { customProperties, type Tone } from './palette.js';

function properties(of: (tone: Tone) => string): string {
  return [...customProperties()].map(([name, tone]) => `--${name}:${of(tone)}`).join(';');
}

/**
 * The style sheet of every page. Sizes are in rem, so that the whole page grows on very wide screens. On small ones a
 * shade at the side of a frame says that there is more to scroll to; it goes at the end.
 */
export function styleSheet(): string {
  return `
:root{color-scheme:light dark;${properties((tone) => tone.light)}}
@media (prefers-color-scheme:dark){:root{${properties((tone) => tone.dark)}}}
@media print{:root{color-scheme:light;${properties((tone) => tone.light)}}}
*{box-sizing:border-box}
html{font-size:clamp(16px,calc(12px + .28vw),24px);-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.55 system-ui,-apple-system,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;font-kerning:normal}
main,header,footer{max-width:72rem;margin-inline:auto;padding-inline:clamp(1rem,4vw,2rem)}
header{padding-block:clamp(1rem,2vw,1.75rem) 0}
footer{padding-block:2rem 4rem;color:var(--soft);font-size:.875rem}
a{color:var(--accent)}
h1{font-size:clamp(1.4rem,1.2rem + .8vw,1.875rem);line-height:1.2;font-weight:650;letter-spacing:-.014em;margin:0 0 .4rem;text-wrap:balance;overflow-wrap:anywhere}
h2{font-size:1.375rem;line-height:1.25;font-weight:650;letter-spacing:-.01em;margin:0 0 .75rem}
h3{font-size:1.0625rem;line-height:1.3;font-weight:650;margin:0 0 .35rem}
section{margin-top:3.25rem}
p{margin:0 0 .75rem;max-width:44rem}
p,li,dd,figcaption{overflow-wrap:anywhere}
td,th{overflow-wrap:break-word}
tbody th{min-width:7.5rem}
.kicker{font-size:.8125rem;color:var(--soft);margin:0 0 .25rem}
.explore{margin:1rem 0 0}
.about{color:var(--soft);margin:1.5rem 0 0}
.facts{display:flex;flex-wrap:wrap;gap:.2rem 1.4rem;margin:.4rem 0 0;font-size:.875rem}
.facts div{display:flex;gap:.5rem}
.facts dt{color:var(--soft)}
.facts dd{margin:0;font-variant-numeric:tabular-nums}
.verdict{margin-top:1rem;padding:1rem 1.25rem;border-left:4px solid var(--accent);background:var(--raised);border-radius:0 .4rem .4rem 0}
.verdict.open{border-color:var(--warn);background:var(--warnpaper)}
.verdict h2{font-size:1rem;margin:0 0 .4rem;color:var(--soft);letter-spacing:0}
.verdict.open h2{color:var(--warn)}
.verdict p{font-size:1.0625rem;margin:0 0 .4rem}
.verdict .first{font-size:1.1875rem;line-height:1.4;font-weight:600;letter-spacing:-.008em;margin-bottom:.65rem;text-wrap:pretty}
.verdict code{font-size:.78em;font-weight:400;letter-spacing:0}
.verdict>:last-child,.said>:last-child{margin-bottom:0}
.verdict figure{margin:1rem 0 0}
.verdict figcaption{font-size:.8125rem}
.verdict ul{margin:.25rem 0 .5rem;padding-left:1.2rem}
.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
section>h3{margin-top:2rem}
.wide+.note{margin-top:.75rem}
.note{font-size:.875rem;color:var(--soft)}
.wide{overflow-x:auto;max-width:100%}
.wide:focus-visible,summary:focus-visible{outline:2px solid var(--accent);outline-offset:3px;border-radius:2px}
table{border-collapse:collapse;width:100%;font-size:.875rem;line-height:1.4;font-variant-numeric:tabular-nums lining-nums}
caption{text-align:left;color:var(--soft);font-size:.8125rem;padding-bottom:.5rem}
caption span{position:sticky;left:0;display:inline-block;max-width:calc(100vw - 2rem)}
th,td{text-align:left;vertical-align:top;padding:.42rem .8rem .42rem 0;border-bottom:1px solid var(--faint)}
th:last-child,td:last-child{padding-right:0}
thead th{font-weight:600;color:var(--soft);font-size:.8125rem;vertical-align:bottom;border-bottom:1px solid var(--line)}
tbody th{font-weight:600}
.number{text-align:right}
.number+:not(.number){padding-left:1rem}
td.number{white-space:nowrap}
.headline{font-size:.9375rem}
.headline caption{caption-side:bottom;padding:.5rem 0 0}
.headline tbody th{min-width:8rem;padding-left:.9rem;position:sticky;left:0;background:inherit}
.headline tbody th,.headline td{padding-block:.35rem}
.headline .bar{position:absolute;left:0;top:.4rem;bottom:.4rem;width:4px;border-radius:2px}
.headline .mark{font-weight:600;color:var(--accent)}
.headline b{font-weight:600;font-size:1.0625rem}
.headline small,.small{display:block;color:var(--soft);font-size:.8125rem;font-weight:400}
figure{margin:2.75rem 0 0;break-inside:avoid}
figure svg{display:block;height:auto;max-width:100%;font-family:inherit}
figure svg[data-narrow]{display:none}
@media screen and (max-width:40rem){figure svg{display:none}figure svg[data-narrow]{display:block}.verdict figure{margin-inline:-1rem}}
figcaption{margin-top:.6rem;max-width:46rem;font-size:.9375rem;color:var(--soft)}
figure .wide{margin-block:.35rem 0}
details{margin-top:.5rem;font-size:.875rem}
summary{cursor:pointer;color:var(--accent);width:fit-content;padding-block:.2rem}
details .wide{margin-top:.6rem;max-height:26rem;overflow:auto}
.assumptions tbody th{min-width:0}
.assumptions{table-layout:fixed;min-width:44rem}
.assumptions col.what{width:36%}.assumptions col.value{width:17%}.assumptions col.range{width:18%}
.assumptions td,.assumptions tbody th{font-size:.875rem;padding-block:.3rem}
.assumptions tbody th{font-weight:500}
.assumptions .group th{font-weight:650}
.assumptions code{color:var(--soft);font-size:.8125rem;display:block;font-weight:400}
.assumptions .group th{padding-top:1.1rem;color:var(--soft);font-size:.8125rem;border-bottom-color:var(--line)}
.assumed{font-style:italic}
code,pre{font-family:ui-monospace,SFMono-Regular,Menlo,Consolas,"Liberation Mono",monospace;font-size:.875em}
pre{margin:.25rem 0 1rem;padding:.8rem 1rem;background:var(--raised);border-radius:.35rem;white-space:pre-wrap;overflow-wrap:anywhere}
ul.plain{padding-left:1.2rem;max-width:46rem}
ul.plain li{margin-bottom:.5rem}
dl.method{display:grid;grid-template-columns:minmax(8rem,auto) 1fr;gap:.35rem 1.5rem;margin:0 0 1rem;font-size:.9375rem}
dl.method dt{color:var(--soft)}
dl.method dd{margin:0}
@media screen and (max-width:48rem){.wide{background:linear-gradient(90deg,var(--paper) 40%,transparent) 0 0/2.5rem 100% no-repeat local,linear-gradient(270deg,var(--paper) 40%,transparent) 100% 0/2.5rem 100% no-repeat local,linear-gradient(90deg,var(--line),transparent) 0 0/.9rem 100% no-repeat scroll,linear-gradient(270deg,var(--line),transparent) 100% 0/.9rem 100% no-repeat scroll}figure .wide>svg>rect{fill:none}}
.verdict figure .wide>svg>rect{fill:none}
@media (max-width:34rem){.verdict{padding:1.1rem 1.1rem}.verdict .first{font-size:1.125rem}dl.method{grid-template-columns:1fr;gap:.1rem}dl.method dd{margin-bottom:.5rem}}
@media screen and (min-width:60rem){
.verdict:has(figure){display:grid;grid-template-columns:minmax(0,1fr) 22.5rem;grid-template-rows:auto 1fr;column-gap:2rem}
.verdict .said{grid-area:1/1/3/2;align-self:start}
.verdict figure{display:contents}
.verdict figure h3{grid-area:1/2;font-size:.9375rem}
.verdict figure>.wide{grid-area:2/2;margin:0}
.verdict figure svg{display:none}
.verdict figure svg[data-narrow]{display:block;min-width:0}
.verdict>.wide{grid-area:3/1/4/3}
.verdict figcaption,.verdict details{grid-column:1/-1}
.verdict .headline tbody th{white-space:nowrap}
.verdict .headline b{font-size:1rem}
.verdict figcaption{max-width:none}
}
@media print{
@page{size:A4;margin:13mm 14mm}
html{font-size:9.2pt}
main,header,footer{max-width:none;padding-inline:0}
header{padding-top:0}
section,.about{margin-top:.8rem}
section>h3{margin-top:1rem}
h2{margin-bottom:.35rem}
p,ul.plain li{margin-bottom:.4rem}
ul.plain{max-width:none}
footer{padding-block:.6rem 0}
.explore{display:none}
figure{margin-top:.9rem}
th,td{padding:.25rem .5rem .25rem 0}
p,figcaption{max-width:none}
.headline tbody th{min-width:0;white-space:nowrap}
.headline{font-size:.8rem}
.headline b{font-size:.85rem}
.headline small{font-size:.72rem}
.verdict{padding:.7rem .9rem}
figure svg[data-narrow]{display:none}
figure svg{width:78%!important;max-height:72mm}
.verdict figure svg{max-height:56mm}
figure:has(#chart-typical),figure:has(#chart-late){display:none}
figcaption{margin-top:.3rem;font-size:.85rem}
figure .wide{margin-top:.2rem}
figure,tr,.verdict,li,dl.method div,.wide:not(:has(tbody tr:nth-child(13))){break-inside:avoid}
h2,h3{break-after:avoid}
.wide,details .wide{overflow:visible;max-height:none}
.assumptions{min-width:0}
thead{display:table-header-group}
figure details,details:not([open]){display:none}
.verdict,pre{-webkit-print-color-adjust:exact;print-color-adjust:exact}
figure svg{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
`.trim();
}
