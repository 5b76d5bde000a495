// Two neighbouring cells in the two lanes of a v128: the few words that the stages are written in. A row of doubles is
// addressed by the byte b of its first lane; `at1` to `at4` start one to four doubles further on. A mask has all bits of a
// lane set where its condition holds.

import { Row } from "./layout";

/** 2^52: what is added to it rounds to a whole number, which then stands in the last places. */
export const COUNTER: f64 = 4503599627370496;

@inline export function at(q: Row, b: usize): v128 { return v128.load(changetype<usize>(q) + b); }
@inline export function at1(q: Row, b: usize): v128 { return v128.load(changetype<usize>(q) + b, 8); }
@inline export function at2(q: Row, b: usize): v128 { return v128.load(changetype<usize>(q) + b, 16); }
@inline export function at3(q: Row, b: usize): v128 { return v128.load(changetype<usize>(q) + b, 24); }
@inline export function at4(q: Row, b: usize): v128 { return v128.load(changetype<usize>(q) + b, 32); }
@inline export function put(q: Row, b: usize, x: v128): void { v128.store(changetype<usize>(q) + b, x); }
@inline export function put1(q: Row, b: usize, x: v128): void { v128.store(changetype<usize>(q) + b, x, 8); }
@inline export function put2(q: Row, b: usize, x: v128): void { v128.store(changetype<usize>(q) + b, x, 16); }

@inline export function both(x: f64): v128 { return f64x2.splat(x); }
@inline export function pair(x0: f64, x1: f64): v128 { return f64x2.replace_lane(f64x2.splat(x0), 1, x1); }
@inline export function lane0(a: v128): f64 { return f64x2.extract_lane(a, 0); }
@inline export function lane1(a: v128): f64 { return f64x2.extract_lane(a, 1); }

@inline export function add(a: v128, b: v128): v128 { return f64x2.add(a, b); }
@inline export function sub(a: v128, b: v128): v128 { return f64x2.sub(a, b); }
@inline export function mul(a: v128, b: v128): v128 { return f64x2.mul(a, b); }
@inline export function div(a: v128, b: v128): v128 { return f64x2.div(a, b); }
@inline export function root(a: v128): v128 { return f64x2.sqrt(a); }
@inline export function size(a: v128): v128 { return f64x2.abs(a); }
@inline export function neg(a: v128): v128 { return f64x2.neg(a); }
@inline export function least(a: v128, b: v128): v128 { return f64x2.pmin(a, b); }
@inline export function most(a: v128, b: v128): v128 { return f64x2.pmax(a, b); }

@inline export function gt(a: v128, b: v128): v128 { return f64x2.gt(a, b); }
@inline export function ge(a: v128, b: v128): v128 { return f64x2.ge(a, b); }
@inline export function lt(a: v128, b: v128): v128 { return f64x2.lt(a, b); }
@inline export function le(a: v128, b: v128): v128 { return f64x2.le(a, b); }
@inline export function and(a: v128, b: v128): v128 { return v128.and(a, b); }
@inline export function or(a: v128, b: v128): v128 { return v128.or(a, b); }
/** The bits of a where the mask does not hold, else 0. */
@inline export function unless(mask: v128, a: v128): v128 { return v128.andnot(a, mask); }
/** a where the mask holds, else b. */
@inline export function pick(mask: v128, a: v128, b: v128): v128 { return v128.bitselect(a, b, mask); }
@inline export function any(mask: v128): bool { return v128.any_true(mask); }
@inline export function all(mask: v128): bool { return i64x2.all_true(mask); }
@inline export function holds0(mask: v128): bool { return i64x2.extract_lane(mask, 0) != 0; }
@inline export function holds1(mask: v128): bool { return i64x2.extract_lane(mask, 1) != 0; }
@inline export function everywhere(): v128 { return i64x2.splat(-1); }

/** The first doubles of two pairs, and the second. */
@inline export function firsts(a: v128, b: v128): v128 { return v128.shuffle<f64>(a, b, 0, 2); }
@inline export function seconds(a: v128, b: v128): v128 { return v128.shuffle<f64>(a, b, 1, 3); }
