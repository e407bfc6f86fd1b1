import { PLAIN_READING } from '../../src/door/reading.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import { CAUTIONS, GERMAN_CAUTIONS } from '../../src/report/cautions.ts';
import type { Technique } from '../../src/route/leg.ts';
import { type RouteWords, routeWords } from '../../src/route/words.ts';
import { ENGLISH, type FigureWords } from '../theme/figure-words.ts';
import { GERMAN } from '../theme/german.ts';
import { germanKind } from '../theme/german-kinds.ts';
import { kindName } from '../theme/words.ts';

/** Every word of the page, once per language. A sentence of controls is a text with the names of the controls in braces. */
export interface Words {
  readonly language: string;
  readonly sentence: string;
  readonly clear: string;
  readonly cloud: string;
  readonly airs: Readonly<Record<'clear' | 'cloud', string>>;
  readonly grounds: Readonly<Record<'dry' | 'normal' | 'wet' | 'saturated' | 'spate', string>>;
  readonly lights: Readonly<Record<'day' | 'dark', string>>;
  readonly skills: Readonly<Record<'novice' | 'competent' | 'expert', string>>;
  readonly compasses: Readonly<Record<'yes' | 'no', string>>;
  readonly controls: Readonly<Record<string, string>>;
  /** Of fields in feet, yards and miles an hour, in place of the metric unit at the end of a control's name. */
  readonly units: Readonly<Record<'ft' | 'yd' | 'mph', string>>;
  readonly techniques: Readonly<Record<Technique, string>>;
  readonly kind: (kind: FeatureKind) => string;
  /** What a route that was found is called, and a feature: as in the report of this language. */
  readonly routes: RouteWords;
  readonly texts: Readonly<Record<keyof typeof EN_TEXTS, string>>;
  readonly cautions: readonly string[];
  /** The words inside of drawings. */
  readonly figures: FigureWords;
  readonly verdict: VerdictWords;
  readonly leg: LegWords;
}

export interface VerdictWords {
  readonly none: string;
  readonly surest: (letter: string, name: string, count: string, minutes: number) => string;
  readonly quicker: (letter: string, name: string, minutes: number, count: string, clear: boolean) => string;
  readonly false: (letter: string, count: string) => string;
  readonly lost: (letter: string, count: string) => string;
  readonly notAssessed: string;
  readonly ofHundred: (n: string) => string;
}

export interface LegWords {
  readonly says: (technique: Technique, facts: LegFacts) => string;
  readonly openPlace: string;
  readonly target: string;
}

export interface LegFacts {
  readonly line: string;
  readonly to: string;
  readonly bearing: string;
  readonly side: 'left' | 'right' | null;
  /** How far aside, with its unit. */
  readonly off: string;
}

const EN_TEXTS = {
  invented: 'invented ground',
  modelled: 'Modelled, not observed.',
  relief: 'Heights every {cell}: relief smaller than {twice} is not seen.',
  givenParty: '{skill} party of {people}',
  givenCloud: 'cloud at {base}, {above} to be seen in it',
  givenClear: 'visibility {below}',
  givenGround: 'ground {ground}',
  givenTrials: '{trials} attempts per route, modelled',
  coarse: 'First figures, from {trials} attempts per route.',
  refining: 'First figures, from {trials} attempts per route; all of them are being walked: {share} %.',
  refined:
    '{trials} attempts per route, the same figures as the program gives for this task and seed {seed}.',
  opening: 'Reading the ground …',
  fault: 'A fault of this program, not of yours:',
  stays: 'Nothing of your work has changed; what is shown is from before.',
  map: 'Map',
  mapLabel:
    'Map. Arrow keys move the cross, with Shift in small steps; Enter sets a point; comma and full stop choose a point of the route, M takes it up, Delete removes it; plus and minus change the scale; Escape ends.',
  look: 'look about',
  draw: 'draw a route',
  setStart: 'set start',
  setTarget: 'set target',
  addPoint: 'missing point',
  addLine: 'missing line',
  addArea: 'missing area',
  finish: 'finish',
  nearer: 'nearer',
  farther: 'farther',
  whole: 'whole task',
  undo: 'undo',
  redo: 'redo',
  goTo: 'Grid reference or name',
  setHere: 'set a point there',
  goThere: 'go there',
  hintLook: 'Drag to move the map. Choose a route below to change it.',
  hintRoute:
    'Each point you set comes before the target. Drag a point to move it, or the line to bend it; figures follow.',
  hintCarry: 'The point is taken up: move it with the arrow keys, Enter sets it down.',
  hintStart: 'Set the start on the map.',
  hintTarget: 'Set the target on the map: on a feature, or in the open.',
  hintPoint: 'Set the thing that the map lacks, then say what it is below.',
  hintLine: 'Set its points one after the other, then finish.',
  hintArea: 'Set its corners one after the other, then finish.',
  stay: 'Both points lie on {line}. Stay on it?',
  stayYes: 'yes, follow it',
  stayNo: 'no, straight across',
  routes: 'Routes',
  newRoute: 'draw another route',
  editRoute: 'change',
  copyRoute: 'copy and change',
  removeRoute: 'remove',
  routeName: 'Name of the route',
  drawnName: 'drawn {n}',
  copyName: '{name}, changed',
  legsOf: 'Legs of the route being changed',
  leg: 'leg',
  how: 'how',
  to: 'to',
  removeLeg: 'remove this leg',
  side: 'side of the target',
  left: 'left',
  right: 'right',
  metresOff: 'metres off',
  yardsOff: 'yards off',
  probe: '{letter}: about {count}, middle {minutes} min, {metres} (first {trials} attempts)',
  found: 'found',
  drawn: 'drawn',
  hazard: 'hazard entered by {count}',
  hazardNone: 'hazards not assessed',
  hazardNote: 'Hazards not assessed: a place without a hatch is not a place without danger.',
  hatchNote: 'Hatched: steep or barred ground in the data.',
  beside: 'false finds {false}, lost {lost}',
  up: '{metres} up',
  foundBy: 'Found by when',
  foundByNote:
    'How many of 100 parties have found the target within so many minutes. A curve that flattens stays where it is.',
  timeSuccess: 'Time against success',
  timeSuccessNote:
    'Thick bar: the luck of sampling. Thin bar: skill and trust in the map varied, once all attempts are walked. Full letter: no other route is both quicker and more certain.',
  legs: 'Where parties leave the line',
  legsNote:
    'Each black square is one of 100 parties that did not find the target and left the line on that leg.',
  tableLeg: 'leg',
  tableDo: 'what to do',
  tableGrid: 'grid',
  tableMagnetic: 'magnetic',
  tableMetres: 'distance',
  tableClimb: 'climb',
  tablePaces: 'double paces',
  tableMinutes: 'min',
  tableLost: 'left it here, of 100',
  asTable: 'as a table',
  tableRoute: 'route',
  tableQuick: 'quick tenth, min',
  tableMiddle: 'middle, min',
  tableSlow: 'slow tenth, min',
  tableFound: 'found, of 100',
  tableSampling: 'luck of sampling',
  tableUnbeaten: 'unbeaten',
  tableYes: 'yes',
  tableWithin: 'minutes',
  missing: 'What the map lacks',
  missingNote:
    'Draw it on the map, or paste one a line: grid reference, kind, name. Things drawn here count as mapped from then on.',
  kind: 'kind',
  name: 'name',
  sure: 'how sure, of 100',
  seen: 'last seen',
  remove: 'remove',
  paste: 'Paste places',
  pasteDo: 'take them over',
  group: 'Suggestions of a group',
  groupNote:
    'Each person draws a route, seals it with a name and how sure they are; nobody sees the others, a found route or a figure until all are opened together.',
  who: 'name or initials',
  confidence: 'sure of finding it, of 100',
  seal: 'seal the route being changed',
  sealed: '{n} sealed: {who}',
  openAll: 'open all together',
  sealedVerdict:
    'Routes of a group are sealed: until they are opened together, what was found and every figure stay hidden, so that nobody is led by them.',
  sealedPart: 'Hidden until the sealed routes are opened together.',
  probeSealed: '{letter}: distance {metres}',
  openedHead: 'Opened together',
  thinks: 'thinks, of 100',
  simulated: 'simulated, of 100',
  files: 'Open and save',
  open: 'open files',
  dropNote:
    'Or drop them anywhere: a saved folder (zip), elevation (GeoTIFF, ASCII grid), features (GeoJSON), a drawn line (GPX), a task.',
  saveZip: 'save terrain and task (zip)',
  saveTask: 'save the task alone',
  saveReport: 'save the report (one page)',
  saveSheets: 'save report, route cards and maps (zip)',
  reporting: 'The report is being worked out with all its attempts: {share} %.',
  reportSaved: 'The report is saved: {name}.',
  saveSuggestion: 'save my sealed route',
  demo: 'back to the demo',
  kept: 'Everything stays on this device and is kept in this browser: closing and opening the page loses nothing.',
  notKept: 'This browser keeps nothing for a page opened like this: save before you close it.',
  tooLarge:
    '{name} is too large for this page ({size} MB, at most {most} MB): cut it with the program first.',
  unknownFile: '{name} is nothing that can be opened here.',
  addedFeatures: '{n} features added from {name}.',
  openedFile: '{name} is open.',
  pictureLies:
    '{name} lies beneath the map as a picture. Grey in 8 bits is taken for a picture, never for heights.',
  noPlace: '“{text}” is no feature of this ground and no grid reference: {why}',
  cautions: 'Cautions',
  theme: 'light',
  themeSystem: 'as the device',
  themeDay: 'day',
  themeNight: 'night',
  units: 'units',
  metric: 'metres',
  imperial: 'feet and yards',
  angles: 'bearings',
  degrees: 'degrees',
  mils: 'mils',
  languageLabel: 'language',
  picture:
    'A map picture of your own (PNG with its world file, or GeoTIFF) may lie beneath while you draw; it is kept on this device and never goes into a report or anything saved.',
  pictureOff: 'take the picture away',
  at: 'at {place}',
  near: 'near {name}',
  layers: 'Layers of the map',
  layerRoutes: 'routes',
  layerEnds: 'end points',
  layerFeatures: 'features',
  layerNames: 'names',
  layerGround: 'ground cover and water',
  layerContours: 'contours every {interval}',
  layerRelief: 'relief',
  endsNote: 'full: found, open: not found; {n} of {trials} attempts per route',
  doubtNote: 'solid: there in 90 of 100 or more; broken: 60 to 90; dotted: under 60',
};

export const en: Words = {
  language: 'English',
  sentence:
    'From {start} to {target}: {air}, ground {ground}, {light}, wind {wind} m/s from {windFrom}°; {skill} party of {people}, {compass}, {minutes} minutes allowed, {search} minutes of search, second tries: {relaunches}; on {date}.',
  clear: '{airKind}, visibility {below} m',
  cloud: '{airKind} at {cloudBase} m, {above} m to be seen in it, {below} m below it',
  airs: { clear: 'no cloud', cloud: 'cloud' },
  grounds: { dry: 'dry', normal: 'normal', wet: 'wet', saturated: 'saturated', spate: 'in spate' },
  lights: { day: 'by day', dark: 'in the dark' },
  skills: { novice: 'a novice', competent: 'a competent', expert: 'an expert' },
  compasses: { yes: 'with a compass', no: 'without a compass' },
  controls: {
    start: 'start: a feature or a grid reference',
    target: 'target: a feature or a grid reference',
    airKind: 'cloud or none',
    cloudBase: 'cloud base, metres',
    above: 'visibility in the cloud, metres',
    below: 'visibility below the cloud, metres',
    ground: 'wetness of the ground',
    light: 'light',
    wind: 'wind, metres per second',
    windFrom: 'wind from, degrees',
    skill: 'skill',
    people: 'people',
    compass: 'compass',
    minutes: 'minutes allowed',
    search: 'minutes of search',
    relaunches: 'second tries',
    date: 'date',
  },
  units: { ft: 'feet', yd: 'yards', mph: 'miles per hour' },
  techniques: {
    handrail: 'follow',
    bearing: 'on a bearing',
    timing: 'by the clock',
    'aim-off': 'aim off to',
    contour: 'contour round',
    sight: 'by sight',
    box: 'box round',
  },
  kind: kindName,
  routes: routeWords(),
  texts: EN_TEXTS,
  figures: ENGLISH,
  cautions: CAUTIONS,
  verdict: {
    none: 'No route is drawn and none was found yet.',
    surest: (letter, name, count, minutes) =>
      `By ${letter}, “${name}”, about ${count} such parties find the target; half of all attempts end within ${minutes} minutes.`,
    quicker: (letter, name, minutes, count, clear) =>
      `${letter}, “${name}”, ends about ${minutes} minutes sooner; ${clear ? `by it about ${count} find the target` : `no clear difference in success (about ${count}): choose by consequences`}.`,
    false: (letter, count) => `On ${letter} about ${count} declare the wrong thing.`,
    lost: (letter, count) => `On ${letter} about ${count} end lost.`,
    notAssessed: 'Hazards are not assessed: the data map none here.',
    ofHundred: (n) => `${n} of 100`,
  },
  leg: {
    openPlace: 'a point in the open',
    target: 'the target',
    says: (technique, f) => {
      switch (technique) {
        case 'handrail':
          return `follow ${f.line} to ${f.to}`;
        case 'aim-off':
          return `aim off to ${f.line}, ${f.off} ${f.side ?? ''} of the place wanted, ${f.bearing}`;
        case 'contour':
          return `hold the height round to ${f.to}`;
        case 'box':
          return `box round to ${f.to}`;
        case 'sight':
          return `by sight to ${f.to}`;
        case 'timing':
          return `by the clock on ${f.bearing} to ${f.to}`;
        case 'bearing':
          return `on ${f.bearing} to ${f.to}`;
      }
    },
  },
};

export const de: Words = {
  language: 'Deutsch',
  sentence:
    'Von {start} nach {target}: {air}, Boden {ground}, {light}, Wind {wind} m/s aus {windFrom}°; {skill} Gruppe von {people}, {compass}, {minutes} Minuten Zeit, {search} Minuten Suche, weitere Anläufe: {relaunches}; am {date}.',
  clear: '{airKind}, Sicht {below} m',
  cloud: '{airKind} auf {cloudBase} m, darin {above} m Sicht, darunter {below} m',
  airs: { clear: 'keine Wolken', cloud: 'Wolken' },
  grounds: {
    dry: 'trocken',
    normal: 'normal',
    wet: 'nass',
    saturated: 'wassergesättigt',
    spate: 'bei Hochwasser',
  },
  lights: { day: 'bei Tag', dark: 'bei Dunkelheit' },
  skills: { novice: 'eine unerfahrene', competent: 'eine geübte', expert: 'eine sehr erfahrene' },
  compasses: { yes: 'mit Kompass', no: 'ohne Kompass' },
  controls: {
    start: 'Start: ein Kartenobjekt oder eine Koordinate',
    target: 'Ziel: ein Kartenobjekt oder eine Koordinate',
    airKind: 'Wolken oder keine',
    cloudBase: 'Wolkenuntergrenze, Meter',
    above: 'Sicht in den Wolken, Meter',
    below: 'Sicht unter den Wolken, Meter',
    ground: 'Nässe des Bodens',
    light: 'Licht',
    wind: 'Wind, Meter je Sekunde',
    windFrom: 'Wind aus, Grad',
    skill: 'Können',
    people: 'Personen',
    compass: 'Kompass',
    minutes: 'erlaubte Minuten',
    search: 'Minuten Suche',
    relaunches: 'weitere Anläufe',
    date: 'Datum',
  },
  units: { ft: 'Fuß', yd: 'Yard', mph: 'Meilen je Stunde' },
  techniques: {
    handrail: 'folgen:',
    bearing: 'nach Marschzahl',
    timing: 'nach der Uhr',
    'aim-off': 'bewusst versetzt an:',
    contour: 'höhengleich queren',
    sight: 'auf Sicht',
    box: 'im Rechteck umgehen',
  },
  kind: germanKind,
  routes: routeWords({ ...PLAIN_READING, language: 'de' }),
  figures: GERMAN,
  texts: {
    invented: 'erfundenes Gelände',
    modelled: 'Modellrechnung, keine Beobachtung.',
    relief: 'Höhen alle {cell}: Geländeformen unter {twice} bleiben unsichtbar.',
    givenParty: '{skill} Gruppe von {people}',
    givenCloud: 'Wolken auf {base}, darin {above} Sicht',
    givenClear: 'Sicht {below}',
    givenGround: 'Boden {ground}',
    givenTrials: '{trials} Versuche je Route, Modellrechnung',
    coarse: 'Erste Zahlen, aus {trials} Versuchen je Route.',
    refining: 'Erste Zahlen, aus {trials} Versuchen je Route; alle werden gerade gegangen: {share} %.',
    refined:
      '{trials} Versuche je Route, dieselben Zahlen wie vom Programm bei dieser Aufgabe und diesem Startwert: {seed}.',
    opening: 'Das Gelände wird gelesen …',
    fault: 'Ein Fehler dieses Programms, nicht Ihrer:',
    stays: 'An Ihrer Arbeit hat sich nichts geändert; gezeigt wird der Stand davor.',
    map: 'Karte',
    mapLabel:
      'Karte. Pfeiltasten bewegen das Kreuz, mit Umschalt in kleinen Schritten; Eingabe setzt einen Punkt; Komma und Punkt wählen einen Punkt der Route, M nimmt ihn auf, Entf löscht ihn; Plus und Minus ändern den Maßstab; Escape beendet.',
    look: 'umsehen',
    draw: 'Route zeichnen',
    setStart: 'Start setzen',
    setTarget: 'Ziel setzen',
    addPoint: 'fehlender Punkt',
    addLine: 'fehlende Linie',
    addArea: 'fehlende Fläche',
    finish: 'fertig',
    nearer: 'vergrößern',
    farther: 'verkleinern',
    whole: 'ganze Aufgabe',
    undo: 'rückgängig',
    redo: 'wiederholen',
    goTo: 'Koordinate oder Name',
    setHere: 'dort einen Punkt setzen',
    goThere: 'dorthin',
    hintLook: 'Ziehen bewegt die Karte. Unten eine Route wählen, um sie zu ändern.',
    hintRoute:
      'Jeder gesetzte Punkt kommt vor das Ziel. Einen Punkt ziehen, um ihn zu versetzen, oder die Linie, um sie zu biegen; die Zahlen folgen.',
    hintCarry: 'Der Punkt ist aufgenommen: Pfeiltasten bewegen ihn, Eingabe setzt ihn ab.',
    hintStart: 'Den Start auf der Karte setzen.',
    hintTarget: 'Das Ziel auf der Karte setzen: auf ein Kartenobjekt oder ins freie Gelände.',
    hintPoint: 'Setzen, was der Karte fehlt; dann unten sagen, was es ist.',
    hintLine: 'Die Punkte nacheinander setzen, dann „fertig“.',
    hintArea: 'Die Ecken nacheinander setzen, dann „fertig“.',
    stay: 'Beide Punkte liegen an: {line}. Daran entlang?',
    stayYes: 'ja, als Leitlinie',
    stayNo: 'nein, geradeaus',
    routes: 'Routen',
    newRoute: 'weitere Route zeichnen',
    editRoute: 'ändern',
    copyRoute: 'kopieren und ändern',
    removeRoute: 'entfernen',
    routeName: 'Name der Route',
    drawnName: 'gezeichnet {n}',
    copyName: '{name}, geändert',
    legsOf: 'Abschnitte der Route, die gerade geändert wird',
    leg: 'Abschnitt',
    how: 'wie',
    to: 'bis',
    removeLeg: 'diesen Abschnitt entfernen',
    side: 'Seite des Ziels',
    left: 'links',
    right: 'rechts',
    metresOff: 'Meter daneben',
    yardsOff: 'Yard daneben',
    probe: '{letter}: etwa {count}, Mitte {minutes} min, {metres} (erste {trials} Versuche)',
    found: 'gefunden',
    drawn: 'gezeichnet',
    hazard: 'in eine Gefahrenstelle geraten {count}',
    hazardNone: 'Gefahren nicht beurteilt',
    hazardNote: 'Gefahren nicht beurteilt: Wo nichts schraffiert ist, kann dennoch Gefahr sein.',
    hatchNote: 'Schraffiert: steiles oder gesperrtes Gelände in den Daten.',
    beside: 'falsche Funde {false}, verirrt {lost}',
    up: '{metres} Anstieg',
    foundBy: 'Bis wann gefunden',
    foundByNote:
      'Wie viele von 100 Gruppen das Ziel in so vielen Minuten gefunden haben. Eine Kurve, die abflacht, bleibt dort.',
    timeSuccess: 'Zeit und Erfolg',
    timeSuccessNote:
      'Dicker Balken: Zufall der Stichprobe. Dünner Balken: Können und Vertrauen in die Karte verändert, sobald alle Versuche gegangen sind. Voller Buchstabe: keine andere Route ist zugleich schneller und verlässlicher.',
    legs: 'Wo Gruppen von der Linie abkommen',
    legsNote:
      'Jedes schwarze Quadrat ist eine von 100 Gruppen, die das Ziel nicht fand und auf diesem Abschnitt von der Linie abkam.',
    tableLeg: 'Abschnitt',
    tableDo: 'was zu tun ist',
    tableGrid: 'Gitter',
    tableMagnetic: 'magnetisch',
    tableMetres: 'Strecke',
    tableClimb: 'Anstieg',
    tablePaces: 'Doppelschritte',
    tableMinutes: 'min',
    tableLost: 'hier abgekommen, von 100',
    asTable: 'als Tabelle',
    tableRoute: 'Route',
    tableQuick: 'schnelles Zehntel, min',
    tableMiddle: 'Mitte, min',
    tableSlow: 'langsames Zehntel, min',
    tableFound: 'gefunden, von 100',
    tableSampling: 'Zufall der Stichprobe',
    tableUnbeaten: 'ungeschlagen',
    tableYes: 'ja',
    tableWithin: 'Minuten',
    missing: 'Was der Karte fehlt',
    missingNote:
      'Auf der Karte zeichnen oder zeilenweise einfügen: Koordinate, Art, Name. Was hier gezeichnet ist, gilt von da an als kartiert.',
    kind: 'Art',
    name: 'Name',
    sure: 'vorhanden, von 100 Fällen',
    seen: 'zuletzt gesehen',
    remove: 'entfernen',
    paste: 'Orte einfügen',
    pasteDo: 'übernehmen',
    group: 'Vorschläge einer Gruppe',
    groupNote:
      'Jede Person zeichnet eine Route und versiegelt sie mit Namen und Zuversicht; niemand sieht die der anderen, eine gefundene Route oder eine Zahl, bis alle zusammen geöffnet werden.',
    who: 'Name oder Kürzel',
    confidence: 'Zuversicht, es zu finden, von 100',
    seal: 'die gerade geänderte Route versiegeln',
    sealed: '{n} versiegelt: {who}',
    openAll: 'alle zusammen öffnen',
    sealedVerdict:
      'Routen einer Gruppe sind versiegelt: Bis sie zusammen geöffnet werden, bleiben gefundene Routen und alle Zahlen verborgen, damit sich niemand danach richtet.',
    sealedPart: 'Verborgen, bis die versiegelten Routen zusammen geöffnet werden.',
    probeSealed: '{letter}: Strecke {metres}',
    openedHead: 'Zusammen geöffnet',
    thinks: 'eigene Schätzung, von 100',
    simulated: 'Modellrechnung, von 100',
    files: 'Öffnen und speichern',
    open: 'Dateien öffnen',
    dropNote:
      'Oder irgendwo hineinziehen: einen gespeicherten Ordner (zip), Höhen (GeoTIFF, ASCII-Raster), Kartenobjekte (GeoJSON), eine gezeichnete Linie (GPX), eine Aufgabe.',
    saveZip: 'Gelände und Aufgabe speichern (zip)',
    saveTask: 'nur die Aufgabe speichern',
    saveReport: 'den Bericht speichern (eine Seite)',
    saveSheets: 'Bericht, Routenkarten und Kartenblätter speichern (zip)',
    reporting: 'Der Bericht wird mit allen Versuchen ausgearbeitet: {share} %.',
    reportSaved: 'Der Bericht ist gespeichert: {name}.',
    saveSuggestion: 'meine versiegelte Route speichern',
    demo: 'zurück zum Beispiel',
    kept: 'Alles bleibt auf diesem Gerät und in diesem Browser: Schließen und Öffnen der Seite verliert nichts.',
    notKept: 'Dieser Browser behält für eine so geöffnete Seite nichts: vor dem Schließen speichern.',
    tooLarge:
      '{name} ist zu groß für diese Seite ({size} MB, höchstens {most} MB): erst mit dem Programm zuschneiden.',
    unknownFile: '{name} lässt sich hier nicht öffnen.',
    addedFeatures: '{n} Kartenobjekte aus {name} hinzugefügt.',
    openedFile: '{name} ist geöffnet.',
    pictureLies: '{name} liegt als Bild unter der Karte. Grau in 8 Bit gilt als Bild, nie als Höhen.',
    noPlace: '„{text}“ ist kein Kartenobjekt dieses Geländes und keine Koordinate: {why}',
    cautions: 'Hinweise',
    theme: 'Licht',
    themeSystem: 'wie das Gerät',
    themeDay: 'Tag',
    themeNight: 'Nacht',
    units: 'Einheiten',
    metric: 'Meter',
    imperial: 'Fuß und Yard',
    angles: 'Richtungen',
    degrees: 'Grad',
    mils: 'Strich (6400)',
    languageLabel: 'Sprache',
    picture:
      'Ein eigenes Kartenbild (PNG mit World-Datei oder GeoTIFF) kann beim Zeichnen darunterliegen; es bleibt auf diesem Gerät und gelangt in keinen Bericht und nichts Gespeichertes.',
    pictureOff: 'das Bild wegnehmen',
    at: 'bei {place}',
    near: 'nahe {name}',
    layers: 'Ebenen der Karte',
    layerRoutes: 'Routen',
    layerEnds: 'Endpunkte',
    layerFeatures: 'Kartenobjekte',
    layerNames: 'Namen',
    layerGround: 'Bewuchs und Gewässer',
    layerContours: 'Höhenlinien alle {interval}',
    layerRelief: 'Schummerung',
    endsNote: 'voll: gefunden, offen: nicht gefunden; {n} von {trials} Versuchen je Route',
    doubtNote:
      'durchgezogen: in 90 von 100 Fällen oder mehr vorhanden; gestrichelt: 60 bis 90; gepunktet: unter 60',
  },
  cautions: GERMAN_CAUTIONS,
  verdict: {
    none: 'Noch keine Route gezeichnet und keine gefunden.',
    surest: (letter, name, count, minutes) =>
      `Auf ${letter}, „${name}“, finden etwa ${count} solchen Gruppen das Ziel; die Hälfte aller Versuche endet innerhalb von ${minutes} Minuten.`,
    quicker: (letter, name, minutes, count, clear) =>
      `${letter}, „${name}“, endet etwa ${minutes} Minuten früher; ${clear ? `auf ihr finden etwa ${count} das Ziel` : `kein klarer Unterschied im Erfolg (etwa ${count}): nach den Folgen wählen`}.`,
    false: (letter, count) => `Auf ${letter} halten etwa ${count} etwas Falsches für das Ziel.`,
    lost: (letter, count) => `Auf ${letter} verirren sich etwa ${count}.`,
    notAssessed: 'Gefahren sind nicht beurteilt: die Daten verzeichnen hier keine.',
    ofHundred: (n) => `${n} von 100`,
  },
  leg: {
    openPlace: 'zu einem Punkt im Gelände',
    target: 'zum Ziel',
    says: (technique, f) => {
      switch (technique) {
        case 'handrail':
          return `${f.line} folgen bis ${f.to}`;
        case 'aim-off': {
          const side = f.side === 'left' ? 'links' : 'rechts';
          return `bewusst versetzt an ${f.line}, ${f.off} ${side} der gesuchten Stelle, ${f.bearing}`;
        }
        case 'contour':
          return `den Hang auf gleicher Höhe queren bis ${f.to}`;
        case 'box':
          return `im Rechteck umgehen bis ${f.to}`;
        case 'sight':
          return `auf Sicht bis ${f.to}`;
        case 'timing':
          return `nach der Uhr, ${f.bearing}, bis ${f.to}`;
        case 'bearing':
          return `Marschzahl ${f.bearing} bis ${f.to}`;
      }
    },
  },
};

export const LANGUAGES = { en, de } as const;
export type Language = keyof typeof LANGUAGES;

/** A text with its holes filled. */
export function filled(text: string, facts: Readonly<Record<string, string | number>>): string {
  return text.replace(/\{(\w+)\}/g, (hole, name: string) => (name in facts ? String(facts[name]) : hole));
}
