// A route that is pointed at or focused anywhere is lit everywhere; a click on its letter keeps it lit, Escape lets go.
(() => {
  const root = document.documentElement;
  let kept = null;
  const routeAt = (target) => target.closest?.('[data-route]')?.getAttribute('data-route') ?? null;
  const light = (route) => {
    if (route === null) root.removeAttribute('data-lit');
    else root.setAttribute('data-lit', route);
    for (const element of document.querySelectorAll('[data-route]')) {
      element.classList.toggle('lit', element.getAttribute('data-route') === route);
    }
  };
  document.addEventListener('pointerover', (event) => light(routeAt(event.target) ?? kept));
  document.addEventListener('focusin', (event) => light(routeAt(event.target) ?? kept));
  document.addEventListener('focusout', () => light(kept));
  document.addEventListener('click', (event) => {
    const link = event.target.closest?.('a.letter');
    if (!link) return;
    const route = routeAt(link);
    kept = kept === route ? null : route;
    light(kept);
  });
  document.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    kept = null;
    light(null);
  });
})();
