import { type Measures, measuresOf } from '../../src/door/measures.ts';
import type { Called } from '../../src/features/feature.ts';
import type { Candidate, Report, ReportLeg } from '../../src/report/report.ts';
import type { Leg, Route } from '../../src/route/leg.ts';
import { routeNames } from '../../src/route/route-names.ts';
import { hundredText, thousands } from '../theme/words.ts';
import type { Results } from './messages.ts';
import type { Places } from './places.ts';
import { filled, type LegFacts, type Words } from './words.ts';

/** How figures are written: metres or yards and feet, degrees or mils. */
export interface Figures {
  readonly imperial: boolean;
  readonly mils: boolean;
  /** Decimals after a comma, as the language has them. */
  readonly comma: boolean;
}

function measures({ imperial, mils, comma }: Figures): Measures {
  return measuresOf({
    language: comma ? 'de' : 'en',
    units: imperial ? 'imperial' : 'metric',
    bearings: mils ? 'mils' : 'degrees',
  });
}

/** A length along the ground. */
export function lengthText(metres: number, how: Figures): string {
  return measures(how).long(metres);
}

/** A height or a climb. */
export function heightText(metres: number, how: Figures): string {
  return measures(how).height(metres);
}

/** A bearing: whole degrees, or mils of which 6400 make a circle. */
export function bearingText(degrees: number, how: Figures): string {
  return measures(how).bearing(degrees);
}

export function ofHundred(share: number, words: Words): string {
  return words.verdict.ofHundred(hundredText(share));
}

/** What the routes are called in the language of the page: drawn ones as people named them, found ones after what they follow. */
export function shownNames({ report, routes }: Results, places: Places, words: Words): string[] {
  const found = routes.filter((route) => route.origin === 'found');
  const ends = new Map<string, Called>();
  routes.forEach((route, i) => {
    route.legs.forEach((leg, k) => {
      const end = endOf(leg, report.candidates[i]?.legs[k], places);
      if (end !== undefined) ends.set(end.id, end);
    });
  });
  const names = routeNames(
    found.map((route) => route.legs),
    (id) => places.feature(id) ?? ends.get(id),
    words.routes,
  );
  return report.candidates.map((c) => {
    const i = found.findIndex((route) => route.id === c.id);
    return words.language === 'English' ? c.name : (names[i] ?? c.name);
  });
}

/** What a leg ends at; of places that only the search knows (a junction, a corner) the report has the name. */
function endOf(leg: Leg, said: ReportLeg | undefined, places: Places): Called | undefined {
  const known = places.feature(leg.toFeature);
  if (known !== undefined || leg.toFeature === undefined || leg.fine || said === undefined) return known;
  return { id: leg.toFeature, kind: 'junction', name: said.to };
}

/** The verdict in counts, in the language of the page. */
export function verdictLines(results: Results, places: Places, words: Words): string[] {
  const names = shownNames(results, places, words);
  const { unbeaten } = results.report;
  const candidates = results.report.candidates.map((c, i) => ({ ...c, name: names[i]! }));
  const { verdict } = words;
  if (candidates.length === 0) return [verdict.none];
  const count = (share: number) => ofHundred(share, words);
  const surest = [...candidates].sort(
    (a, b) => b.success.share - a.success.share || a.minutes.p50 - b.minutes.p50,
  )[0]!;
  const quickest = [...candidates].sort((a, b) => a.minutes.p50 - b.minutes.p50)[0]!;
  const lines = [
    verdict.surest(surest.letter, surest.name, count(surest.success.share), Math.round(surest.minutes.p50)),
  ];
  const saved = Math.round(surest.minutes.p50 - quickest.minutes.p50);
  if (quickest.id !== surest.id && saved >= 1) {
    // where the surest is still unbeaten beside a quicker one, it is clearly surer
    const clear = unbeaten.includes(surest.id);
    lines.push(verdict.quicker(quickest.letter, quickest.name, saved, count(quickest.success.share), clear));
  }
  const worst = (of: (c: Candidate) => number) => [...candidates].sort((a, b) => of(b) - of(a))[0]!;
  const falsest = worst((c) => c.outcomes.falseFind);
  if (falsest.outcomes.falseFind >= 0.02) {
    lines.push(verdict.false(falsest.letter, count(falsest.outcomes.falseFind)));
  }
  const lost = worst((c) => c.outcomes.lost);
  if (lost.outcomes.lost >= 0.02) lines.push(verdict.lost(lost.letter, count(lost.outcomes.lost)));
  if (candidates[0]!.hazard === 'not assessed') lines.push(verdict.notAssessed);
  return lines;
}

/** A leg in one sentence, in the language of the page. */
export function legText(leg: Leg, figures: ReportLeg, places: Places, words: Words, how: Figures): string {
  const line = places.feature(leg.line);
  const end = endOf(leg, figures, places);
  const facts: LegFacts = {
    line: line === undefined ? '' : places.called(line, words),
    to:
      end === undefined
        ? leg.fine
          ? words.leg.target
          : places.reference(leg.to)
        : places.called(end, words),
    bearing: bearingText(figures.gridBearingDegrees, how),
    side: leg.side ?? null,
    off: measures(how).about(leg.offsetMetres ?? 0),
  };
  return words.leg.says(leg.technique, facts);
}

/** What a route is made of: its techniques one after the other, said once each in a row. */
export function strategyText(route: Route, candidate: Candidate, places: Places, words: Words): string {
  if (words.language === 'English') return candidate.strategy;
  const steps = route.legs.map((leg) => {
    const line = places.feature(leg.line);
    const technique = words.techniques[leg.technique];
    return line === undefined ? technique : `${technique} ${places.called(line, words)}`;
  });
  return steps.filter((s, i) => s !== steps[i - 1]).join(', ');
}

/** For whom and in what, short: stands under every heading whose part gives shares. */
export function givenText(report: Report, words: Words, how: Figures): string {
  const { conditions, party, task } = report;
  const { below, above, cloudBase } = conditions.visibility;
  const t = words.texts;
  const sight =
    cloudBase === null
      ? filled(t.givenClear, { below: lengthText(below, how) })
      : filled(t.givenCloud, { base: heightText(cloudBase, how), above: lengthText(above, how) });
  return [
    filled(t.givenParty, { skill: words.skills[party.skill], people: party.people }),
    sight,
    filled(t.givenGround, { ground: words.grounds[conditions.ground] }),
    words.lights[conditions.light],
    filled(t.givenTrials, { trials: thousands(task.trials) }),
  ].join(' · ');
}
