/** Style of the board beyond that of every page. */

export const boardStyle = `
h1.alone{font-size:27px;margin:14px 0 4px}
.difference{margin:0 0 8px;font-size:17px;min-height:1.5em;max-width:none;font-variant-numeric:tabular-nums}
.tools,.turnbar{display:flex;flex-wrap:wrap;gap:6px 12px;align-items:center;margin:4px 0}
.tools label,.turnbar label{font-size:14px}
.turnbar input[type=range]{flex:1 1 120px;min-width:90px;accent-color:var(--returning);height:30px;margin:0}
.turnbar output{font-size:14px;min-width:17em;font-variant-numeric:tabular-nums}
.mesh{margin-left:auto;font-size:14px;padding:2px 10px;border:1px solid var(--hairline);background:var(--sheet);font-variant-numeric:tabular-nums}
.mesh[data-progress=refined]{border-color:var(--transfer)}.mesh[data-progress=computing]{border-style:dashed}
.bench{position:relative;width:100%;overflow:hidden;background:var(--sheet);border:1px solid var(--hairline)}
.bench canvas{display:block}.bench svg{position:absolute;left:0;top:0;display:block}
.wall{fill:none;stroke:var(--ink);stroke-width:1.6;pointer-events:none}
.weld{fill:none;stroke:var(--hairline);stroke-width:1;pointer-events:none}
.usual path{fill:none;stroke:var(--faint);stroke-width:1.2;opacity:.8;pointer-events:none}.usual .outside{stroke:var(--useful-ink);stroke-width:1.8;opacity:1}
.joint{cursor:grab;touch-action:none}.joint:active{cursor:grabbing}
.joint .reach{fill:transparent}.joint .knob{fill:var(--sheet);stroke:var(--returning);stroke-width:2.2}
.joint:hover .knob,.joint:focus .knob{fill:var(--returning)}
.joint:focus{outline:none}.joint:focus-visible .reach{stroke:var(--returning);stroke-width:2}
.joint text{font-size:12px;fill:var(--ink);text-anchor:middle;pointer-events:none;paint-order:stroke;stroke:var(--sheet);stroke-width:3px}
.window.exhaust{fill:none;stroke:var(--exhaust);stroke-width:1.8}.window.transfers{fill:none;stroke:var(--transfer);stroke-width:1.8}
.ports{background:var(--sheet);border:1px solid var(--hairline)}.ports svg{display:block}
.notice{min-height:1.5em;margin:4px 0;color:var(--exhaust);max-width:none;font-size:14.5px}
.marks{list-style:none;margin:6px 0;padding:0;display:flex;flex-wrap:wrap;gap:3px 18px;font-size:13.5px;color:var(--faint)}
.marks .outside{color:var(--useful-ink)}.marks .outside::before{content:"▸ "}
.desk{display:grid;grid-template-columns:minmax(0,1.5fr) minmax(0,1fr);gap:0 32px}
.desk section:first-child{grid-column:1/-1}
.edits input{font:inherit;font-variant-numeric:tabular-nums;color:var(--ink);background:var(--sheet);border:1px solid var(--hairline);padding:2px 6px;min-height:26px;max-width:100%}
.edits .n input{text-align:right;width:7.2em}
.edits .does{white-space:nowrap}.edits button,.stages button{min-height:26px;padding:1px 9px;font-size:13.5px;margin-right:5px;border-color:var(--hairline)}
tbody th{border-bottom-color:var(--grid)}.edits th,.edits td{vertical-align:middle}.edits td input{min-width:6.6em}.edits code{font-size:12.5px}.keys th{max-width:22em}.edits .doc{color:var(--faint);font-size:13.5px}
.tools input[type=text],.tools input[type=search]{font:inherit;color:var(--ink);background:var(--sheet);border:1px solid var(--ink);padding:4px 8px;min-height:34px;max-width:100%}
.dials div{display:grid;grid-template-columns:minmax(0,1fr) 8.4em;gap:0 10px;align-items:center;padding:5px 0;border-bottom:1px solid var(--grid)}
.dials label{grid-column:1/-1;font-size:14px}
.dials div[hidden]{display:none}
.dials input[type=range]{width:100%;accent-color:var(--returning);height:26px;margin:0}
.dials input[type=text]{font:inherit;width:100%;text-align:right;color:var(--ink);background:var(--sheet);border:1px solid var(--hairline);padding:2px 6px;min-height:26px}
.stages{list-style:none;margin:8px 0;padding:0;display:grid;grid-template-columns:repeat(auto-fill,minmax(205px,1fr));gap:14px 20px}
.stages li{background:var(--sheet);border:1px solid var(--hairline);padding:8px 10px;min-width:0;overflow-wrap:anywhere}
.stages p{margin:2px 0 6px;font-size:13.5px;color:var(--faint)}.stages label{font-size:13.5px;white-space:nowrap}
.stage{display:block;width:100%;height:auto}.stage polygon{fill:var(--grid);stroke:var(--ink);stroke-width:1}.stage polyline{fill:none;stroke:var(--torque);stroke-width:1.6}
section>.pair>figure{margin-top:12px}.player{margin-top:2px}#landing,#output{cursor:crosshair}.plot canvas{display:block;width:100%}
#beside .pair{max-width:640px}
code{font-size:.92em}
@media (max-width:860px){.desk,.pair{grid-template-columns:minmax(0,1fr)}.mesh{margin-left:0}}
@media (max-width:520px){.bench .joint{display:none}.turnbar output{min-width:0;flex:1 1 100%}h1.alone{font-size:22px}.edits .does{white-space:normal}
.keys,.keys tbody,.keys tr,.keys th,.keys td{display:block}.keys thead{display:none}.keys tr{padding:8px 0;border-bottom:1px solid var(--grid)}.keys th,.keys td{border:0;padding:1px 0}.keys input{width:100%}}
`;
