/**
 * A drawing for the bench, in millimetres, x to the right and y up. Strokes are what both SVG and DXF have exactly:
 * straight lines and arcs of circles.
 */

/** x and y [mm]. */
export type Place = readonly [x: number, y: number];

export type Stroke =
  | { readonly kind: 'line'; readonly from: Place; readonly to: Place }
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
}

export interface Drawing {
  readonly title: string;
  /** One closed outline, each stroke beginning where the one before ends. */
  readonly outline: readonly Stroke[];
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
  return stroke.kind === 'line' ? stroke.from : arcPlace(stroke.centre, stroke.radius, stroke.startDeg);
}

export function endOf(stroke: Stroke): Place {
  if (stroke.kind === 'line') return stroke.to;
  return arcPlace(stroke.centre, stroke.radius, stroke.startDeg + stroke.sweepDeg);
}

/** Box around strokes; an arc reaches its extremes where it passes a direction of the axes. */
export function boxOf(strokes: readonly Stroke[]): Box {
  const places = strokes.flatMap((stroke) => [beginOf(stroke), endOf(stroke), ...extremesOf(stroke)]);
  const xs = places.map(([x]) => x);
  const ys = places.map(([, y]) => y);
  return { left: Math.min(...xs), bottom: Math.min(...ys), right: Math.max(...xs), top: Math.max(...ys) };
}

function extremesOf(stroke: Stroke): readonly Place[] {
  if (stroke.kind === 'line') return [];
  const low = Math.min(stroke.startDeg, stroke.startDeg + stroke.sweepDeg);
  const high = Math.max(stroke.startDeg, stroke.startDeg + stroke.sweepDeg);
  const places: Place[] = [];
  for (let quarter = Math.ceil(low / 90); quarter * 90 <= high; quarter += 1) {
    places.push(arcPlace(stroke.centre, stroke.radius, quarter * 90));
  }
  return places;
}

/** The drawing moved. */
export function moved(drawing: Drawing, [dx, dy]: Place): Drawing {
  const to = ([x, y]: Place): Place => [x + dx, y + dy];
  const stroke = (one: Stroke): Stroke =>
    one.kind === 'line' ? { ...one, from: to(one.from), to: to(one.to) } : { ...one, centre: to(one.centre) };
  return {
    title: drawing.title,
    outline: drawing.outline.map(stroke),
    marks: drawing.marks.map(stroke),
    lettering: drawing.lettering.map((line) => ({ ...line, at: to(line.at) })),
  };
}

/** Width of lettering, by the proportions of common sans-serif and engraving faces [mm]. */
export function letteringWidth(text: string, height: number): number {
  return 0.75 * height * text.length;
}
