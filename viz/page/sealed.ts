import type { Results } from './messages.ts';
import type { Work } from './work.ts';

/** Whether somebody's route waits to be opened together with the others'. */
export function isSealed({ suggestions }: Work): boolean {
  return suggestions.some((s) => !s.opened);
}

/** What may be seen while routes are sealed: the ground and the routes drawn openly; nothing that was found or walked. */
export function withoutFigures(results: Results): Results {
  const drawn = results.report.candidates.filter((c) => c.origin === 'drawn');
  const candidates = drawn.map((c) => ({ ...c, endPoints: [] }));
  return {
    ...results,
    report: { ...results.report, candidates, unbeaten: [] },
    routes: results.routes.filter((r) => r.origin === 'drawn'),
  };
}
