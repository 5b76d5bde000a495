/**
 * Watching a march: after every step the places are read, and the samples that became due are put in between by linear
 * interpolation in time. Watching takes no part in the march.
 */

/** Reads its values now into `out`. */
export interface Place {
  readonly values: number;
  read(out: Float64Array): void;
}

export class Watch {
  /** Samples of each place, one array a value. */
  readonly traces: readonly (readonly number[][])[];
  readonly times: number[] = [];
  private readonly places: readonly Place[];
  private readonly every: number;
  private readonly count: number;
  private before: readonly Float64Array[];
  private now: readonly Float64Array[];
  private lastTime = 0;

  /** Watches from time 0 on, `every` so often [s], until `until` [s]. */
  constructor(places: readonly Place[], every: number, until: number) {
    this.places = places;
    this.every = every;
    this.count = Math.floor(until / every + 1e-9) + 1;
    this.traces = places.map((place) => Array.from({ length: place.values }, (): number[] => []));
    this.before = places.map((place) => new Float64Array(place.values));
    this.now = places.map((place) => new Float64Array(place.values));
    this.read();
    this.keep(0);
  }

  /** Takes note of the state after a step, at a time [s]. */
  look(time: number): void {
    const { before } = this;
    this.before = this.now;
    this.now = before;
    this.read();
    const slack = 1e-9 * this.every;
    while (this.times.length < this.count && this.times.length * this.every <= time + slack) {
      const due = this.times.length * this.every;
      this.keep(Math.max(0, (time - due) / (time - this.lastTime)));
    }
    this.lastTime = time;
  }

  private read(): void {
    this.places.forEach((place, k) => void place.read(this.now[k]!));
  }

  /** Keeps a sample that lies a share of the step before its end. */
  private keep(ago: number): void {
    this.times.push(Number((this.times.length * this.every).toPrecision(12)));
    this.traces.forEach((trace, k) => {
      const now = this.now[k]!;
      const before = this.before[k]!;
      trace.forEach(
        (values, v) => void values.push(ago > 0 ? now[v]! + ago * (before[v]! - now[v]!) : now[v]!),
      );
    });
  }
}
