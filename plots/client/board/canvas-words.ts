/** Words in a figure on a canvas: several lines, a part of them bold, at a place or at the end of a leader to it. */

import type { Bag } from '../../theme/axes.ts';
import { FONT_STACK, type Look } from '../../theme/look.ts';
import type { Frame } from './canvas-frame.ts';

const ENTITIES: Readonly<Record<string, string>> = { '&amp;': '&', '&lt;': '<', '&gt;': '>', '&quot;': '"' };

/** Text of a label as it is read: entities as their characters. Mark-up has been taken off before. */
const read = (text: string): string =>
  text.replace(/&(amp|lt|gt|quot);/g, (entity) => ENTITIES[entity] ?? entity);

export function annotate(pen: CanvasRenderingContext2D, frame: Frame, note: Bag, look: Look): void {
  const { size = 12, color = look.palette.ink } = (note.font ?? {}) as { size?: number; color?: string };
  const place = {
    x: frame.placeX(note.xref, Number(note.x)) + Number(note.xshift ?? 0),
    y: frame.placeY(note.yref, Number(note.y)) - Number(note.yshift ?? 0),
  };
  const led = note.showarrow !== false && note.ax !== undefined;
  const at = led ? { x: place.x + Number(note.ax), y: place.y + Number(note.ay) } : place;
  const lines = String(note.text).split('<br>');
  const bold = lines.some((line) => line.includes('<b>'));
  pen.font = `${bold ? '700 ' : ''}${size}px ${FONT_STACK}`;
  const words = lines.map((line) => read(line.replace(/<\/?b>/g, '')));
  const width = Math.max(...words.map((line) => pen.measureText(line).width));
  const height = words.length * (size + 2);
  const left = at.x - width * shareOf(note.xanchor, led, ['left', 'center', 'right']);
  const top = at.y - height * shareOf(note.yanchor, led, ['top', 'middle', 'bottom']);
  pen.save();
  if (typeof note.textangle === 'number' && note.textangle !== 0) {
    pen.translate(at.x, at.y);
    pen.rotate((note.textangle * Math.PI) / 180);
    pen.translate(-at.x, -at.y);
  }
  if (led) lead(pen, place, { left, top, width, height, at }, color);
  if (typeof note.bgcolor === 'string') {
    pen.fillStyle = note.bgcolor;
    pen.fillRect(left - 2, top - 1, width + 4, height + 2);
  }
  pen.fillStyle = color;
  pen.textBaseline = 'top';
  pen.textAlign = led || note.align !== 'left' ? 'center' : 'left';
  const x = pen.textAlign === 'center' ? left + width / 2 : left;
  words.forEach((line, k) => {
    pen.fillText(line, x, top + 1 + k * (size + 2));
  });
  pen.restore();
}

const shareOf = (anchor: unknown, led: boolean, names: readonly [string, string, string]): number => {
  if (led) return 0.5;
  const index = names.indexOf(typeof anchor === 'string' ? anchor : '');
  return index < 0 ? 0.5 : index / 2;
};

function lead(
  pen: CanvasRenderingContext2D,
  to: { readonly x: number; readonly y: number },
  box: {
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
    readonly at: { readonly x: number; readonly y: number };
  },
  colour: string,
): void {
  const { at, width, height } = box;
  const [dx, dy] = [to.x - at.x, to.y - at.y];
  // From where the line leaves the words.
  const share = Math.min(
    1,
    Math.min((width / 2 + 3) / Math.abs(dx || 1e-9), (height / 2 + 2) / Math.abs(dy || 1e-9)),
  );
  pen.strokeStyle = colour;
  pen.lineWidth = 1;
  pen.setLineDash([]);
  pen.beginPath();
  pen.moveTo(at.x + share * dx, at.y + share * dy);
  pen.lineTo(to.x, to.y);
  pen.stroke();
}
