import { customProperties } from '../../report/palette.js';

/** What pictures drawn in the page need beside the style of every page: colours by class, legends, and the frame of a canvas. */
export function picturesStyle(): string {
  const colours = [...customProperties().keys()]
    .filter((name) => /^(?:strategy|activity|tip)-/u.test(name))
    .map((name) => `.${name}{background:var(--${name});fill:var(--${name})}`);
  return `
${colours.join('')}
.legend{list-style:none;display:flex;flex-wrap:wrap;gap:.15rem 1.1rem;padding:0;margin:.25rem 0 .5rem;font-size:.875rem}
.legend li{display:flex;align-items:center;gap:.4rem}
.key{width:.8rem;height:.8rem;border-radius:2px;flex:none}
.curve,.timelines p{margin:.6rem 0 .2rem;font-size:.8125rem}
.timelines svg{display:block;width:100%}
.timelines .activities{height:1.6rem}
.timelines .tips{height:.7rem;margin-top:.15rem}
.timelines .tips rect{stroke:var(--paper);stroke-width:.7px;vector-effect:non-scaling-stroke}
.timelines path{fill:none;stroke:var(--ink);vector-effect:non-scaling-stroke}
.drift{position:relative;margin-top:.4rem;border-block:1px solid var(--line)}
.drift svg{height:1.8rem}
.drifting{padding-right:4.2rem}
.drift span{position:absolute;left:calc(100% + .3rem);white-space:nowrap;font-size:.75rem;line-height:1;color:var(--soft)}
.drift span:last-child{bottom:0}
.axis{position:relative;height:1.4rem;margin-top:.6rem;border-top:1px solid var(--line);font-size:.8125rem;color:var(--soft)}
.axis span{position:absolute;transform:translateX(-50%)}
.axis span:first-child{transform:none}
.timelines .axis+p{margin-top:0;text-align:center}
@media print{.key,.timelines svg{-webkit-print-color-adjust:exact;print-color-adjust:exact}}
${UPLOT}`.trim();
}

/** Controls, large enough for a finger, and what is said beside them. */
export function controlsStyle(): string {
  return `
input,select,textarea,button,.button{font:inherit;color:var(--ink);background:var(--paper);border:1px solid var(--soft);border-radius:.4rem;max-width:100%}
input[type=text],input[type=search],input[type=number],select{width:100%;min-height:max(44px,2.75rem);padding:.3rem .6rem}
input[type=range]{display:block;width:100%;height:44px;min-height:2.75rem;margin:0;padding:0;border:0;background:none;accent-color:var(--accent)}
button,.button{min-height:max(44px,2.75rem);padding:.4rem .9rem;cursor:pointer;display:inline-flex;align-items:center}
button:hover,.button:hover{background:var(--raised)}
button.main,button[aria-pressed=true]{background:var(--accent);border-color:var(--accent);color:var(--paper)}
button.main{font-weight:600}
button[disabled]{opacity:1;color:var(--soft);border-color:var(--line);background:var(--raised);cursor:default}
button:focus-visible,select:focus-visible,input:focus-visible,textarea:focus-visible,a:focus-visible,.button:focus-within{outline:3px solid var(--accent);outline-offset:2px}
fieldset{min-width:0}
.row{display:flex;flex-wrap:wrap;gap:.6rem;margin:.8rem 0;align-items:center}
.choice{display:flex;align-items:center;gap:.6rem;min-height:max(44px,2.75rem);cursor:pointer}
.choice input{inline-size:1.4rem;block-size:1.4rem;margin:0;flex:none;accent-color:var(--accent)}
progress{display:block;width:100%;height:.6rem;accent-color:var(--accent)}
.fault{color:var(--warn);font-weight:600}
@media (prefers-reduced-motion:reduce){*{scroll-behavior:auto!important;transition:none!important;animation:none!important}}`.trim();
}

/** What the library of pictures needs of its own style sheet: no cursor, legend or selection is shown. */
const UPLOT = `.uplot,.uplot *{box-sizing:border-box}.uplot{width:min-content}.u-wrap{position:relative}.u-over,.u-under,.u-axis{position:absolute}.u-under{overflow:hidden}.uplot canvas{display:block;position:relative;width:100%;height:100%}.u-select{position:absolute}`;
