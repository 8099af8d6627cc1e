/* What is asked of the step view of a job page; tests/bench/hazards.py puts it into the page. */
window.bench = {
walk: rounds => {
  const follow = window.benchleafFollow, plain = one => one.textContent.replace(/\s+/g, ' ').trim();
  const seen = css => [...document.querySelectorAll('.bl-now ' + css)]
    .filter(one => one.checkVisibility({visibilityProperty: true}));
  const words = list => list.map(one => one.innerText).join(' ').split(/\s+/).filter(Boolean).length;
  const next = document.querySelector("[data-do='next']");
  const found = {warned: 0, work: 0, touches: [], again: 0, late: []};
  const own = [...document.querySelectorAll('.bl-step__title, .bl-point__what, .bl-point__why')].map(one => {
    const copy = one.cloneNode(true);
    copy.querySelectorAll('.bl-step__number, .bl-point__label').forEach(label => label.remove());
    return copy.textContent.split(/\s+/).filter(Boolean).length; });
  found.work = own.reduce((sum, one) => sum + one, 0) * rounds.length;
  const told = new Set();
  rounds.forEach(round => {
    follow.start(round);
    const whole = [], counted = new Set(); // a step that stands in parts is counted once
    let touches = 0;
    for (let turn = 0; turn < 200 && follow.screens[follow.state.at]; turn += 1) {
      const screen = follow.screens[follow.state.at];
      const state = `${screen.step || screen.name} ${Boolean(document.querySelector('.bl-now.bl-shut'))}`;
      if (!counted.has(state)) {
        const told = '> .bl-hazard, .bl-now > .bl-strip > .bl-strip__groups';
        found.warned += words([...seen(told)].filter(one => one.checkVisibility()));
        counted.add(state);
      }
      seen('.bl-hazard__avoid').forEach(one => whole.push(plain(one.parentElement)));
      whole.forEach(one => told.add(one));
      if (!document.querySelector('.bl-now.bl-shut') && screen.step) {
        screen.parts[0].querySelectorAll('.bl-hazard__message').forEach(one => {
          if (!told.has(plain(one)) && ![...told].some(other => other.includes(plain(one.querySelector('.bl-hazard__what')))))
            found.late.push(round + ' ' + screen.name + ' ' + one.dataset.title); });
      }
      if (next.ariaDisabled === 'true') {
        touches += 1;
        const right = [...document.querySelectorAll('.bl-now [data-control]')].map(one => one.dataset.control);
        const answer = seen('> .bl-question .bl-answer').find(one => right.includes(one.textContent));
        (answer || seen('> .bl-ack')[0]).dispatchEvent(new MouseEvent('click', {bubbles: true, detail: 1}));
      } else next.click();
    }
    found.touches.push(touches);
    found.again += whole.length - new Set(whole.map(one => one)).size;
  });
  return found; },

steps: () => Object.fromEntries([...document.querySelectorAll('.bl-step')].map(step => [step.id,
  [...step.querySelectorAll('.bl-hazard__message')].map(one => [one.dataset.title,
    ...[...one.querySelectorAll('p, li')].map(part => part.textContent.replace(/\s+/g, ' ').trim())])])),

strips: () => window.benchleafFollow.steps.map((screen, at) => {
  const follow = window.benchleafFollow, part = screen.parts[0];
  follow.state.at = follow.screens.indexOf(screen); follow.show();
  const of = css => [...part.querySelectorAll(css)];
  return [screen.name, of('[data-hazard]').map(one => one.dataset.hazard).sort().join(),
    of('.bl-strip__line').map(one => one.dataset.of).sort().join()]; }),
};
