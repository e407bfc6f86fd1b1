import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Conditions } from '../../src/conditions/conditions.ts';
import { GROUNDS } from '../../src/conditions/conditions.ts';
import { PLAIN_READING } from '../../src/door/reading.ts';
import { germanAt, germanLabel, germanName } from '../../src/features/german-names.ts';
import { FEATURE_KINDS } from '../../src/features/kinds.ts';
import { SKILL_LEVELS } from '../../src/party/party.ts';
import { DEFAULT_LIMITS, DEFAULT_PARTY } from '../../src/party/presets.ts';
import { EVENT_KINDS, eventText, TOLD_WORDS } from '../../src/report/told-words.ts';
import { reportSentences } from '../../src/report/words.ts';
import { TECHNIQUES } from '../../src/route/leg.ts';
import { type ChangeSaid, type EndPlace, type LegSaid, routeWords } from '../../src/route/words.ts';
import { germanWarning } from '../../src/speed/german.ts';
import { SPEED_MODELS } from '../../src/speed/models.ts';
import { constantSpeed } from '../../src/speed/scarf.ts';
import { germanNote } from '../../src/terrain/german-notes.ts';
import { missingNote } from '../../src/terrain/nodata.ts';
import { feature } from '../study/ground.ts';

const GERMAN = { ...PLAIN_READING, language: 'de' } as const;
const en = routeWords();
const de = routeWords(GERMAN);
const ENGLISH =
  /\b(the|and|of|with|from|by|for|is|are|to|at|on|leg|bearing|walk|follow|aim|back|line|place|north|south|left|right|minutes|target|start of|stream|wall|boulder|ground|party)\b/i;

const at = { type: 'point', at: [0, 0] } as const;
const boulder = feature('b', 'boulder', at);
const beck = feature('s', 'small-stream', at);
const named = { ...feature('k', 'knoll', at), name: 'Grey Ewe' };
const end = { ...feature('e', 'stream-end', at), name: 'end of Oskle Sike' };
const hags = feature('h', 'hag', at);

describe('German nouns', () => {
  test('take their article and case; names stay, and what the program named is German', () => {
    expect([germanLabel(boulder), germanLabel(beck), germanLabel(named), germanLabel(end)]).toEqual([
      'Felsblock',
      'kleiner Bach',
      'Grey Ewe',
      'Ende von Oskle Sike',
    ]);
    expect(['nominative', 'accusative', 'dative'].map((c) => germanName(beck, c as 'dative'))).toEqual([
      'der kleine Bach',
      'den kleinen Bach',
      'dem kleinen Bach',
    ]);
    expect([
      germanAt('zu', boulder),
      germanAt('an', beck),
      germanAt('von', end),
      germanAt('zu', hags),
    ]).toEqual(['zum Felsblock', 'am kleinen Bach', 'vom Ende von Oskle Sike', 'zu den Torfabbrüchen']);
    const corner = { ...feature('c', 'wall-corner', at), name: 'corner of Long Dyke and Low Dyke' };
    expect(germanName(corner, 'dative')).toBe('der Ecke von Long Dyke und Low Dyke');
    // a name that only looks like one of the program's stays
    expect(germanLabel({ ...feature('p', 'post', at), name: 'end of the world' })).toBe('end of the world');
  });

  test('there is one for every kind', () => {
    for (const kind of FEATURE_KINDS) expect(germanLabel(feature('x', kind, at)), kind).not.toMatch(ENGLISH);
  });
});

const ends: readonly EndPlace[] = [
  { is: 'feature', feature: boulder },
  { is: 'feature', feature: end },
  { is: 'beside', line: beck, metres: 63, side: 'left' },
  { is: 'beside', line: undefined, metres: 63, side: 'right' },
  { is: 'on line', line: beck },
  { is: 'on line', line: undefined },
  { is: 'open' },
  { is: 'start' },
  { is: 'target' },
];
const leg: LegSaid = {
  technique: 'handrail',
  end: ends[0]!,
  line: beck,
  way: 'down',
  metres: 343,
  straightMetres: 310,
  bearingDegrees: 74,
  eighth: 2,
  doublePaces: 220,
  minutes: 6.4,
  side: 'left',
  offsetMetres: 63,
  ticks: [
    { feature: boulder, id: 'b', metres: 120 },
    { feature: named, id: 'k', metres: 200 },
  ],
  catching: { line: beck, beyondMetres: 118 },
};

describe('every sentence of a route', () => {
  test('a leg, aloud', () => {
    expect(de.leg(leg)).toBe(
      'Dem kleinen Bach bachabwärts folgen, 340 m bis zum Felsblock; unterwegs abhaken: Felsblock bei 120 m und Grey Ewe bei 200 m; Auffanglinie: der kleine Bach, 120 m dahinter, wer dort steht, ist zu weit.',
    );
    expect(de.leg({ ...leg, technique: 'aim-off', ticks: [], catching: null })).toBe(
      'Nach Marschzahl 074° gehen, 340 m bis an den kleinen Bach, dabei bewusst 65 m nach links versetzt: an der Linie dann nach rechts.',
    );
  });

  test('in feet and mils where that is wished', () => {
    const words = routeWords({ language: 'en', units: 'imperial', bearings: 'mils' });
    // 343 m = 375 yd; 74° = 74 · 6400/360 = 1316 mils
    expect(words.leg({ ...leg, technique: 'bearing', ticks: [], catching: null })).toBe(
      'Walk on a bearing of 1316 mils for 380 yd, about 220 double paces, to the boulder.',
    );
  });

  test.each([...TECHNIQUES])('%s, whatever it ends at and whichever way it goes', (technique) => {
    for (const place of ends) {
      for (const way of ['down', 'up', { eighth: 3 }, null] as const) {
        const said = { ...leg, technique, end: place, way };
        expect(de.leg(said)).not.toMatch(ENGLISH);
        expect(de.leg(said)).not.toMatch(/undefined| {2}/);
        const near = {
          technique,
          metres: 90,
          end: place,
          line: beck,
          same: false,
          way,
          side: 'left',
        } as const;
        for (const part of [near, { ...near, same: true, line: undefined }])
          expect(de.near(part)).not.toMatch(ENGLISH);
      }
    }
  });

  test('what it relies on, risks, is called and could do otherwise', () => {
    const changes: readonly ChangeSaid[] = [
      { is: 'aim off', metres: 60, side: 'left', line: beck, before: { metres: 30, side: 'right' } },
      { is: 'attack point', first: true, spot: boulder, metres: 90 },
      {
        is: 'attack point',
        first: false,
        spot: boulder,
        metres: 90,
        before: { side: 'left', line: beck },
        after: { side: 'right', line: beck },
      },
      { is: 'catching', line: beck, metres: 120, leg: 2 },
      { is: 'ticks', features: [boulder, end], leg: 1 },
      { is: 'stay', line: beck, metres: 80 },
      { is: 'slope', leg: 1 },
      { is: 'clock', leg: 1 },
      { is: 'count', leg: 1 },
      { is: 'straight', to: boulder, line: beck, leg: 1 },
      { is: 'endgame', from: null, phrase: '…', stops: null },
      { is: 'endgame', from: boulder, phrase: '…', stops: 'without', without: beck },
      { is: 'endgame', from: end, phrase: '…', stops: 'behind', behind: undefined },
    ];
    for (const change of changes) {
      expect(de.change(change)).not.toMatch(ENGLISH);
      expect(de.change(change)).not.toBe(en.change(change));
    }
    const reasons = ['ground', 'party-day', 'leg', 'step', 'seeing', 'several', undefined];
    for (const reason of reasons) {
      for (const last of [true, false])
        expect(de.risks({ last, metres: 240, end: ends[4]!, count: 35, reason })).not.toMatch(ENGLISH);
    }
    for (const things of [[], [boulder, beck], [ends[2]!, { is: 'meeting', line: beck } as const]]) {
      for (const bySight of [true, false])
        expect(de.relies({ things, alongPercent: 80, metres: 500, bySight })).not.toMatch(ENGLISH);
    }
    expect(de.relies({ things: [boulder, beck, end], alongPercent: 62, metres: 500, bySight: false })).toBe(
      'Stützt sich auf den Felsblock, den kleinen Bach und das Ende von Oskle Sike, 62 % davon an Leitlinien entlang',
    );
    expect(
      de.routeName({ line: beck, from: boulder, straight: 'open', more: { is: 'past', feature: end } }),
    ).toBe('über den kleinen Bach, ab dem Felsblock, vorbei am Ende von Oskle Sike');
    const differs = {
      aim: { metres: 60, side: 'left' },
      from: boulder,
      catching: true,
      last: 'sight',
    } as const;
    expect(de.differs(differs)).not.toMatch(ENGLISH);
    expect([en.differs({}), de.differs({})]).toEqual(['', '']);
  });
});

const DAY: Conditions = {
  visibility: { below: 1540, above: 90, cloudBase: 525 },
  ground: 'wet',
  light: 'dark',
  wind: { metresPerSecond: 9, fromDegrees: 0 },
  date: null,
};

describe('the report', () => {
  const say = reportSentences(GERMAN);

  test('its sentence, for every ground, skill and party', () => {
    for (const ground of GROUNDS) {
      for (const skill of SKILL_LEVELS) {
        for (const people of [1, 4]) {
          const text = say.sentence({
            start: boulder,
            target: beck,
            conditions: { ...DAY, ground },
            party: { ...DEFAULT_PARTY, skill, people, compass: false },
            limits: { ...DEFAULT_LIMITS, minutes: null, searchMinutes: 0 },
          });
          expect(text).not.toMatch(ENGLISH);
          expect(text).toMatch(
            /^Vom Felsblock zum kleinen Bach: Wolken auf 525 m \(darin 90 m Sicht, darunter 1,5 km\)/,
          );
        }
      }
    }
  });

  test('its verdict, limits and notes', () => {
    const judged = { letter: 'A', name: 'x', count: 46, minutes: 101 };
    const { verdict: v, notes: n } = say;
    const texts = [
      v.none,
      v.surest(judged),
      ...[0, 5].flatMap((saved) => [true, false].map((clear) => v.quickest(judged, saved, clear))),
      v.between([judged, judged]),
      v.wrong('A', 3),
      v.lost('A', 3),
      v.hazard([judged]),
      v.notAssessed,
      say.limits(20, false, 3),
      n.relief(20, 10),
      ...n.always,
      n.smallTarget(13),
      n.noHazards,
      n.lacking(FEATURE_KINDS),
      n.invented,
      n.noDate,
      say.wayOut(boulder, 640, 12, ['x', 'y']),
      ...say.cautions,
    ];
    for (const text of texts) expect(text).not.toMatch(ENGLISH);
    expect(say.cautions).toHaveLength(reportSentences(PLAIN_READING).cautions.length);
  });

  test('the warning of every travel-time model', () => {
    for (const model of [...SPEED_MODELS, constantSpeed(1.2)]) {
      expect(germanWarning(model), model.name).not.toBe(model.warning);
      expect(germanWarning(model), model.name).not.toMatch(ENGLISH);
    }
  });

  test('notes of the readers of heights', () => {
    const notes = [
      missingNote({ missing: 12, impossible: 0 }, 100)!,
      missingNote({ missing: 12, impossible: 3 }, 100)!,
      missingNote({ missing: 0, impossible: 3 }, 100)!,
    ];
    for (const note of notes) expect(germanNote(note)).not.toMatch(ENGLISH);
    expect(germanNote('a note of another form')).toBe('a note of another form');
  });
});

describe('what happens in an attempt', () => {
  /** The walker's own words, as its sources tell them to the watcher. */
  const told = new Set(
    readdirSync(new URL('../../src/walk/', import.meta.url), { encoding: 'utf8', recursive: true })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(new URL(`../../src/walk/${name}`, import.meta.url), 'utf8'))
      .flatMap((source) => [...source.matchAll(/watcher\?\.event\(([\s\S]*?),\s*body,/g)].map((m) => m[1]!))
      .flatMap((first) => [...first.matchAll(/'([^']+)'/g)].map((m) => m[1]!)),
  );

  test('is in plain words in both languages, event for event', () => {
    expect([...told].sort()).toEqual([...EVENT_KINDS, 'leg'].sort());
    for (const kind of EVENT_KINDS) {
      expect(eventText(kind, 0, [], TOLD_WORDS.de)).not.toBe(eventText(kind, 0, [], TOLD_WORDS.en));
      expect(TOLD_WORDS.de.events[kind]).not.toMatch(ENGLISH);
    }
    expect(eventText('leg', 1, ['x', 'Grey Ewe'], TOLD_WORDS.en)).toBe('sets off for Grey Ewe');
    expect(eventText('leg', 1, ['x', 'Grey Ewe'], TOLD_WORDS.de)).toBe('bricht auf: Grey Ewe');
  });
});
