/** The look of a run sheet: black on white, large, one page of A4 an instrument. */
export const SHEET_STYLE = `
:root{color-scheme:light}
*{box-sizing:border-box}
html{font-size:12pt}
body{margin:0;background:#fff;color:#000;font:1rem/1.32 system-ui,-apple-system,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif}
main{max-width:190mm;margin:0 auto;padding:6mm 4mm}
article{display:flex;flex-direction:column;gap:.6rem}
article+article{margin-top:3rem}
p,ul,ol,h1,h2{margin:0}
.kicker{font-size:.75rem}
h1{font-size:1.4rem;line-height:1.15;overflow-wrap:anywhere}
h2{font-size:1.05rem;border-bottom:1.5pt solid #000;margin-bottom:.25rem}
header p{margin-top:.25rem}
li{margin-top:.15rem;overflow-wrap:anywhere}
ul,ol{padding-left:1.2rem}
.blocks{column-count:2;column-gap:1.2rem}
.blocks section{break-inside:avoid;margin-bottom:.5rem}
.next ul{list-style:none;padding:0;display:grid;grid-template-columns:repeat(3,1fr);gap:0 .8rem}
.next li::before{content:"";display:inline-block;width:.7rem;height:.7rem;border:1pt solid #000;margin-right:.4rem;vertical-align:-.05rem}
table{width:100%;border-collapse:collapse;table-layout:fixed}
th,td{border:.75pt solid #000;padding:.1rem .3rem;text-align:left;font-size:.75rem;vertical-align:top}
td{height:1.55rem}
.cautions{font-size:.72rem;line-height:1.25}
.cautions h2{font-size:.95rem}
.cautions ul{column-count:2;column-gap:1.2rem;padding-left:1rem}
.cautions li{break-inside:avoid}
footer{font-size:.65rem}
@media screen and (max-width:40rem){.blocks,.cautions ul{column-count:1}.next ul{grid-template-columns:1fr}table{table-layout:auto}th,td{padding:.1rem .15rem;font-size:.6rem}}
@media print{
@page{size:A4;margin:10mm 12mm}
html{font-size:11pt}
main{max-width:none;padding:0}
article{break-inside:avoid}
article+article{break-before:page;margin-top:0}
}
`.trim();
