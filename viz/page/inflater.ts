import { inflatedZlib } from '../../src/report/deflate.ts';

/** Stands in for the inflater that the geotiff package would bring into the page beside the one that is there. */
export const inflate = inflatedZlib;
