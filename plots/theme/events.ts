/**
 * Port events on a crank axis. Degrees after top dead centre of the turn in which the exhaust opens; the axis runs
 * from one exhaust opening to the next.
 */

export interface PortEvents {
  readonly exhaustOpens: number;
  readonly transfersOpen: number;
  readonly transfersClose: number;
  readonly exhaustCloses: number;
}

export interface NamedEvent {
  readonly short: string;
  readonly long: string;
  readonly angle: number;
}

/** The seven names on the axis, in the order in which they come. */
export const namedEvents = (events: PortEvents): readonly NamedEvent[] => [
  { short: 'EO', long: 'exhaust opens', angle: events.exhaustOpens },
  { short: 'TO', long: 'transfers open', angle: events.transfersOpen },
  { short: 'BDC', long: 'bottom dead centre', angle: 180 },
  { short: 'TC', long: 'transfers close', angle: events.transfersClose },
  { short: 'EC', long: 'exhaust closes', angle: events.exhaustCloses },
  { short: 'TDC', long: 'top dead centre', angle: 360 },
  { short: 'next EO', long: 'exhaust opens again', angle: events.exhaustOpens + 360 },
];
