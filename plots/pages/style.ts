/** The pages' style: a drawing sheet on a bench. Hairlines, tabular figures, one highlighter, system fonts only. */

import { FONT_STACK } from '../theme/look.ts';
import { dark, light, type Palette } from '../theme/palette.ts';

const variables = (palette: Palette): string =>
  [
    ...(['paper', 'sheet', 'ink', 'faint', 'hairline', 'grid', 'useful'] as const).map(
      (name) => `--${name}:${palette[name]}`,
    ),
    `--useful-ink:${palette.usefulInk}`,
    ...Object.entries(palette.line).map(([name, colour]) => `--${name}:${colour}`),
    ...palette.drafts.map((colour, index) => `--draft-${index}:${colour}`),
  ].join(';');

const body = `
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:15px/1.5 "Segoe UI",Roboto,"Helvetica Neue","Liberation Sans",Arial,sans-serif}
h1,h2,h3,th,.label,.titleblock,.turn,.sections,button,select,label,output,.readout{font-family:${FONT_STACK}}
main,header.sheet,footer{max-width:1240px;margin:0 auto;padding:0 20px}
a{color:var(--returning)}
:focus-visible{outline:3px solid var(--returning);outline-offset:2px}
header.sheet{padding-top:14px}
.titleblock{display:flex;flex-wrap:wrap;margin:0;border:1.5px solid var(--ink);background:var(--sheet);overflow:hidden}
.titleblock div{flex:1 1 140px;padding:4px 10px 5px;box-shadow:0 0 0 .5px var(--hairline);min-width:0}
.titleblock div:first-child{flex:2 1 260px}
.titleblock dt{font-size:12px;color:var(--faint)}
.titleblock dd{margin:0;font-size:16px;line-height:1.25;overflow-wrap:anywhere}
.titleblock div:first-child dd{font-weight:700}
.answer{display:grid;grid-template-columns:minmax(0,1.25fr) minmax(0,1fr);gap:10px 36px;align-items:start;padding-top:20px}
h1+.meaning{margin:-6px 0 12px;color:var(--faint)}
h1{font-size:35px;line-height:1.14;margin:0 0 14px;font-weight:700;letter-spacing:-.005em;text-wrap:balance}
.findings{margin:0;border-top:1px solid var(--hairline)}
.findings div{display:grid;grid-template-columns:8.6em minmax(0,1fr);gap:0 12px;padding:6px 0;border-bottom:1px solid var(--hairline)}
.findings dt{font-family:${FONT_STACK};color:var(--faint)}
.findings dd{margin:0;font-variant-numeric:tabular-nums}
.findings .way{background:var(--sheet);margin:0 -12px;padding-left:12px;padding-right:12px;border-left:5px solid var(--returning);margin-left:-17px}
.findings .way dt{color:var(--ink);font-weight:700}
.answer .drawing{grid-column:1/-1;margin-top:6px}
.glance+.note{max-width:52ch;margin:6px auto 0}
.note,.small{color:var(--faint);font-size:13.5px}
h2{font-size:23px;line-height:1.2;margin:46px 0 4px;padding-top:9px;border-top:1.5px solid var(--ink)}
h3{font-size:17px;margin:0 0 6px;line-height:1.25}
p{max-width:74ch}
figure{margin:22px 0 0;min-width:0}
figcaption{max-width:78ch;font-size:14.5px;color:var(--faint);margin-top:2px}
section>figure>figcaption{max-width:none;display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,52ch),1fr));gap:0 32px}
figcaption b{color:var(--ink);font-weight:600}
.pair{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));gap:0 32px}
.plot{width:100%;position:relative;min-height:120px}
.plot .cursor{position:absolute;pointer-events:none;background:var(--ink);opacity:.55;display:none;z-index:2}
.outline{display:block;width:100%;height:auto;max-height:190px;overflow:visible}
.outline .draft{fill:none;stroke-width:2;vector-effect:non-scaling-stroke}
.outline .draft-0{fill:var(--grid);stroke:var(--draft-0)}.outline .shadow{fill:var(--grid)}
.outlines{list-style:none;margin:0;padding:0}.outlines li{margin:0 0 8px}.outlines .draft-key{margin:1px 0 0;max-width:none}
${[1, 2, 3, 4, 5, 6, 7].map((i) => `.outline .draft-${i}{stroke:var(--draft-${i})}`).join('\n')}
.outline .draft-1{stroke-dasharray:9 6}.outline .draft-2{stroke-dasharray:16 6}.outline .draft-3{stroke-dasharray:10 4 2 4}.outline .draft-4{stroke-dasharray:2.5 4}.outline .draft-5{stroke-dasharray:16 4 3 4}
.outline .joint{stroke:var(--ink);stroke-width:1;vector-effect:non-scaling-stroke}
.outline .centre{stroke:var(--hairline);stroke-width:1;stroke-dasharray:14 4 3 4;vector-effect:non-scaling-stroke}
.sections{list-style:none;margin:6px 0 0;padding:0;display:flex;flex-wrap:wrap;gap:2px 20px;font-size:13.5px;color:var(--faint);font-variant-numeric:tabular-nums}
.sections b{color:var(--ink);font-weight:600}
.sections li{overflow-wrap:anywhere}
.glance{display:block;width:100%;max-width:470px;height:auto;font:12px ${FONT_STACK.replace(/"/g, "'")};margin:0 auto}
.glance text{fill:var(--faint)}.glance .name{font-size:12px}
.window{fill:var(--useful)}.glance .wanted{fill:var(--useful-ink)}
.spread{fill:var(--returning);opacity:.13}
.middle{fill:none;stroke:var(--returning);stroke-width:2.8}.crest{fill:none;stroke:var(--returning);stroke-width:1.3;stroke-dasharray:1.5 3}
.dot{stroke:var(--returning);stroke-width:1.4;fill:var(--sheet)}.dot.lands{fill:var(--returning)}
.level{stroke-width:1.6}.level.exhaust{stroke:var(--exhaust)}.level.transfer{stroke:var(--transfer);stroke-dasharray:9 4 2 4}
.glance .exhaust{fill:var(--exhaust)}.glance .transfer{fill:var(--transfer)}.glance .returning,.glance .edge{fill:var(--returning)}.glance .returning{font-weight:700}
.base{stroke:var(--hairline)}
.useful-bar{fill:var(--returning)}
.turn{margin:14px 0 0;font-size:13.5px}
.turn svg{width:100%;height:34px;display:block;background:var(--sheet);border:1px solid var(--hairline)}
.turn line{stroke:var(--hairline);vector-effect:non-scaling-stroke}
.turn .bar.exhaust{fill:var(--exhaust)}.turn .bar.transfer{fill:var(--transfer)}
.turn ol{list-style:none;margin:3px 0 0;padding:0;display:grid;grid-template-columns:repeat(auto-fill,minmax(150px,1fr));gap:0 12px}
.turn i{font-style:normal;color:var(--faint)}
.turn span{color:var(--faint);font-variant-numeric:tabular-nums}
.event-eo b,.event-ec b,.event-next-eo b{color:var(--exhaust)}.event-to b,.event-tc b{color:var(--transfer)}
.player{position:sticky;top:0;z-index:5;display:flex;flex-wrap:wrap;gap:4px 14px;align-items:center;background:var(--paper);border-bottom:1px solid var(--hairline);padding:8px 0}
.player input[type=range]{flex:1 1 160px;min-width:120px;height:30px;margin:0;accent-color:var(--returning)}
.player output{font-size:21px;font-weight:700;min-width:6.2em;font-variant-numeric:tabular-nums}
.player .verdict{flex:1 1 100%;font-size:14px;color:var(--faint)}
.player .readout{flex:1 1 100%;font-size:14px;color:var(--faint)}
.player.tells .verdict,.player .readout{line-height:20px;min-height:20px}
button,select{max-width:100%;font-size:15px;color:var(--ink);background:var(--sheet);border:1px solid var(--ink);border-radius:2px;padding:5px 14px;min-height:34px;cursor:pointer}
.readout{min-height:1.5em;font-size:14px;font-variant-numeric:tabular-nums;color:var(--ink)}
.scroll{overflow-x:auto;max-width:100%;scrollbar-width:thin;scrollbar-color:var(--hairline) var(--grid);background:linear-gradient(90deg,var(--paper) 40%,transparent) 0 0/48px 100% no-repeat local,linear-gradient(270deg,var(--paper) 40%,transparent) 100% 0/48px 100% no-repeat local,linear-gradient(90deg,var(--hairline),transparent) 0 0/14px 100% no-repeat scroll,linear-gradient(270deg,var(--hairline),transparent) 100% 0/14px 100% no-repeat scroll}
section>.scroll{margin-top:18px}
.tall{max-height:640px;overflow:auto}.tall thead th{position:sticky;top:0;background:var(--paper);z-index:1}
table{border-collapse:collapse;font-size:14px;font-variant-numeric:tabular-nums}
caption{text-align:left;color:var(--faint);padding:4px 0}.scroll caption{padding-right:max(0px,calc(100% - 100vw + 40px))}
th,td{padding:4px 10px 4px 0;border-bottom:1px solid var(--grid);text-align:left;vertical-align:top}
th{font-weight:600;line-height:1.2;border-bottom:1px solid var(--ink)}tbody th{border-bottom-color:var(--grid)}
th .unit{display:block;font-weight:400;color:var(--faint)}
td:not(.n){min-width:6.5em}td.mark{min-width:1.4em}
td.n,th.n{text-align:right;white-space:nowrap}
tr.useful td,tr.useful th{background:var(--useful)}
.printonly{display:none}td .why{display:none}
td.assumed::before{content:"assumed ";color:var(--useful-ink);font-weight:600}
details{margin-top:14px}summary{cursor:pointer;font-family:${FONT_STACK};font-size:16px;padding:4px 0}
.warn{border-left:4px solid var(--exhaust);padding:2px 0 2px 12px;margin:12px 0}
.good{color:var(--transfer);font-weight:600}.bad{color:var(--exhaust);font-weight:600}
h1.alone{margin:22px 0 14px}
.draft-key{font:14.5px/1.3 ${FONT_STACK};border-left:22px solid;padding:0 0 0 9px;overflow-wrap:anywhere}
${[0, 1, 2, 3, 4, 5, 6, 7].map((i) => `.key-${i}{border-left-color:var(--draft-${i})}`).join('')}
${[0, 1, 2, 3, 4, 5, 6, 7].map((i) => `td.draft-name-${i}{box-shadow:inset 6px 0 0 var(--draft-${i});padding-left:14px}`).join('')}
th button{font:inherit;font-weight:600;border:0;background:none;padding:2px 0;min-height:24px;text-align:inherit;text-decoration:underline dotted;color:var(--ink)}
th[aria-sort=ascending] button::after{content:" ↑"}th[aria-sort=descending] button::after{content:" ↓"}
.drawn{display:block;max-width:100%;max-height:760px;height:auto;background:#fff;border:1px solid var(--hairline);padding:6px}
.runs{list-style:none;margin:0;padding:0;display:grid;grid-template-columns:repeat(auto-fill,minmax(290px,1fr));gap:0 32px}
.runs li{border-top:1px solid var(--hairline);padding:10px 0 16px;min-width:0;overflow-wrap:anywhere}
.lay{font-size:13.5px;display:inline-flex;align-items:center;gap:5px;min-height:26px;margin-left:8px}.lay[hidden]{display:none}p.lay{margin:0 0 6px}#beside{border:1px solid var(--hairline);padding:0 16px 16px;margin:8px 0 18px}
.beside-curves{width:100%;height:auto}.beside-curves line{stroke:var(--grid)}.beside-curves text{font:12px ${FONT_STACK};fill:var(--faint)}.beside-curves .value{text-anchor:end}.beside-curves .speed{text-anchor:middle}.beside-curves polyline{fill:none;stroke-width:2}
.runs a{font:700 17px/1.25 ${FONT_STACK};display:block}.runs .what{color:var(--faint);font-size:13.5px}.runs p{margin:4px 0 8px}
.thumbs{display:grid;grid-template-columns:1.5fr 1fr;gap:14px;align-items:end}.thumbs .outline{max-height:84px}
.thumb{width:100%;height:52px;border-bottom:1px solid var(--hairline)}.thumb polyline{fill:none;stroke-width:2;vector-effect:non-scaling-stroke}
${[0, 1, 2, 3, 4, 5, 6, 7].map((i) => `.thumb-draft-${i}{stroke:var(--draft-${i})}`).join('')}
.thumb-draft-1{stroke-dasharray:7 4}.thumb-draft-2{stroke-dasharray:12 4}
.thumb-torque{stroke:var(--torque)}.thumb-power{stroke:var(--power);stroke-dasharray:8 4}.thumb-returning{stroke:var(--returning)}.thumb-outgoing{stroke:var(--outgoing);stroke-dasharray:5 3}
@media screen and (min-width:861px){.answer:has(>.beside){grid-template-rows:auto 1fr}.answer:has(>.beside)>:first-child{grid-row:1/span 2}.answer>.beside{grid-column:2;margin-top:18px}.glance{max-width:none}}
footer{margin-top:48px;padding-bottom:40px;color:var(--faint);font-size:13.5px}
footer p{border-top:1.5px solid var(--ink);padding-top:8px;max-width:none}
@media screen and (max-width:860px){.answer,.pair{grid-template-columns:minmax(0,1fr)}h1{font-size:28px}.player.tells .verdict{min-height:40px}.player .readout{font-size:13px}}
@media screen and (max-width:520px){main,header.sheet,footer{padding-left:14px;padding-right:14px}h1{font-size:25px;margin-bottom:10px}
.titleblock dd{font-size:14px}.titleblock div.minor{display:none}
.findings div{grid-template-columns:minmax(0,1fr)}.answer{padding-top:14px}
.player output{font-size:18px}.player{gap:2px 10px;padding:5px 0}.player.tells .verdict{min-height:54px}.player .readout{min-height:36px}.player.tells .verdict,.player .readout{font-size:13px;line-height:18px}
table{font-size:13px}th.n{white-space:normal}th,td{padding-right:7px}td:not(.n){min-width:0}td:not(.n):last-child{min-width:220px}
.inputs .reason{display:none}td .why{display:block;color:var(--faint);font-size:12px;line-height:1.3}
.inputs td.assumed::before{content:""}.inputs td,.inputs th{min-width:0;white-space:normal;hyphens:auto}.inputs td:first-child{width:42%}h1+.meaning{font-size:14px}}
`;

const print = `
@page{size:A4;margin:9mm 12mm}
@media print{
.scroll{background:none}.scroll caption{padding-right:0}
body{font-size:8.6pt;line-height:1.32;background:#fff;-webkit-print-color-adjust:exact;print-color-adjust:exact}
main,header.sheet,footer{max-width:none;padding:0}header.sheet{padding-top:0}
.titleblock div{padding:1px 7px 2px;flex:1 1 80px}.titleblock div:first-child{flex:1.4 1 100px}.titleblock dd{font-size:10pt}.titleblock dt{font-size:7.5pt}
.answer{grid-template-columns:minmax(0,1.85fr) minmax(0,1fr);padding-top:7px;gap:2px 16px}.answer.even{grid-template-columns:repeat(2,minmax(0,1fr));gap:2px 14px}h1{font-size:15pt;margin-bottom:4px}h1+.meaning{margin:-3px 0 4px;font-size:7.8pt}
.findings dd{font-size:8pt;line-height:1.28}.findings div{padding:1px 0;grid-template-columns:8em minmax(0,1fr)}.findings .way{margin:0}
h2{font-size:12pt;margin:7px 0 1px;padding-top:3px;break-after:avoid}h3{font-size:10pt;margin:0}
figure{margin-top:4px;break-inside:avoid}figcaption{font-size:7.6pt;line-height:1.25;margin:0;max-width:none}p{max-width:none}.glance+.note{max-width:52ch;margin:6px auto 0}
.note,.small{font-size:7.8pt}.player .verdict{font-size:8pt;line-height:1.3!important;min-height:0!important}.warn{margin:3px 0}figcaption .wrong{display:none}
p{margin:3px 0}ul{margin:3px 0;padding-left:16px}.printonly{display:block}.balance{font-size:7.8pt}.cautions{columns:2;column-gap:20px}
.pair{grid-template-columns:repeat(2,minmax(0,1fr));gap:0 14px}.plot{min-height:0}
.outline{max-height:16mm}.answer .note{display:none}.sections{font-size:7.6pt;gap:0 12px;margin-top:2px}
.turn{margin-top:3px;font-size:7.6pt}.turn svg{height:16px}
.player{background:none;position:static;padding:0;border:0;break-after:avoid}.player button,.player input,.readout,.noprint,details{display:none!important}
.player output{font-size:11pt;min-width:0}.player .verdict{flex:1 1 60%}
.sheetbreak{break-before:page}
table{font-size:7.6pt}.tall{max-height:none;overflow:hidden}.tall tbody tr:nth-child(n+11){display:none}.tall th.n{white-space:normal}.draft-key{font-size:8pt;border-left-width:14px}.outlines li{margin:0 0 3px}section>.scroll{margin-top:4px}.answer th,.answer td{padding-right:4px}.answer table{font-size:7pt}th,td{padding:1px 8px 1px 0}
footer{margin-top:5px;padding-bottom:0;font-size:7.2pt}footer p{padding-top:3px}
}`;

export const style = `:root{color-scheme:light dark;${variables(light)}}
@media screen and (prefers-color-scheme:dark){:root{${variables(dark)}}}
${body}${print}`;
