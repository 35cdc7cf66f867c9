/** The one style of the page: paper and ink, light and dark, wide and narrow, screen and print. @module */

import { CANDIDATE_COLOURS } from '../drawing/palette.js';
import { cssString } from '../html/css-text.js';

const colours = (theme: 'light' | 'dark'): string => CANDIDATE_COLOURS.map((colour, index) => `--c${index + 1}:${colour[theme]}`).join(';');
const LIGHT = `--paper:#fdfcf8;--ink:#1f1c18;--soft:#69625a;--hair:#c2bbae;--grid:#e8e4da;--step:rgba(112,98,74,.085);--loss:#cfc8bb;--loss-motor:#aca293;${colours('light')}`;
const DARK = `--paper:#1f1c19;--ink:#e9e3d9;--soft:#a9a195;--hair:#5a534a;--grid:#35312b;--step:rgba(235,220,195,.065);--loss:#574f46;--loss-motor:#857a6c;${colours('dark')}`;
/** The colours of the light page by their names, for drawings that stand alone. */
export const LIGHT_COLOURS: Readonly<Record<string, string>> = Object.fromEntries(
  Array.from(LIGHT.matchAll(/--([a-z0-9-]+):([^;]+)/g), ([, name, value]) => [name, value]),
);
const HIDDEN = CANDIDATE_COLOURS.map((_, index) => {
  const [one, colour] = [index + 1, `"var(--c${index + 1})"`];
  return `.without-${one} [data-channel] :is([stroke=${colour}],[fill=${colour}])`;
}).join(',');
/** On a narrow page a table of several columns is a grid: each row's head over its values. */
const COLUMNS = [1, 2, 3, 4, 5, 6, 7, 8]
  .map((count) => `.n${count} tr{grid-template-columns:repeat(${count},minmax(${count < 4 ? 0 : 84}px,1fr))}`)
  .join('');
/** On paper two figures share a page. */
const PRINT_WIDTHS =
  ':is(#figure-profile,#figure-measured)>svg{width:61%}#figure-margins>svg{width:63%}:is(#figure-torque,#figure-efficiency,#figure-doubt,#figure-power)>svg{width:77%}#figure-after-stop>svg{width:86%}#figure-allowed-time>svg{width:62%}:is([id^=figure-why])>svg{width:84%}';
const NAMES = CANDIDATE_COLOURS.map((_, index) => `.k${index + 1}{color:var(--c${index + 1})}`).join('');

export function styleSheet(foot: string): string {
  return `:root{color-scheme:light dark;${LIGHT};--serif:"Iowan Old Style","Palatino Linotype",Palatino,"URW Palladio L","TeX Gyre Pagella","Book Antiqua","Noto Serif",Georgia,serif;--sans:Inter,-apple-system,"Segoe UI",Roboto,"Helvetica Neue","Noto Sans","Liberation Sans",Arial,system-ui,sans-serif;--mono:ui-monospace,"SF Mono",Consolas,"Liberation Mono",monospace}
@media screen and (prefers-color-scheme:dark){:root{${DARK}}}
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);-webkit-text-size-adjust:100%;text-size-adjust:100%;scroll-padding-top:24px}
body{margin:0;font:17px/1.55 var(--serif);font-variant-numeric:lining-nums proportional-nums;font-kerning:normal;overflow-wrap:break-word}
.page{max-width:1136px;margin:0 auto;padding:56px 24px 80px;display:grid;grid-template-columns:148px minmax(0,880px);column-gap:60px;justify-content:center}
nav{font:12.5px/1.4 var(--sans);color:var(--soft)}
nav ol{list-style:none;margin:0;padding:0;position:sticky;top:40px}
nav li{margin:0 0 9px}
nav a{color:inherit;text-decoration:none}
nav a:hover,nav a:focus-visible{color:var(--ink);text-decoration:underline;text-underline-offset:3px;text-decoration-thickness:1px}
:focus-visible{outline:2px solid var(--c1);outline-offset:3px}
header{margin:0 0 56px}
.over{font:12.5px/1.4 var(--sans);color:var(--soft);margin:0 0 14px}
h1{font-size:38px;line-height:1.14;font-weight:400;letter-spacing:-.012em;margin:0 0 22px;max-width:20em;text-wrap:balance}
h2{font-size:23px;line-height:1.26;font-weight:400;letter-spacing:-.004em;margin:0 0 20px;max-width:29em;text-wrap:balance}
h3{font:600 13px/1.4 var(--sans);margin:40px 0 10px}
p{margin:0 0 1em;max-width:36.5rem;text-wrap:pretty}
.lead{font-size:23px;line-height:1.36;max-width:34rem;margin:0 0 14px}
.verdict{font-size:18px;line-height:1.54;max-width:38rem}
section{margin:0 0 72px}
${NAMES}
.lead span,.verdict span{font-weight:700}
figure{margin:6px 0 0}
figure>svg{display:block;max-width:100%;height:auto;overflow:visible}
svg text{font-family:var(--sans);font-variant-numeric:tabular-nums lining-nums}
svg text[stroke]{paint-order:stroke;stroke-linejoin:round}
.narrow{display:none!important}.with-narrow{display:none}
@media screen{${HIDDEN}{display:none}}
.readable{cursor:crosshair;touch-action:pan-y}.readable text{user-select:none;pointer-events:none}
.readout{paint-order:stroke;stroke:var(--paper);stroke-width:4px}
.bar{display:flex;flex-wrap:wrap;gap:6px 18px;align-items:center;font:13px/1.5 var(--sans);color:var(--soft);margin:14px 0 0;min-height:30px}
.bar label{display:inline-flex;gap:6px;align-items:center}
.bar input{accent-color:var(--ink);margin:0}.bar input[type=range]{width:190px}
.bar button{font:inherit;color:var(--ink);background:none;border:0;border-bottom:1px solid var(--hair);padding:3px 1px;cursor:pointer}.bar button:disabled{color:var(--soft);border-color:transparent;cursor:default}
.bar output{flex-basis:100%;color:var(--ink);font-variant-numeric:tabular-nums}
.hash{color:var(--soft);font-size:.86em;font-family:var(--mono);margin-left:.6em}
figcaption,.note{font:13.5px/1.5 var(--sans);color:var(--soft);max-width:41rem;margin:16px 0 0;text-wrap:pretty}
figcaption b,.note b{font-weight:600;color:var(--ink)}
table{border-collapse:collapse;font:14px/1.35 var(--sans);font-variant-numeric:tabular-nums lining-nums;border-top:1px solid var(--ink);border-bottom:1px solid var(--ink)}
.tw{overflow-x:auto}
th{font-weight:400;text-align:left}
td{text-align:right;white-space:nowrap}
thead th{vertical-align:bottom;padding:10px 0 8px;color:var(--soft)}
.cmp{width:100%;max-width:720px}
.cmp thead th{font-weight:600;font-size:14.5px;text-align:right;width:122px;padding-right:1.75em;padding-left:10px;overflow-wrap:anywhere}
.cmp thead td{width:auto}
${CANDIDATE_COLOURS.map((_, index) => `thead .k${index + 1}{color:var(--c${index + 1})}`).join('')}
thead svg{vertical-align:3px}
.cmp tbody th,.cmp td{padding:4.5px 0}
.cmp tbody th{padding-right:10px}
.cmp td.txt{padding-right:1.75em}
.cmp.ranged{max-width:880px}.ranged td{position:relative;padding-right:72px}.ranged td.txt{padding-right:calc(1.75em + 72px)}.ranged thead th{width:180px;padding-right:calc(24px + 72px)}
.rg{position:absolute;right:0;width:70px;top:6px;text-align:left;color:var(--soft);font-size:11.5px}
.cmp.many,.en.many{max-width:none}.cmp.many thead th,.en.many thead th{width:86px;font-size:13px;padding-left:6px;padding-right:.5em}.cmp.many.ranged thead th{width:auto;padding-right:22px}.cmp.many tbody th{min-width:150px}
.grp th{font:italic 16.5px/1.3 var(--serif);padding:14px 0 4px;border-top:1px solid var(--hair)}
.cmp tr:has(+.grp) th,.cmp tr:has(+.grp) td{padding-bottom:11px}
.cmp tbody tr:last-child th,.cmp tbody tr:last-child td{padding-bottom:12px}
.quiet td,.quiet th{color:var(--soft);font-size:13px}
td b{font-weight:700}
.f{display:inline-block;width:1.75em;text-align:left}
sup{font-size:.78em;line-height:0;vertical-align:.35em;font-weight:400}
.en{width:100%;max-width:720px}
.en th,.en td{padding:4px 0}
.en tbody th{padding-right:8px}
.en thead th{text-align:right;font-weight:600;padding:10px .45em 2px 20px;overflow-wrap:anywhere}
.en thead .un th{text-align:right;font-weight:400;padding:0 0 8px 10px}
.en thead .un th:nth-child(even){padding-right:.45em}
.en.many thead .un th,.en.many thead th{padding-right:.45em}
.en .pc{color:var(--soft);min-width:3.4em}
.en td.txt{padding-right:.45em}.en.many td.txt{padding-right:1.75em}
.en .useful th{font-weight:600}.en .useful .pc{color:var(--ink)}
.en .part th{padding-left:1.2em}.en .part th,.en .part td{color:var(--soft);font-size:13px}
.en .sum th,.en .sum td{border-top:1px solid var(--hair);border-bottom:1px solid var(--hair);padding:7px 0}
.en .sum+tr th,.en .sum+tr td{padding-top:8px}
.en tbody tr:last-child th,.en tbody tr:last-child td{padding-bottom:10px}
.as{width:100%}
.as th,.as td{padding:5px 0;vertical-align:top}
.as thead th{padding:10px 0 8px;font-size:13px;vertical-align:bottom}
.as .r{text-align:right}
.as tbody th{max-width:250px;padding-right:12px}
.as td,.as .r{padding-left:12px}
.as td.o,.as th.o{padding-left:24px;white-space:normal;text-align:left}
.as td.w{font-size:13px;color:var(--soft);min-width:180px}
.as tr.grp th{padding:14px 0 4px;max-width:none}
.as tbody:last-child tr:last-child th,.as tbody:last-child tr:last-child td{padding-bottom:10px}
.list{max-width:36.5rem;padding-left:1.3em;margin:0}.list li{margin:0 0 .6em;padding-left:.3em}.list li::marker{color:var(--soft)}
.list b{font-weight:700}
details{border-top:1px solid var(--hair);padding:8px 0}
details.file:last-of-type{border-bottom:1px solid var(--hair)}
details.more{border:0;padding:14px 0 0}details.data{border:0;padding:6px 0 0;margin:4px 0 0}
summary{cursor:pointer;font:13px/1.5 var(--sans);color:var(--soft)}
summary:hover{color:var(--ink)}
.data .tw{margin:12px 0 0}
.plain{font-size:12.5px}
.plain th,.plain td{padding:2.5px 18px 2.5px 0}
.plain thead th{padding:7px 18px 6px 0}
.plain thead th:not(:first-child){text-align:right}
.plain td .long{display:inline-block;white-space:normal;min-width:200px;text-align:left}
pre{font:12.5px/1.55 var(--mono);white-space:pre-wrap;overflow-wrap:anywhere;margin:14px 0 4px;tab-size:2}
code{font:.92em var(--mono);overflow-wrap:anywhere}
footer{font:12.5px/1.5 var(--sans);color:var(--soft);border-top:1px solid var(--hair);padding-top:12px}
footer p{margin:0}
@media screen and (max-width:1040px){.page{grid-template-columns:minmax(0,880px);padding-top:40px}nav{display:none}}
@media screen and (max-width:700px){body{font-size:16.5px}.page{padding:28px 15px 56px}h1{font-size:29px}h2{font-size:20.5px}.lead{font-size:20.5px}.verdict{font-size:17px}section{margin-bottom:56px}header{margin-bottom:44px}.wide{display:none!important}.narrow{display:block!important}.with-wide{display:none}.with-narrow{display:inline}table{font-size:13px}.cmp,.cmp thead,.cmp tbody{display:block}.cmp tr{display:grid;padding:5px 0}${COLUMNS}.cmp tr>th:first-child{grid-column:1/-1;position:sticky;left:0;justify-self:start;color:var(--soft);padding:0}.cmp thead td{display:none}.cmp thead tr>th:first-child{grid-column:auto;position:static;justify-self:auto}.cmp thead th,.cmp.ranged thead th,.cmp.many.ranged thead th{width:auto;font-size:13px;padding:0 2em 4px 4px;text-align:right}.f{width:1.55em}.cmp td,.cmp td.txt,.ranged td,.ranged td.txt{padding:0 .45em 0 0}.cmp td.txt{padding-right:2em}.rg{position:static;display:block;width:auto;text-align:right;padding-right:1.55em;font-size:11px}.cmp tr.grp{padding:8px 0 0}.cmp tr.grp th{color:var(--ink);border-top:0}.cmp tr.quiet th,.cmp tr.quiet td{padding-top:0!important}.cmp tr:has(+.grp) th,.cmp tr:has(+.grp) td{padding-bottom:0}.cmp tr:has(+.grp){border-bottom:1px solid var(--hair);padding-bottom:9px}.grp th{font-size:15.5px}.quiet td,.quiet th{font-size:11.5px}.en{font-size:11.5px}.en thead th{padding-left:8px}.en td:not(.pc):not(.txt){padding-left:4px}.en .pc{display:none}.as,.as tbody{display:block}.as thead{display:none}.as tr{display:grid;grid-template-columns:1fr 1.5fr 1fr;padding:5px 0 7px}.as tbody th{grid-column:1/-1;max-width:none;color:var(--ink)}.as tr.grp{padding:0}.as td,.as th{padding:1px 0!important}.as tr.grp th{padding:12px 0 4px!important}.as td{text-align:left}.as td.w{grid-column:1/-1;font-size:12px}.en .part th,.en .part td,.en .quiet th,.en .quiet td{font-size:11px}figcaption,.note{font-size:13px}#tipping tbody,#tipping tr,#tipping tbody th,#tipping td{display:block;width:auto;text-align:left;white-space:normal;padding:1px 0}#tipping table{display:block;min-width:0}#tipping thead{display:none}#tipping tr{padding:7px 0 8px;border-bottom:1px solid var(--hair)}#tipping td::before{color:var(--soft)}#tipping td:nth-of-type(1)::before{content:"as written "}#tipping td:nth-of-type(2)::before{content:"95 % interval "}#tipping td:nth-of-type(4)::before{content:"to be written as "}.bar{gap:6px 12px}.bar input[type=range]{width:104px}}
@page{margin:14mm 16mm 17mm 18mm;@bottom-left{content:${cssString(foot)};font:8pt sans-serif;color:#69625a}@bottom-right{content:counter(page) " of " counter(pages);font:8pt sans-serif;color:#69625a}}
@media print{:root{color-scheme:light;--paper:#fff;--step:rgba(112,98,74,.12)}html{background:#fff}body{font-size:10.2pt;line-height:1.42;orphans:3;widows:3}.page{display:block;padding:0;max-width:none}nav{display:none}h1{font-size:23pt;margin-bottom:10pt}h2{font-size:13.4pt;margin-bottom:6pt;max-width:none;break-after:avoid;break-inside:avoid}h3{font-size:8.6pt;margin:8pt 0 4pt;break-after:avoid}.over{font-size:8pt}.lead{font-size:14pt}.verdict{font-size:11.2pt;line-height:1.42;max-width:40em}p{max-width:46em;margin-bottom:.6em}section>p{break-inside:avoid}section>p:not(:last-child){break-after:avoid}header{margin-bottom:28pt}section{margin-bottom:13pt}figure{margin-top:8pt;break-inside:avoid}figure>svg{width:100%}${PRINT_WIDTHS}figcaption,.note{font-size:8.2pt;line-height:1.38;margin-top:6pt;max-width:60em;break-before:avoid}details.data,.bar,.live,details.more>:not(summary){display:none}details.more>summary::after{content:": in the page"}table{font-size:8.6pt}.tw{overflow:visible}.cmp,.en{font-size:8.4pt}.cmp tr:not(.grp),.en tbody tr:nth-last-child(-n+6){break-before:avoid}.plain{break-inside:avoid}.cmp.many,.en.many{font-size:7.2pt}.cmp.many thead th,.en.many thead th{font-size:7.2pt;width:auto}.cmp tbody th,.cmp td{padding-top:.8pt;padding-bottom:.8pt}.cmp.ranged thead th{width:104pt;padding-left:0;font-size:8.4pt}.cmp.ranged.many thead th{width:auto;font-size:7.2pt}.rg{font-size:7pt;top:1.2pt}.ranged td.txt{padding-right:calc(1.75em + 72px)}.grp th{font-size:9.6pt;padding:4pt 0 1.5pt;break-after:avoid}.cmp tr:has(+.grp) th,.cmp tr:has(+.grp) td{padding-bottom:4pt}thead th{padding:5pt 0 4pt}.en th,.en td{padding-top:1.1pt;padding-bottom:1.1pt}.quiet td,.quiet th,.en .part th,.en .part td{font-size:7.8pt}.as{font-size:7.2pt}.as thead th{font-size:7.2pt;padding:3pt 0 2pt 10pt}.as thead th:first-child{padding-left:0}.as td.o{white-space:nowrap}.as td.w{white-space:normal}.as tr.grp th{font-size:8.4pt}.as th,.as td{padding-top:.9pt;padding-bottom:.9pt}.as td.w{font-size:6.8pt}.as tbody th{max-width:none;width:36%}.as td.o,.as th.o{padding-left:10pt}.as tr.grp th{padding-top:4pt;padding-bottom:1pt}.list li{margin-bottom:.25em}.plain{font-size:7.6pt}.plain th,.plain td{padding-top:1.2pt;padding-bottom:1.2pt}tr{break-inside:avoid}.list{max-width:none;font-size:8.8pt;line-height:1.34}#cautions .list{columns:2;column-gap:14pt}details.file{border:0}details.file::details-content{content-visibility:visible;block-size:auto;display:block}pre{font-size:5.3pt;line-height:1.18;columns:2;column-gap:12pt;margin:4pt 0 2pt}details{padding:3pt 0}a[href^="http"]::after{content:" [" attr(href) "]"}footer{font-size:8pt}}
`;
}
