/* Every step of a job as it is open and with its hazards before it: what scrolls, is cut, and where it
   stands. For test_steps_fit.py. */
() => { const follow = window.benchleafFollow, state = follow.state, found = [];
  const main = document.getElementById('main'), box = one => one.getBoundingClientRect();
  const seen = one => one.checkVisibility({visibilityProperty: true});
  for (const screen of follow.steps) {
    const step = screen.parts[0], hazards = [...step.querySelectorAll('.bl-hazard__message')];
    const one = {name: screen.name, over: [], points: {}, strips: [], pictures: 0, cut: [], read: []};
    const open = part => { Object.assign(state, {part, partOf: screen.name}); follow.show(); };
    Object.assign(state, {told: {}, read: {}, round: 0, at: follow.screens.indexOf(screen)});
    follow.show();
    for (let part = 0, many = 1; part < many; part += 1) { /* hazards come first, all new */
      if (part) { Object.assign(state, {part, partOf: screen.name + ' before'}); follow.show(); }
      many = Math.max(1, follow.parts.marks().length);
      one.read.push(...hazards.filter(seen).map(each => each.dataset.hazard));
      if (follow.isOver()) one.over.push('hazards ' + part);
      const asks = step.querySelector('.bl-ack, .bl-question');
      if (step.matches('.bl-asks') && seen(asks) !== (part === many - 1)) one.cut.push('answer ' + part); }
    const no = [...step.querySelectorAll('.bl-answer')].find(each => ![...step.querySelectorAll('[data-control]')]
      .some(right => right.dataset.control === each.textContent));
    if (no) { no.click(); if (follow.isOver()) one.over.push('wrong answer'); } /* the right one is shown */
    follow.markRead(screen);
    open(0);
    one.parts = Math.max(1, follow.parts.marks().length);
    for (let part = 0; part < one.parts; part += 1) {
      open(part);
      if (follow.isOver()) one.over.push('part ' + part);
      const title = step.querySelector('.bl-step__title'), inside = document.createRange();
      inside.selectNodeContents(title.lastChild);
      if (box(inside).height > box(title).height + 2) one.cut.push('title ' + part);
      [...step.querySelectorAll('.bl-point')].forEach((point, index) => { if (seen(point))
        one.points[index] = (one.points[index] || []).concat(part); });
      one.strips.push([...step.querySelectorAll('.bl-strip__line')].filter(seen).map(each => each.dataset.of));
      one.pictures += [...step.querySelectorAll('.bl-step__side :is(.bl-picture, .bl-drawing__frame--step)')]
        .filter(each => seen(each) && box(each).width >= Math.min(130, box(main).width / 3)).length;
      const low = box(document.querySelector('.bl-bottom')).top, high = box(document.querySelector('.bl-top')).bottom;
      step.querySelectorAll('p, dd, dt, figure, .bl-point').forEach(each => { const at = box(each);
        if (seen(each) && at.height && !each.matches('.bl-step__before')
          && (at.bottom > low + 1 || at.top < high - 1 || at.right > box(main).right + 1)) one.cut.push(each.className + part); }); }
    one.offers = step.querySelectorAll('.bl-step__side :is(.bl-picture, .bl-drawing__frame--step)').length;
    one.hazards = hazards.map(each => each.dataset.hazard);
    found.push(one); }
  return found; }
