// The table of the blended gas for two lanes. A row of six doubles holds three pairs: energy and heat capacity of the fresh
// gas at the start of the row, what those of the burnt gas differ by, and how fast the capacities of fresh gas and of that
// difference grow [J/kg, J/(kg K), J/(kg K2)].

import { add, both, COUNTER, lane0, lane1, least, most, mul, sub } from "./lanes";

const START: f64 = 100;
const STEP: f64 = 5;
const LAST_ROW: f64 = 879;
const ROW_BYTES: i32 = 48;

export const ROW_WIDTH: f64 = STEP;

/** Index of the rows that two temperatures lie in, counted from 2^52; on the border of two rows either. */
@inline
export function rowsOf(T: v128): v128 {
  const middle = mul(sub(T, both(START + 0.5 * STEP)), both(1 / STEP));
  return add(least(most(middle, both(0)), both(LAST_ROW)), both(COUNTER));
}

/** Temperatures that the rows start at. */
@inline
export function startOf(rows: v128): v128 { return add(both(START), mul(sub(rows, both(COUNTER)), both(STEP))); }

/** Address of the row of either lane. */
@inline
export function address0(table: usize, rows: v128): usize {
  return table + <usize>(ROW_BYTES * i32x4.extract_lane(rows, 0));
}

@inline
export function address1(table: usize, rows: v128): usize {
  return table + <usize>(ROW_BYTES * i32x4.extract_lane(rows, 2));
}

/** Energy and capacity at the start of a row, for the burnt share of one lane. */
@inline
export function blended0(row: usize, share: v128): v128 {
  return add(v128.load(row), mul(both(lane0(share)), v128.load(row, 16)));
}

@inline
export function blended1(row: usize, share: v128): v128 {
  return add(v128.load(row), mul(both(lane1(share)), v128.load(row, 16)));
}

/** Slopes of a row: of fresh gas, and what burnt gas differs by. */
@inline
export function slopes(row: usize): v128 { return v128.load(row, 32); }
