import { UserError } from '../../src/door/user-error.ts';
import { FEATURE_KINDS, type FeatureKind } from '../../src/features/kinds.ts';
import { parseGridReference } from '../../src/terrain/grid-reference.ts';
import { freshId } from './folder.ts';
import type { Places } from './places.ts';
import { LANGUAGES } from './words.ts';
import type { Own } from './work.ts';

const MOST_LINES = 1000;

/** Places pasted one a line: grid reference, kind, name. Throws UserError about the first line that is wrong. */
export function pastedPlaces(text: string, places: Places, taken: ReadonlySet<string>): Own[] {
  const ids = new Set(taken);
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  if (lines.length > MOST_LINES) {
    throw new UserError({
      what: 'too many lines at once',
      got: String(lines.length),
      expected: `at most ${MOST_LINES}`,
    });
  }
  return lines.map((line, i): Own => {
    const where = `line ${i + 1}`;
    const parts = line.split(/[,;\t]/).map((part) => part.trim());
    const [reference = '', said = '', ...name] = parts;
    const kind = kindSaid(said);
    if (kind === null) {
      throw new UserError({
        what: 'no kind that is known here',
        where,
        got: `"${said.slice(0, 40)}"`,
        expected: 'grid reference, kind, name; for example a boulder, a cairn, a spring',
      });
    }
    const at = located(reference, places, where);
    const called = name.join(', ').slice(0, 200);
    const id = freshId(kind, called, ids);
    ids.add(id);
    return { id, kind, name: called, shape: 'Point', points: [at], exists: null, lastSeen: null };
  });
}

function located(reference: string, places: Places, where: string) {
  try {
    const at = parseGridReference(reference, places.crs);
    if (places.inside(at)) return at;
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    throw new UserError({ what: error.what, where, ...(error.got === undefined ? {} : { got: error.got }) });
  }
  throw new UserError({ what: 'this place is off the map', where, got: reference.slice(0, 60) });
}

/** A kind by its name in any language of the page. */
function kindSaid(said: string): FeatureKind | null {
  const wanted = said.toLowerCase().replace(/\s+/g, ' ');
  const plain = wanted.replaceAll(' ', '-');
  return (
    FEATURE_KINDS.find(
      (k) => k === plain || Object.values(LANGUAGES).some((words) => words.kind(k).toLowerCase() === wanted),
    ) ?? null
  );
}
