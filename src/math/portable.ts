/*
 * The transcendental functions of Math differ by an ulp between engines; a result here must not.
 * These pure-JavaScript ports are bit-identical wherever + − × ÷ and sqrt are (IEEE 754). An architecture test
 * keeps Math.sin and its kin, and the ** operator, out of the rest of the engine.
 */
export { default as acos } from '@stdlib/math-base-special-acos';
export { default as asin } from '@stdlib/math-base-special-asin';
export { default as atan2 } from '@stdlib/math-base-special-atan2';
export { default as cos } from '@stdlib/math-base-special-cos';
export { default as exp } from '@stdlib/math-base-special-exp';
export { default as ln } from '@stdlib/math-base-special-ln';
export { default as pow } from '@stdlib/math-base-special-pow';
export { default as sin } from '@stdlib/math-base-special-sin';
export { default as tan } from '@stdlib/math-base-special-tan';
