/* What stands on every step of a job; tests/bench/screens.py puts it into the page. */
window.look = () => {
  const follow = window.benchleafFollow, main = document.getElementById('main');
  const found = {steps: 0, offered: 0, shown: 0, scroll: 0, cut: 0, moved: 0, small: []};
  const read = screen => { if (follow.markRead) follow.markRead(screen);
    else follow.state.read[follow.state.round + ':' + screen.name] = true; };
  const go = (round, screen) => { follow.state.round = round; read(screen);
    Object.assign(follow.state, {at: follow.screens.indexOf(screen), part: 0}); follow.show(); };
  const cuts = part => { const cue = document.querySelector("[data-do='more']");
    if (cue.hidden) return 0;
    const edge = cue.getBoundingClientRect().top, walker = document.createTreeWalker(part, NodeFilter.SHOW_TEXT);
    let count = 0;
    while (walker.nextNode()) {
      if (!walker.currentNode.data.trim() || !walker.currentNode.parentElement.checkVisibility({visibilityProperty: true})) continue;
      const range = document.createRange(); range.selectNodeContents(walker.currentNode);
      count += [...range.getClientRects()].filter(one => one.height > 4 && one.top < edge - 3 && one.bottom > edge + 3).length; }
    return count; };
  const buttons = () => new Map([...document.querySelectorAll('.bl-now button, .bl-bottom button, .bl-top button, .bl-now .bl-set dd')]
    .filter(one => one.checkVisibility({visibilityProperty: true})).map(one => [one, one.getBoundingClientRect().top]));
  const isOver = () => main.scrollHeight > main.clientHeight;
  const shown = frame => frame && frame.checkVisibility() && frame.getBoundingClientRect().width > 0;
  const inParts = (screen, look) => { const parts = follow.parts ? Math.max(1, follow.parts.marks().length) : 1;
    for (let part = 0; part < parts; part += 1) {
      if (part) { follow.state.part = part; follow.state.partOf = screen.name; follow.show(); }
      look(part); }
    return parts; };
  const letters = part => { const walker = document.createTreeWalker(part, NodeFilter.SHOW_TEXT); let least = 99;
    while (walker.nextNode()) { const one = walker.currentNode.parentElement;
      if (walker.currentNode.data.trim() && !one.closest('svg') && one.checkVisibility({visibilityProperty: true}))
        least = Math.min(least, parseFloat(getComputedStyle(one).fontSize)); }
    return least; };
  Object.assign(found, {worded: [], divided: 0, parts: 0, pictures: 0, seen: 0, before: 0, roundsOver: 0, letter: 99, button: 999});
  follow.steps.forEach(screen => {
    const part = screen.parts[0];
    Object.assign(follow.state, {told: {}, read: {}, round: 0, at: follow.screens.indexOf(screen)});
    follow.show();
    let over = false;
    if (part.matches('.bl-shut')) { const many = follow.parts ? part.querySelectorAll('.bl-hazard__message').length : 1;
      for (let one = 0; one < many; one += 1) {
        if (one) { follow.state.part = one; follow.state.partOf = screen.name + ' before'; follow.show(); }
        over = over || isOver(); }
      const no = [...part.querySelectorAll('.bl-answer')].find(each => ![...part.querySelectorAll('[data-control]')]
        .some(right => right.dataset.control === each.textContent));
      if (no) { no.click(); over = over || isOver(); } }
    found.before += over ? 1 : 0;
    go(0, screen);
    const frame = part.querySelector('.bl-drawing__frame--step'), picture = part.querySelector('.bl-step__side .bl-picture img');
    found.steps += 1;
    found.offered += frame ? 1 : 0;
    found.pictures += picture ? 1 : 0;
    let scrolls = false, isShown = false, isSeen = false;
    const parts = inParts(screen, () => {
      scrolls = scrolls || isOver();
      if (!isShown && shown(frame)) {
        isShown = true; found.small.push(Math.round(frame.querySelector('svg').getBoundingClientRect().width)); }
      if (!isSeen && shown(picture)) {
        isSeen = true; found.worded.push([picture.src, picture.getBoundingClientRect().width / picture.naturalWidth]); }
      found.letter = Math.min(found.letter, letters(document.querySelector('.bl-article')));
      document.querySelectorAll('.bl-article button').forEach(one => { if (!one.checkVisibility({visibilityProperty: true})) return;
        const at = one.getBoundingClientRect(); found.button = Math.min(found.button, Math.round(Math.min(at.width, at.height))); });
      found.cut += cuts(part); });
    found.shown += isShown ? 1 : 0;
    found.seen += isSeen ? 1 : 0;
    found.scroll += scrolls ? 1 : 0;
    found.divided += parts > 1 ? 1 : 0;
    found.parts += parts;
    let inRounds = false;
    [1, 2, 3, 4].forEach(round => { go(round, screen);
      inParts(screen, () => {
        inRounds = inRounds || isOver();
        for (let turn = 0; turn < 12; turn += 1) {
          const card = [...part.querySelectorAll('.bl-say')].find(one => one.checkVisibility());
          if (!card) break;
          const before = buttons(); card.click();
          buttons().forEach((top, one) => { if (before.has(one) && !one.matches('.bl-more'))
            found.moved = Math.max(found.moved, Math.abs(top - before.get(one))); }); } }); });
    found.roundsOver += inRounds ? 1 : 0;
  });
  return found; };
