/** Φ(x; μ, σ): the normal distribution function, the same bits on every engine. */
export { default as normalCdf } from '@stdlib/stats-base-dists-normal-cdf';
