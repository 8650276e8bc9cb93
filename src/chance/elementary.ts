/**
 * Elementary and special functions that give the same bits in every engine.
 *
 * ECMAScript leaves the last bits of Math.exp, log, pow, sin and their kin to the engine, and engines do differ. These come from
 * the @stdlib packages, which compute them in JavaScript from + - * / and Math.sqrt, abs, floor, ceil, round and fround, all exactly
 * specified. Verified: no package used here, nor any that these require, calls another member of Math (Math.pow stands in comments only),
 * and the lives come out the same with the engine's functions put out of order (tests/chance/elementary.test.ts). The native add-ons that
 * the packages carry are behind a separate entry (lib/native.js) that is never loaded.
 *
 * The only file of the program that names the elementary and special functions.
 */
import cbrt from '@stdlib/math-base-special-cbrt';
import erfcinv from '@stdlib/math-base-special-erfcinv';
import exp from '@stdlib/math-base-special-exp';
import expm1 from '@stdlib/math-base-special-expm1';
import gammainc from '@stdlib/math-base-special-gammainc';
import gammaincinv from '@stdlib/math-base-special-gammaincinv';
import gammaln from '@stdlib/math-base-special-gammaln';
import ln from '@stdlib/math-base-special-ln';
import log1p from '@stdlib/math-base-special-log1p';
import pow from '@stdlib/math-base-special-pow';
import sin from '@stdlib/math-base-special-sin';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';

export { cbrt, erfcinv, exp, expm1, gammainc, gammaincinv, gammaln, ln, log1p, normalCdf, pow, sin };
