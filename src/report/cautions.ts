/** What is printed with every figure. Local rules and the qualified leader stand above all of it. */
export const CAUTIONS: readonly string[] = [
  'For learning and planning. On the day the ground and the weather decide, and the qualified leader and the event’s rules above any figure here.',
  'A legal way may be no path on the ground, and a path may be no legal way: follow local access law, closures and wildlife notices.',
  'Carry map, compass, watch, whistle, light and shelter; a phone is an extra. A compass errs near iron.',
  'Keep off edges and out of streams in spate. What is absent from the data may still be there.',
  'If the target is not found within the allowance, go back to a known point. Never split the party out of sight and voice.',
  'If lost: stop, shelter, think; call the local emergency number if need be. Leave your plan and an overdue time with somebody.',
  'Times leave out rests and injuries, and the slowest sets the pace. Steep ground, snow, ice and avalanche ground are not assessed.',
  'Do not publish sensitive sites. Every figure is modelled, not observed.',
];

/** The same in German. */
export const GERMAN_CAUTIONS: readonly string[] = [
  'Zum Lernen und Planen. Am Tag selbst entscheiden Gelände und Wetter, und die ausgebildete Leitung und die Regeln der Veranstaltung stehen über jeder Zahl hier.',
  'Ein Wegerecht muss kein sichtbarer Weg sein und ein Weg kein Wegerecht: örtliches Betretungsrecht, Sperrungen und Wildschutz beachten.',
  'Karte, Kompass, Uhr, Pfeife, Licht und Wetterschutz mitnehmen; ein Telefon kommt nur hinzu. In der Nähe von Eisen weist der Kompass falsch.',
  'Abstand von Kanten und von Bächen bei Hochwasser halten. Was in den Daten fehlt, kann dennoch da sein.',
  'Wird das Ziel in der erlaubten Zeit nicht gefunden: zurück zu einem bekannten Punkt. Die Gruppe nie außer Sicht- und Rufweite teilen.',
  'Verirrt: anhalten, Schutz suchen, nachdenken; notfalls den örtlichen Notruf wählen. Plan und Rückkehrzeit bei jemandem hinterlassen.',
  'Zeiten enthalten weder Rasten noch Verletzungen, und das Tempo bestimmt die langsamste Person. Steilgelände, Schnee, Eis und Lawinen sind nicht beurteilt.',
  'Empfindliche Orte nicht veröffentlichen. Jede Zahl ist Modellrechnung, keine Beobachtung.',
];
