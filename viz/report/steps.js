// Steps through the events of a single attempt; without scripts the map and the table show all of them.
(() => {
  for (const walk of document.querySelectorAll('.walk')) {
    const rows = [...walk.querySelectorAll('.event-row')];
    if (rows.length === 0) continue;
    const say = walk.dataset;
    const filled = (text, facts) => text.replace(/\{(\w+)\}/g, (_, name) => facts[name]);
    let now = 0;
    const said = document.createElement('output');
    const show = (next) => {
      now = next;
      walk.classList.toggle('stepping', now > 0);
      for (const mark of walk.querySelectorAll('[data-event]')) {
        const number = Number(mark.getAttribute('data-event'));
        mark.classList.toggle('now', number === now);
        mark.classList.toggle('later', now > 0 && number > now);
        mark.closest('tr')?.classList.toggle('now', number === now);
      }
      const cells = now === 0 ? [] : [...rows[now - 1].closest('tr').cells].map((c) => c.textContent);
      said.textContent =
        now === 0
          ? filled(say.sayEvery, { n: rows.length })
          : filled(say.sayNow, { k: now, n: rows.length, min: cells[1], what: cells[3], off: cells[4] });
    };
    const button = (text, to) => {
      const made = document.createElement('button');
      made.type = 'button';
      made.textContent = text;
      made.addEventListener('click', () => show(to()));
      return made;
    };
    const bar = document.createElement('p');
    bar.className = 'stepper';
    bar.append(
      button(say.sayBack, () => (now === 0 ? rows.length : now - 1)),
      button(say.sayOn, () => (now === rows.length ? 0 : now + 1)),
      button(say.sayAll, () => 0),
      said,
    );
    walk.querySelector('h4').after(bar);
    show(0);
  }
})();
