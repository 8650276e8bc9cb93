/**
 * Elementary and special functions that give the same bits in every engine.
 *
 * ECMAScript leaves the last bits of Math.exp, log, pow, sin and their kin to the engine, and engines do differ. These come from
 * the @stdlib packages, which compute them in JavaScript from + - * /, Math.sqrt, Math.abs, Math.floor, Math.ceil, Math.round and
 * Math.fround, all exactly specified. The sources of every package used here and of all that they require were searched for the
 * other members of Math: Math.pow stands in comments and in conversions from 16-bit floats that none of these functions calls. The
 * native add-ons that the packages carry are behind a separate entry (lib/native.js) that is never loaded.
 *
 * This is the only file of kernel to campaign that names these packages.
 */
import erfcinv from '@stdlib/math-base-special-erfcinv';
import exp from '@stdlib/math-base-special-exp';
import expm1 from '@stdlib/math-base-special-expm1';
import gammainc from '@stdlib/math-base-special-gammainc';
import gammaincinv from '@stdlib/math-base-special-gammaincinv';
import ln from '@stdlib/math-base-special-ln';
import log1p from '@stdlib/math-base-special-log1p';
import pow from '@stdlib/math-base-special-pow';
import sin from '@stdlib/math-base-special-sin';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';

export { erfcinv, exp, expm1, gammainc, gammaincinv, ln, log1p, normalCdf, pow, sin };
