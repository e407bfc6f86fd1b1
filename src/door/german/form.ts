/**
 * Pairs of an English wording and its German one. `{}` stands for any piece of text, `{#}` for a number; the German takes the pieces over by their
 * order, `{1}` as they are, `{1*}` put into German themselves.
 */
export type Forms = readonly (readonly [english: string, german: string])[];
