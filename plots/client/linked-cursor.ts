/** One instant marked in two figures: upright in one whose crank axis lies, level in one whose crank axis stands. */

import { type DrawnLayout, instant } from '../marks/instant.ts';

/** A place with a figure in it; the library keeps the figure's layout there, with the range that is zoomed to. */
type Drawn = HTMLElement & { readonly layout?: DrawnLayout };

function cursorOf(place: HTMLElement): HTMLElement {
  const found = place.querySelector<HTMLElement>(':scope > .cursor');
  if (found) return found;
  const cursor = document.createElement('div');
  cursor.className = 'cursor';
  place.append(cursor);
  return cursor;
}

export function hideCursor(place: HTMLElement): void {
  cursorOf(place).style.display = 'none';
}

/** Marks a crank angle [deg]. `crank`: the axis of the figure that angles run along. */
export function showCursor(place: HTMLElement, angle: number, crank: 'x' | 'y'): void {
  const { layout } = place as Drawn;
  const hair = layout && instant(layout, angle, crank);
  if (!hair) {
    hideCursor(place);
    return;
  }
  const px = Object.entries(hair).map(([name, value]) => [name, `${value}px`]);
  Object.assign(cursorOf(place).style, Object.fromEntries(px), { display: 'block' });
}
