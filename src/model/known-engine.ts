/** What is known of an engine for which a first case is to be written. */

export const INTAKES = ['reed', 'pistonPort', 'disc'] as const;
export type IntakeWord = (typeof INTAKES)[number];

/** Lengths in metres, angles in degrees of crank, speed in rpm. */
export interface Known {
  readonly name: string;
  readonly intake: IntakeWord;
  readonly bore: number;
  readonly stroke: number;
  readonly rpm: number;
  /** Undefined below: not known, and something usual is taken. */
  readonly rod?: number | undefined;
  readonly exhaustDuration?: number | undefined;
  readonly transferDuration?: number | undefined;
  readonly exhaustWidth?: number | undefined;
  readonly passageLength?: number | undefined;
  readonly flange?: number | undefined;
  readonly carburettor?: number | undefined;
  /** Compression ratio from exhaust closing on, or over the full stroke. */
  readonly trapped?: number | undefined;
  readonly full?: number | undefined;
  /** Crank angle for which the piston opens the intake; of a piston port. */
  readonly intakeDuration?: number | undefined;
  /** Angles after top dead centre, before it negative; of a disc. */
  readonly discOpens?: number | undefined;
  readonly discCloses?: number | undefined;
}
