/** The page of the board: the places that its script fills, with the words that stay. The case travels in its data. */

import { html, type Markup } from '../theme/markup.ts';
import { boardStyle } from './board-style.ts';
import { type Assets, sheet } from './sheet.ts';

export interface BoardPageInput {
  readonly program: string;
  readonly name: string;
  readonly engine: string;
  readonly pipe: string;
  /** What the script reads. */
  readonly data: unknown;
}

const figure = (id: string, title: string, seen: string, read: string): Markup =>
  html`<figure><h3 aria-level="2">${title}</h3><div class="plot"><canvas id="${id}" role="img" aria-label="${seen}"></canvas></div><figcaption><span>${read}</span></figcaption></figure>`;

const button = (id: string, text: string): Markup => html`<button type="button" id="${id}">${text}</button>`;

const bench = html`<section aria-label="The pipe">
<div class="tools">${button('undo', 'Undo')}${button('redo', 'Redo')}<label><input type="checkbox" id="carry" checked> what is behind a joint moves with it</label><span id="mesh" class="mesh" role="status"></span></div>
<div class="bench" id="bench"><canvas id="gas" aria-hidden="true"></canvas><svg id="joints" role="group" aria-label="The pipe with its joints; the table below does the same"></svg></div>
<p id="notice" class="notice" role="alert"></p>
<div id="cautions" role="status"></div>
<div class="turnbar"><button type="button" id="turn-play" aria-pressed="false">Play a turn</button>${button('turn-back', '−1°')}${button('turn-on', '+1°')}<label for="turn-angle">crank</label><input type="range" id="turn-angle" min="0" max="359" step="1" value="0"><label for="turn-speed">slow to fast</label><input type="range" id="turn-speed" min="0" max="100" step="1" value="45"><output id="turn-said" for="turn-angle turn-speed"></output></div>
<details><summary>How to move it, and rules of thumb</summary><p class="note">Pull a joint along or across, or give it the arrows (with shift finer). Played, shades are pressure, grey above the surroundings and green below; the marks are gas that left the cylinder while the transfers were open, large in its first turn. Below the pipe, where most pipes have it: dashes for a diameter, brackets for the end of diffuser, baffle and stinger, the one at the foot for the baffle’s end by the handbook’s length; brown where this pipe is outside.</p>
<ul id="marks" class="marks"></ul></details>
</section>`;

const answer = html`<section aria-label="The answer">
<div class="player"><label for="speed">Looked at</label><input type="range" id="speed"><output for="speed" id="speed-out"></output><span class="verdict" id="verdict"></span></div>
<p id="remarks" class="small"></p>
<div class="pair">
${figure('landing', 'When the wave lands', 'Crank angle at which the plug-back arrives over engine speed', 'The middle should run in the window. Grey: as opened. Faded: not yet of this draft. Click a speed to look at it.')}
${figure('output', 'Torque and power', 'Torque and power over engine speed', 'Grey: as opened. Shaded: speeds at which the wave lands.')}
${figure('diagram', 'Wave diagram', 'Pressure over the length of the pipe and the crank angle at the speed looked at', 'Left is the port, upwards is later; the pulse runs out dashed and comes back solid.')}
${figure('traces', 'At the port', 'Pressure at the port with its two waves, open areas, cylinder and crankcase at the speed looked at', 'Grey: the returning wave as opened.')}
</div>
<details id="numbers"><summary>The rows in numbers</summary><div class="scroll" tabindex="0" role="region" aria-label="Rows of the answer"><table><thead><tr><th scope="col" class="n">Speed<span class="unit">rpm</span></th><th scope="col" class="n">onset</th><th scope="col" class="n">middle</th><th scope="col" class="n">end</th><th scope="col" class="n">torque<span class="unit">Nm</span></th><th scope="col" class="n">power<span class="unit">kW</span></th><th scope="col">remark</th></tr></thead><tbody id="rows"></tbody></table></div></details>
</section>`;

const numbers = html`<div class="desk">
<section><h2>The pipe in numbers</h2>
<div class="scroll" tabindex="0" role="region" aria-label="Sections of the pipe"><table class="edits"><thead><tr><th scope="col">Section</th><th scope="col" class="n">length<span class="unit">mm, or with a unit</span></th><th scope="col" class="n">left<span class="unit">diameter</span></th><th scope="col" class="n">right<span class="unit">diameter</span></th><th scope="col" class="n">angle</th><th scope="col">do</th></tr></thead><tbody id="sections"></tbody></table></div>
</section>
<section><h2>Roofs</h2>
<div class="ports"><svg id="ports" role="group" aria-label="The port windows on the bore unrolled"></svg></div>
<p class="note">Pull a roof up or down. The floor stays and so does the head. Exhaust in the middle, seen from within; the lower line is bottom dead centre.</p>
</section>
<section><h2>Turned beside it</h2><div id="dials" class="dials"></div></section>
</div>`;

const stages = html`<section><h2>Stages</h2>
<div class="tools"><label for="stage-name">Keep this draft as</label><input type="text" id="stage-name" maxlength="60" autocomplete="off">${button('keep', 'Keep')}</div>
<ul id="stages" class="stages"></ul>
<h3>Side by side</h3><div id="beside"></div>
<p class="note">Draft and stages stand in the page’s address: bookmark it or send it along with the file.</p>
</section>
<section><h2>Take it away</h2><div class="tools">${button('take-pipe', 'Pipe file')}${button('take-case', 'Case file')}${button('take-picture', 'Picture')}</div>
<p class="note">The case file holds everything inline, what was changed in its comments; <code>echocone sweep</code> of it on the same cells gives the refined rows.</p></section>
<section><h2>Every other key</h2>
<div class="tools"><label for="search">Search</label><input type="search" id="search" autocomplete="off"><span id="found" role="status"></span></div>
<div class="scroll tall" tabindex="0" role="region" aria-label="Keys of the case"><table class="edits keys"><thead><tr><th scope="col">Key</th><th scope="col">Value</th><th scope="col">What it is</th></tr></thead><tbody id="keys"></tbody></table></div>
</section>`;

/** A single file with the solver, the case and its workers inside. */
export function boardPage(input: BoardPageInput, script: string): string {
  const assets: Assets = { plotly: '', script };
  return sheet({
    title: `${input.name}: the board`,
    titleBlock: [
      ['Board', input.name],
      ['Engine', input.engine, 'minor'],
      ['Pipe', input.pipe, 'minor'],
      ['Answer', 'follows the hand', 'minor'],
    ],
    body: html`<h1 class="alone" id="answer" aria-live="polite">${input.name}</h1>
<p id="difference" class="difference" role="status"></p>
${bench}
${answer}
${numbers}
${stages}`,
    data: input.data,
    program: input.program,
    assets,
    computes: true,
    style: boardStyle,
  });
}
