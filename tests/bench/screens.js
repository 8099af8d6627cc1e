/* What stands on every step of a job; tests/bench/screens.py puts it into the page. */
window.look = () => {
  const follow = window.benchleafFollow, main = document.getElementById('main');
  const found = {steps: 0, offered: 0, shown: 0, scroll: 0, cut: 0, moved: 0, small: []};
  const read = screen => { if (follow.markRead) follow.markRead(screen);
    else follow.state.read[follow.state.round + ':' + screen.name] = true; };
  const go = (round, screen) => { follow.state.round = round; read(screen);
    follow.state.at = follow.screens.indexOf(screen); follow.show(); };
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
  follow.steps.forEach(screen => {
    go(0, screen);
    const part = screen.parts[0], frame = part.querySelector('.bl-drawing__frame--step');
    found.steps += 1;
    found.offered += frame ? 1 : 0;
    if (frame && frame.checkVisibility() && frame.getBoundingClientRect().width) {
      found.shown += 1; found.small.push(Math.round(frame.querySelector('svg').getBoundingClientRect().width)); }
    found.scroll += main.scrollHeight > main.clientHeight ? 1 : 0;
    found.cut += cuts(part);
    [1, 2, 3, 4].forEach(round => { go(round, screen);
      for (let turn = 0; turn < 12; turn += 1) {
        const card = part.querySelector('.bl-say');
        if (!card) break;
        const before = buttons(); card.click();
        buttons().forEach((top, one) => { if (before.has(one) && !one.matches('.bl-more'))
          found.moved = Math.max(found.moved, Math.abs(top - before.get(one))); }); } });
  });
  return found; };
