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
main,header,footer{max-width:62rem;margin-inline:auto;padding-inline:clamp(1rem,4vw,2rem)}
header{padding-block:clamp(1.75rem,6vw,4rem) 0}
footer{padding-block:2rem 4rem;color:var(--soft);font-size:.875rem}
a{color:var(--accent)}
h1{font-size:clamp(1.55rem,1.2rem + 1.9vw,2.5rem);line-height:1.15;font-weight:650;letter-spacing:-.018em;margin:0 0 .75rem;text-wrap:balance;overflow-wrap:anywhere}
h2{font-size:1.375rem;line-height:1.25;font-weight:650;letter-spacing:-.01em;margin:0 0 .75rem}
h3{font-size:1.0625rem;line-height:1.3;font-weight:650;margin:0 0 .35rem}
section{margin-top:3.25rem}
p{margin:0 0 .75rem;max-width:44rem}
p,li,dd,figcaption{overflow-wrap:anywhere}
td,th{overflow-wrap:break-word}
tbody th{min-width:7.5rem}
.kicker{font-size:.8125rem;color:var(--soft);margin:0 0 .75rem}
.about{font-size:1.0625rem;color:var(--soft)}
.facts{display:flex;flex-wrap:wrap;gap:.4rem 2rem;margin:1.25rem 0 0;padding:.9rem 0 0;border-top:1px solid var(--line);font-size:.9375rem}
.facts div{display:flex;gap:.5rem}
.facts dt{color:var(--soft)}
.facts dd{margin:0;font-variant-numeric:tabular-nums}
.verdict{margin-top:2rem;padding:1.4rem 1.6rem;border-left:4px solid var(--accent);background:var(--raised);border-radius:0 .4rem .4rem 0}
.verdict.open{border-color:var(--warn);background:var(--warnpaper)}
.verdict h2{font-size:1rem;margin:0 0 .4rem;color:var(--soft);letter-spacing:0}
.verdict.open h2{color:var(--warn)}
.verdict p{font-size:1.0625rem;margin:0 0 .4rem}
.verdict .first{font-size:1.1875rem;line-height:1.4;font-weight:600;letter-spacing:-.008em;margin-bottom:.65rem;text-wrap:pretty}
.verdict code{font-size:.78em;font-weight:400;letter-spacing:0}
.verdict>:last-child{margin-bottom:0}
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
td.number{white-space:nowrap}
.headline{font-size:.9375rem}
.headline tbody th{min-width:8rem;padding-left:.9rem;position:sticky;left:0;background:var(--paper)}
.headline tbody th,.headline td{padding-block:.7rem}
.headline .bar{position:absolute;left:0;top:.75rem;bottom:.75rem;width:4px;border-radius:2px}
.headline b{font-weight:600;font-size:1.0625rem}
.headline small,.small{display:block;color:var(--soft);font-size:.8125rem;font-weight:400}
figure{margin:2.75rem 0 0;break-inside:avoid}
figure svg{display:block;height:auto;max-width:100%;min-width:46rem;font-family:inherit}
figcaption{margin-top:.6rem;max-width:46rem;font-size:.9375rem;color:var(--soft)}
figure .wide{margin-block:.35rem 0}
details{margin-top:.5rem;font-size:.875rem}
summary{cursor:pointer;color:var(--accent);width:fit-content;padding-block:.2rem}
details .wide{margin-top:.6rem;max-height:26rem;overflow:auto}
.register tbody th{min-width:0}
.register{table-layout:fixed;min-width:44rem}
.register col.what{width:36%}.register col.value{width:17%}.register col.range{width:18%}
.register td,.register tbody th{font-size:.875rem;padding-block:.3rem}
.register tbody th{font-weight:500}
.register .group th{font-weight:650}
.register code{color:var(--soft);font-size:.8125rem;display:block;font-weight:400}
.register .group th{padding-top:1.1rem;color:var(--soft);font-size:.8125rem;border-bottom-color:var(--line)}
.assumed{font-style:italic}
.turn{color:var(--warn);display:block;font-weight:600}
code,pre{font-family:ui-monospace,SFMono-Regular,Menlo,Consolas,"Liberation Mono",monospace;font-size:.875em}
pre{margin:.25rem 0 1rem;padding:.8rem 1rem;background:var(--raised);border-radius:.35rem;white-space:pre-wrap;overflow-wrap:anywhere}
ul.plain{padding-left:1.2rem;max-width:46rem}
ul.plain li{margin-bottom:.5rem}
dl.method{display:grid;grid-template-columns:minmax(8rem,auto) 1fr;gap:.35rem 1.5rem;margin:0 0 1rem;font-size:.9375rem}
dl.method dt{color:var(--soft)}
dl.method dd{margin:0}
@media screen and (max-width:48rem){.wide{background:linear-gradient(90deg,var(--paper) 40%,transparent) 0 0/2.5rem 100% no-repeat local,linear-gradient(270deg,var(--paper) 40%,transparent) 100% 0/2.5rem 100% no-repeat local,linear-gradient(90deg,var(--line),transparent) 0 0/.9rem 100% no-repeat scroll,linear-gradient(270deg,var(--line),transparent) 100% 0/.9rem 100% no-repeat scroll}figure .wide>svg>rect{fill:none}}
@media (max-width:34rem){.verdict{padding:1.1rem 1.1rem}.verdict .first{font-size:1.125rem}dl.method{grid-template-columns:1fr;gap:.1rem}dl.method dd{margin-bottom:.5rem}}
@media print{
@page{size:A4;margin:16mm 15mm}
html{font-size:9.6pt}
main,header,footer{max-width:none;padding-inline:0}
header{padding-top:0}
section{margin-top:1.8rem}
figure{margin-top:1.5rem}
figure svg{min-width:0;width:100%!important;max-height:225mm}
figure,tr,.verdict,li,dl.method div{break-inside:avoid}
h2,h3{break-after:avoid}
.wide,details .wide{overflow:visible;max-height:none}
.register{min-width:0}
thead{display:table-header-group}
figure details{display:none}
.verdict,pre{-webkit-print-color-adjust:exact;print-color-adjust:exact}
figure svg{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
`.trim();
}
