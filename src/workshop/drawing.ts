/**
 * A drawing for the bench, in millimetres, x to the right and y up. Strokes are what both SVG and DXF have exactly:
 * straight lines, arcs of circles, and paths of short straight pieces for the edges of mitres.
 */

/** x and y [mm]. */
export type Place = readonly [x: number, y: number];

export type Stroke =
  | { readonly kind: 'line'; readonly from: Place; readonly to: Place }
  | { readonly kind: 'path'; readonly places: readonly Place[] }
  | {
      readonly kind: 'arc';
      readonly centre: Place;
      readonly radius: number;
      /** Direction in which it begins, and how far it goes round, anticlockwise positive [deg]. */
      readonly startDeg: number;
      readonly sweepDeg: number;
    };

/** A line of text, its middle at a place. */
export interface Lettering {
  readonly text: string;
  readonly at: Place;
  /** Height of a capital [mm]. */
  readonly height: number;
  /** Read from below to above. */
  readonly upright: boolean;
}

export interface Drawing {
  readonly title: string;
  /** Closed outlines to cut, each a list of strokes of which one begins where the one before ends. */
  readonly outlines: readonly (readonly Stroke[])[];
  /** True edges beyond which an allowance lies: to fold or lap along. */
  readonly folds: readonly Stroke[];
  /** Lines to scribe, not to cut. */
  readonly marks: readonly Stroke[];
  readonly lettering: readonly Lettering[];
}

export interface Box {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

export function arcPlace(centre: Place, radius: number, directionDeg: number): Place {
  const direction = (directionDeg * Math.PI) / 180;
  return [centre[0] + radius * Math.cos(direction), centre[1] + radius * Math.sin(direction)];
}

export function beginOf(stroke: Stroke): Place {
  if (stroke.kind === 'line') return stroke.from;
  if (stroke.kind === 'path') return stroke.places[0] ?? [0, 0];
  return arcPlace(stroke.centre, stroke.radius, stroke.startDeg);
}

export function endOf(stroke: Stroke): Place {
  if (stroke.kind === 'line') return stroke.to;
  if (stroke.kind === 'path') return stroke.places.at(-1) ?? [0, 0];
  return arcPlace(stroke.centre, stroke.radius, stroke.startDeg + stroke.sweepDeg);
}

/** Everything that is cut, folded or scribed. */
export function strokesOf({ outlines, folds, marks }: Drawing): readonly Stroke[] {
  return [...outlines.flat(), ...folds, ...marks];
}

/** Box around strokes; an arc reaches its extremes where it passes a direction of the axes. */
export function boxOf(strokes: readonly Stroke[]): Box {
  const places = strokes.flatMap((stroke) => [beginOf(stroke), endOf(stroke), ...extremesOf(stroke)]);
  const start: Box = { left: Infinity, bottom: Infinity, right: -Infinity, top: -Infinity };
  return places.reduce(
    (box, [x, y]) => ({
      left: Math.min(box.left, x),
      bottom: Math.min(box.bottom, y),
      right: Math.max(box.right, x),
      top: Math.max(box.top, y),
    }),
    start,
  );
}

function extremesOf(stroke: Stroke): readonly Place[] {
  if (stroke.kind === 'line') return [];
  if (stroke.kind === 'path') return stroke.places;
  const low = Math.min(stroke.startDeg, stroke.startDeg + stroke.sweepDeg);
  const high = Math.max(stroke.startDeg, stroke.startDeg + stroke.sweepDeg);
  const places: Place[] = [];
  for (let quarter = Math.ceil(low / 90); quarter * 90 <= high; quarter += 1) {
    places.push(arcPlace(stroke.centre, stroke.radius, quarter * 90));
  }
  return places;
}

/** The drawing moved; with `turned` first by a quarter turn anticlockwise about the origin. */
export function moved(drawing: Drawing, [dx, dy]: Place, turned = false): Drawing {
  const to = ([x, y]: Place): Place => (turned ? [dx - y, dy + x] : [x + dx, y + dy]);
  const stroke = (one: Stroke): Stroke => {
    if (one.kind === 'line') return { ...one, from: to(one.from), to: to(one.to) };
    if (one.kind === 'path') return { ...one, places: one.places.map(to) };
    return { ...one, centre: to(one.centre), startDeg: one.startDeg + (turned ? 90 : 0) };
  };
  return {
    title: drawing.title,
    outlines: drawing.outlines.map((outline) => outline.map(stroke)),
    folds: drawing.folds.map(stroke),
    marks: drawing.marks.map(stroke),
    lettering: drawing.lettering.map((line) => ({
      ...line,
      at: to(line.at),
      upright: turned ? !line.upright : line.upright,
    })),
  };
}

export function line(from: Place, to: Place): Stroke {
  return { kind: 'line', from, to };
}

/** Box around a line of text. */
export function letteringBox({ text, at: [x, y], height, upright }: Lettering): Box {
  const [along, across] = [letteringWidth(text, height) / 2, height];
  const [w, h] = upright ? [across, along] : [along, across];
  return { left: x - w, bottom: y - h, right: x + w, top: y + h };
}

/** Width of lettering, by the proportions of common sans-serif and engraving faces [mm]. */
export function letteringWidth(text: string, height: number): number {
  return 0.75 * height * text.length;
}
