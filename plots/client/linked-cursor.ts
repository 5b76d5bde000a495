/** One instant marked in two figures: upright in one whose crank axis lies, level in one whose crank axis stands. */

interface PlotAxis {
  readonly range: readonly [number, number];
  readonly _offset: number;
  readonly _length: number;
}

type Drawn = HTMLElement & {
  readonly _fullLayout?: { readonly xaxis: PlotAxis; readonly yaxis: PlotAxis };
};

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

/** Marks a crank angle. `level`: the crank axis stands upright. */
export function showCursor(place: HTMLElement, angle: number, direction: 'upright' | 'level'): void {
  const layout = (place as Drawn)._fullLayout;
  if (!layout) return;
  const { xaxis, yaxis } = layout;
  const cursor = cursorOf(place);
  const along = direction === 'upright' ? xaxis : yaxis;
  const share = (angle - along.range[0]) / (along.range[1] - along.range[0]);
  if (share < 0 || share > 1) {
    hideCursor(place);
    return;
  }
  cursor.style.display = 'block';
  if (direction === 'upright') {
    const bottom = place.clientHeight;
    Object.assign(cursor.style, {
      left: `${along._offset + share * along._length}px`,
      top: `${yaxis._offset}px`,
      width: '1px',
      height: `${bottom - yaxis._offset - 62}px`,
    });
  } else {
    Object.assign(cursor.style, {
      left: `${xaxis._offset}px`,
      top: `${along._offset + (1 - share) * along._length}px`,
      width: `${xaxis._length}px`,
      height: '1px',
    });
  }
}
