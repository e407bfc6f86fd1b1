const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/**
 * A route that is pointed at or focused anywhere is lit everywhere; Escape lets go. By rules and not by classes: what is drawn anew
 * meanwhile is lit or steps back as well.
 */
export function lightRoutes(root: HTMLElement): void {
  const rules = document.createElement('style');
  rules.textContent = [...LETTERS]
    .map((l) => `[data-lit="${l}"] [data-route]:not([data-route="${l}"], .route-part)`)
    .map((others) => `${others}{opacity:.22}${others} [data-route]{opacity:1}`)
    .join('\n');
  document.head.append(rules);
  let lit: string | null = null;
  const light = (target: EventTarget | null): void => {
    const at = target instanceof Element ? target : null;
    // the hand that draws is on its own route
    const route = at?.closest('.live.busy') ? null : at?.closest('[data-route]')?.getAttribute('data-route');
    if ((route ?? null) === lit) return;
    lit = route ?? null;
    if (lit === null) delete root.dataset.lit;
    else root.dataset.lit = lit;
  };
  root.addEventListener('pointerover', (event) => light(event.target));
  root.addEventListener('pointerleave', () => light(null));
  root.addEventListener('focusin', (event) => light(event.target));
  root.addEventListener('focusout', () => light(null));
  root.addEventListener('keydown', (event) => event.key === 'Escape' && light(null));
}
