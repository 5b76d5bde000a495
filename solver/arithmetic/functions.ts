/**
 * Powers, logarithms and angles with the same bits on every machine. The language leaves the last digit of these functions to
 * its engine, and engines differ in it from version to version; a march of ten thousand steps makes a hundred millionth of
 * that. Compiled, they are the same in Node and in any browser, so a page's rows are those of the command line. Where the
 * compiled module cannot be had, the language's own do.
 */

import { newInstance } from './compiled.ts';

interface Functions {
  power(x: number, y: number): number;
  logarithm(x: number): number;
  decimalLogarithm(x: number): number;
  exponentialLessOne(x: number): number;
  sine(x: number): number;
  cosine(x: number): number;
  arcsine(x: number): number;
  arctangent(y: number, x: number): number;
}

const OWN: Functions = {
  power: (x, y) => x ** y,
  logarithm: Math.log,
  decimalLogarithm: Math.log10,
  exponentialLessOne: Math.expm1,
  sine: Math.sin,
  cosine: Math.cos,
  arcsine: Math.asin,
  arctangent: Math.atan2,
};

const functions = (newInstance(1)?.exports as Functions | undefined) ?? OWN;

/** x to the power of y. */
export const power = functions.power;
/** Natural and decimal logarithm. */
export const logarithm = functions.logarithm;
export const decimalLogarithm = functions.decimalLogarithm;
/** eˣ − 1. */
export const exponentialLessOne = functions.exponentialLessOne;
/** Of an angle [rad]. */
export const sine = functions.sine;
export const cosine = functions.cosine;
/** Angle [rad]. */
export const arcsine = functions.arcsine;
/** Angle of the point (x, y) [rad]. */
export const arctangent = functions.arctangent;
/** x². */
export const square = (x: number): number => x * x;
