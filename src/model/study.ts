/**
 * What a study file becomes once read: a case, what varies in it, what a draft has to keep to, and how it is scored. Plain
 * readonly data in SI, crank angles in degrees; only texts of varied quantities keep the unit they were written in.
 */

import type { Dimension } from './dimension.ts';

/** Values that a quantity may take, in the unit used inside. */
export type StudyAxis =
  | { readonly kind: 'list'; readonly values: readonly number[] }
  | { readonly kind: 'range'; readonly from: number; readonly to: number; readonly step: number | null };

/** One thing that varies, at one path of the case or at several tied together. */
export interface VariedQuantity {
  readonly name: string;
  /** Paths that take the value, and paths that are lowered by it where `add` holds. */
  readonly paths: readonly string[];
  readonly opposite: readonly string[];
  /** The value is added to what the case states, not put in its place. */
  readonly add: boolean;
  /** Null: a plain number. */
  readonly dimension: Dimension | null;
  readonly unit: string;
  readonly axis: StudyAxis;
}

/** Which of the possible drafts are run. */
export type StudySample =
  | { readonly kind: 'grid' }
  | { readonly kind: 'latin' | 'sobol'; readonly count: number; readonly seed: number };

export interface Limit {
  readonly atLeast: number | null;
  readonly atMost: number | null;
}

/** What a draft has to keep to; null: not limited. */
export interface Constraints {
  /** From the piston's face to the end of the baffle [m]. */
  readonly lengthToBaffleEnd: Limit | null;
  /** Largest inner diameter of the pipe [m]. */
  readonly largestDiameter: Limit | null;
  /** Whole angle of every stage of the diffuser and of the baffle, above 0 [deg]. */
  readonly diffuserAngle: Limit | null;
  readonly baffleAngle: Limit | null;
  /** Sheet of all sections [m2]. */
  readonly sheetArea: Limit | null;
  /** Largest difference of the sheet from that of the case's own pipe, as a share of it. */
  readonly sameSheet: number | null;
  /** The exhaust passage stays as the case has it. */
  readonly passageFixed: boolean;
}

/** One named term of a score; speeds in rpm, lead in degrees. */
export type ScoreTerm = { readonly weight: number } & (
  | { readonly kind: 'averageTorque' | 'averagePower'; readonly from: number; readonly to: number }
  | { readonly kind: 'torqueAt' | 'powerAt'; readonly speed: number }
  | { readonly kind: 'leadAt'; readonly speed: number; readonly wanted: number }
  | { readonly kind: 'bandWidth'; readonly of: 'torque' | 'power'; readonly share: number }
  | { readonly kind: 'column'; readonly name: string; readonly speed: number }
);

export interface Screen {
  /** Cell length [m] and speeds [rpm] of the first pass. */
  readonly cell: number;
  readonly speeds: readonly number[];
  /** Share of the drafts that is refined. */
  readonly keep: number;
  /** Refine all the same, and say how often the screen would have dropped a winner. */
  readonly check: boolean;
}

/** A pipe file of a study's folder. */
export interface StudyPipe {
  readonly name: string;
  readonly file: string;
}

export interface Study {
  readonly name: string;
  readonly note: string;
  /** Path of the case's file. */
  readonly caseFile: string;
  readonly varied: readonly VariedQuantity[];
  /** Pipes of a folder in place of varied quantities; empty otherwise. */
  readonly pipes: readonly StudyPipe[];
  readonly sample: StudySample;
  readonly constraints: Constraints;
  /** What becomes of drafts outside the constraints. */
  readonly outside: 'skip' | 'run';
  readonly speeds: readonly number[];
  /** Cell length [m]; null: the case's. */
  readonly cell: number | null;
  readonly score: readonly ScoreTerm[];
  readonly screen: Screen | null;
}
