/** One turn of the crank unrolled from exhaust opening on: bars of the open ports, and the events spelled out once. */

import { namedEvents, type PortEvents } from '../theme/events.ts';
import { html, type Markup } from '../theme/markup.ts';

export function turnStrip(events: PortEvents): Markup {
  const x = (angle: number): string => (((angle - events.exhaustOpens) / 360) * 1000).toFixed(1);
  const width = (from: number, to: number): string => (((to - from) / 360) * 1000).toFixed(1);
  const { exhaustOpens, exhaustCloses, transfersOpen, transfersClose } = events;
  const named = namedEvents(events);
  const ticks = named.map(
    (event) => html`<line x1="${x(event.angle)}" x2="${x(event.angle)}" y1="0" y2="40"/>`,
  );
  const names = named.map(
    (event) =>
      html`<li class="event-${event.short.replace(' ', '-').toLowerCase()}"><b>${event.short}</b> <span>${Math.round(event.angle)}°</span> <i>${event.long}</i></li>`,
  );
  return html`<div class="turn"><svg viewBox="0 0 1000 40" preserveAspectRatio="none" aria-hidden="true">
<rect class="window" x="${x(transfersClose)}" y="0" width="${width(transfersClose, exhaustCloses)}" height="40"/>
<rect class="bar exhaust" x="${x(exhaustOpens)}" y="6" width="${width(exhaustOpens, exhaustCloses)}" height="11"/>
<rect class="bar transfer" x="${x(transfersOpen)}" y="23" width="${width(transfersOpen, transfersClose)}" height="11"/>${ticks}</svg>
<ol>${names}</ol></div>`;
}
