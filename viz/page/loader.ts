declare global {
  /** What a part of the program exports. */
  function need(name: string): object;
}

/** A part of the program as the build leaves it: a function that fills its exports. */
type Part = (exports: object, need: (name: string) => object, module: { exports: object }) => void;

/** What a script finds around itself, in the page and in a worker. */
export interface Loaded {
  /** Hands a part in; it does not run before somebody needs it. */
  part(name: string, part: Part): void;
  /** What a part exports. */
  need(name: string): object;
}

/**
 * Joins the parts of the program, so that the page and each worker read what they need and no more. `late` gives the text of a part that
 * was not handed in beforehand. Workers are given this function as text: it uses nothing from outside itself.
 */
export function loader(late: (name: string) => string): Loaded {
  const parts: Record<string, Part> = {};
  const made: Record<string, { exports: object }> = {};
  const need = (path: string): object => {
    const name = path.slice(path.lastIndexOf('/') + 1);
    const known = made[name];
    if (known !== undefined) return known.exports;
    // biome-ignore lint/security/noGlobalEval: the program's own text, which a classic script can load from disk in no other way
    if (parts[name] === undefined) globalThis.eval(late(name));
    const module = { exports: {} };
    made[name] = module;
    parts[name]!(module.exports, need, module);
    return module.exports;
  };
  return {
    part: (name, part) => {
      parts[name] = part;
    },
    need,
  };
}
