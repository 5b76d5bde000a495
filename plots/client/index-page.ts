/** The index alive: two sweeps that are ticked are laid side by side; a third takes the place of the one ticked first. */

import { besideView } from '../pages/beside.ts';
import type { IndexPageData } from '../pages/index-page.ts';
import { pageData } from './plotly.ts';

const { runs } = pageData<IndexPageData>();
const place = document.getElementById('beside');
const boxes = [...document.querySelectorAll<HTMLInputElement>('.lay input')];
const ticked: HTMLInputElement[] = [];

for (const hidden of document.querySelectorAll<HTMLElement>('.lay')) hidden.hidden = false;
for (const box of boxes) {
  box.checked = false;
  box.addEventListener('change', () => {
    const at = ticked.indexOf(box);
    if (at >= 0) ticked.splice(at, 1);
    else ticked.push(box);
    const oldest = ticked.length > 2 ? ticked.shift() : undefined;
    if (oldest !== undefined) oldest.checked = false;
    show();
  });
}

document.documentElement.dataset.drawn = 'yes';

function show(): void {
  if (place === null) return;
  const [a, b] = ticked.map(({ value }) => runs[Number(value)]);
  place.hidden = a === undefined || b === undefined;
  if (a === undefined || b === undefined) return;
  // The template has escaped whatever came from a file.
  const made = new DOMParser().parseFromString(besideView(a, b).toString(), 'text/html');
  place.replaceChildren(...made.body.childNodes);
  place.scrollIntoView({ block: 'start' });
}
