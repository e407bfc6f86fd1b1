import { DOMParser } from 'linkedom/worker';

/** English words that no German page has, whole words only. */
const ENGLISH_WORDS =
  /\b(the|and|of|with|from|by|for|is|are|has|this|that|which|where|when|not|none|no|to|at|on|legs?|bearings?|found|find|lost|part(?:y|ies)|attempts?|ground|wet|cloud|visibility|minutes|metres|yards|climb|streams?|walls?|paths?|fences?|hazards?|assessed|search|unbeaten|drawn|target|double|paces|turn(?:ed)?|back|walk(?:ed)?|follow|aim(?:ing)?|tick|catching|map|layers?|features?|names|relief|data|days?|night|dark|expert|competent|novice|routes|sheet|task|handrail|sight|junction|corner|crossing|end|seed|value|mark|source|table|most|more|under|over|yes|allowed|limit|straight|north|east|south|west|left|right|about|such)\b/gi;

/** What a page says to eyes and ears: text nodes, and the attributes that are read out or shown. */
export function saidOn(html: string): string[] {
  const document = new DOMParser().parseFromString(html, 'text/html');
  const texts: string[] = [];
  const look = (node: Node): void => {
    if (node.nodeType === 3) texts.push(node.textContent ?? '');
    if (node.nodeType === 1) {
      const element = node as Element;
      if (['STYLE', 'SCRIPT'].includes(element.tagName.toUpperCase())) return;
      for (const { name, value } of Array.from(element.attributes)) {
        if (/^(aria-label|title|alt|data-head|data-say-.*)$/.test(name))
          texts.push(value.replaceAll(/\{\w+\}/g, ''));
      }
    }
    for (const child of Array.from(node.childNodes)) look(child);
  };
  look(document.documentElement as unknown as Node);
  return texts.map((t) => t.replaceAll('\u00ad', '').trim()).filter((t) => t !== '');
}

/** English words in texts, each with where it stands; names that were given and titles of sources are left out. */
export function englishIn(texts: readonly string[], names: readonly string[]): string[] {
  const longest = [...names].filter((n) => n !== '').sort((a, b) => b.length - a.length);
  return texts.flatMap((text) => {
    const own = longest.reduce((rest, name) => rest.replaceAll(name, '·'), text);
    return (own.match(ENGLISH_WORDS) ?? []).map((word) => `${word}: ${own.slice(0, 120)}`);
  });
}
