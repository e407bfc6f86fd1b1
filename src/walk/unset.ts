/**
 * First value of a field that holds any number: every field is set before it is read. One that began as a small whole number would
 * change the shape of its object at the first fraction, and the engine would throw the compiled walk away, dozens of times over.
 */
export const UNSET = Number.NaN;
