import type { Candidate, Report, ReportLeg } from '../../src/report/report.ts';
import type { Leg, Route } from '../../src/route/leg.ts';
import { hundredText, thousands } from '../theme/words.ts';
import type { Places } from './places.ts';
import { filled, type LegFacts, type Words } from './words.ts';

/** How figures are written: metres or yards and feet, degrees or mils. */
export interface Figures {
  readonly imperial: boolean;
  readonly mils: boolean;
  /** Decimals after a comma, as the language has them. */
  readonly comma: boolean;
}

/** A length along the ground. */
export function lengthText(metres: number, how: Figures): string {
  const text = lengthWithPoint(metres, how);
  return how.comma ? text.replace('.', ',') : text;
}

function lengthWithPoint(metres: number, { imperial }: Figures): string {
  if (imperial) {
    const yards = metres / 0.9144;
    return yards < 1750 ? `${Math.round(yards / 10) * 10} yd` : `${(yards / 1760).toFixed(2)} mi`;
  }
  return metres < 995 ? `${Math.round(metres)} m` : `${(metres / 1000).toFixed(2)} km`;
}

/** A height or a climb. */
export function heightText(metres: number, { imperial }: Figures): string {
  return imperial ? `${Math.round(metres / 0.3048)} ft` : `${Math.round(metres)} m`;
}

/** A bearing: whole degrees, or mils of which 6400 make a circle. */
export function bearingText(degrees: number, { mils }: Figures): string {
  return mils
    ? String(Math.round((degrees * 160) / 9) % 6400).padStart(4, '0')
    : `${String(Math.round(degrees) % 360).padStart(3, '0')}°`;
}

export function ofHundred(share: number, words: Words): string {
  return words.verdict.ofHundred(hundredText(share));
}

/** The verdict in counts, in the language of the page. */
export function verdictLines({ candidates, unbeaten }: Report, words: Words): string[] {
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
  const end = places.feature(leg.toFeature);
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
    metres: Math.round((leg.offsetMetres ?? 0) / 5) * 5,
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
