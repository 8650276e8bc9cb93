import { controlsStyle, picturesStyle } from '../page/parts/style.js';

/** What the page has beside the style of every report: the form, the pictures, and controls large enough for a finger. */
export function exploreStyle(): string {
  return `
${picturesStyle()}
${controlsStyle()}
header,main,footer{max-width:none}
.verdict .wide{background:none}.verdict p.small{font-size:.9375rem;color:var(--soft)}
section{margin-top:0}
.row label input[type=text]{width:7rem}
.row p{margin:0}
button.plain{min-height:24px;padding:.1rem .2rem;text-align:left;border:0;background:none;color:var(--accent);text-decoration:underline}
.start{max-width:52rem;margin-inline:0;padding-block:2rem}
fieldset{border:0;margin:0;padding:0}
legend{font-size:1.125rem;font-weight:650;padding:0;margin-bottom:.4rem}
.guide .field{border-left:0;padding-inline:0}
.guide .field>.row{margin:0;gap:.2rem 1rem;font-size:.875rem}
.guide .wide>label,.guide .wide>input{grid-column:1/-1}
.guide .known{width:auto;font-size:.875rem;min-height:36px;padding:.1rem .4rem}
.guide .moved{color:var(--accent)}
.guide fieldset:focus{outline:0}
.plan:has(.guide){overscroll-behavior:contain}
.explore{display:grid;gap:1.5rem 2.5rem;margin-top:1rem}
.explore>*{min-width:0}
.group{border-top:1px solid var(--line);margin:0;padding:.2rem 0;font-size:1rem}
.group>summary{width:auto;padding-block:.6rem;font-weight:600;color:var(--ink)}
.count{color:var(--soft);font-weight:400;font-size:.8125rem;margin-left:.4rem}
.count.changed{color:var(--accent)}
.count.wrong{color:var(--warn)}
.search{display:flex;flex-wrap:wrap;gap:.25rem 1.5rem;align-items:end;margin-bottom:.75rem;font-size:.9375rem}
.search label:first-child{flex:1 1 12rem}
.field{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,9.5rem);gap:.1rem 1rem;padding:.55rem 0 .55rem .75rem;border-left:3px solid transparent;align-items:center}
.field.changed{border-color:var(--accent)}
.field>label{font-size:.9375rem;line-height:1.35;overflow-wrap:anywhere}
.field>div,.field:has(.range)>label{grid-column:1/-1}
.field>.range{grid-column:1;grid-row:2}
.field figure{margin:.4rem 0 .6rem}
.field p{margin:0;font-size:.8125rem;max-width:none}
.field [aria-invalid=true]{border-color:var(--warn);border-width:2px}
.range{position:relative;display:block}
.range input{height:32px;min-height:0;touch-action:pan-y}
.tick{position:absolute;bottom:0;width:2px;height:7px;margin-left:-1px;background:var(--soft);pointer-events:none}
.faults .error{color:var(--warn)}
.field .fault{font-size:.875rem}
.faults{padding-left:1.1rem;font-size:.875rem;overflow-wrap:anywhere}
textarea{display:block;width:100%;margin-top:.3rem;padding:.6rem;font:.8125rem/1.5 ui-monospace,SFMono-Regular,Menlo,Consolas,"Liberation Mono",monospace;white-space:pre;overflow:auto;resize:vertical;tab-size:2}
.status{position:sticky;top:0;z-index:3;background:var(--paper);padding:.35rem 0 .45rem;font-size:.875rem;color:var(--soft)}
.status p{margin:0 0 .25rem;min-height:1.5em}.status progress{height:.35rem}
.old .verdict,.old .wide{filter:grayscale(1)}.old .verdict{border-left-style:dashed}.old .plot,.old .bar,.old .track{opacity:.5}
.answer .headline{font-size:.875rem}.answer .headline b{font-size:.9375rem}.answer th,.answer td{padding-right:.45rem}.answer td.number{white-space:normal}.answer td b,.headline small,.mark{white-space:nowrap}.answer .verdict .headline tbody th{min-width:6.75rem;white-space:normal}
.answer>.caption{margin:1.5rem 0 .25rem}.caption{max-width:none}.verdict .caption{margin:.5rem 0 .25rem;font-size:.8125rem}
.changes td,.changes th{font-size:.8125rem}.changes tbody th{min-width:5.5rem}.changes small{font-size:.75rem}.field .said{margin:.4rem 0}.field .said p{margin:0 0 .35rem}.measure{margin-top:2rem}
.same{color:var(--soft)}
figure h3{margin-bottom:.5rem}
figure{margin-top:2rem}
.plot{min-height:100px}
.bars{display:grid;grid-template-columns:1fr auto;gap:.1rem .75rem;margin:.5rem 0;font-size:.875rem}
.bars .bar{grid-column:1/-1;display:flex;height:1.5rem;border-radius:3px;overflow:hidden}
.bars .bar span{height:100%}
.total,.number{font-variant-numeric:tabular-nums}
.panels{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,15rem),1fr));gap:1.1rem 2rem}
.panel h4{margin:0 0 .2rem;font-size:.9375rem}
.estimate{display:grid;grid-template-columns:1fr auto;gap:0 .5rem;font-size:.875rem}
.estimate .name{overflow:hidden;text-overflow:ellipsis;white-space:nowrap;color:var(--soft)}
.track{grid-column:1/-1;position:relative;height:1.1rem;background:var(--raised);border-radius:3px;margin-bottom:.3rem}
.track span{position:absolute}
.zero{top:0;bottom:0;width:1px;background:var(--soft)}
.track .span{top:calc(50% - 1.5px);height:3px}
.point{top:calc(50% - 5px);width:10px;height:10px;margin-left:-5px;border-radius:50%;outline:2px solid var(--raised)}
@media screen and (min-width:68rem){
.explore{grid-template-columns:minmax(19rem,21rem) minmax(0,1fr);gap:1.5rem}
header{display:grid;grid-template-columns:minmax(0,1fr) auto;column-gap:1.5rem}header h1{font-size:1.375rem}header .tools{grid-column:2;grid-row:1/3;align-self:center}
.answer .verdict{padding-inline:1rem .75rem}
.plan{max-height:calc(100vh - 1rem);overflow:auto;position:sticky;top:.5rem;padding-right:.5rem}
}
@media print{.plan,.tools,.status,.reversals:not([open]),.measure .row,.measure:not(:has(table)){display:none}.bar,.track span{-webkit-print-color-adjust:exact;print-color-adjust:exact}}
.plot,.bar,.track{transition:opacity .15s}`.trim();
}
