/* The search of the header: results as you type, by key, by touch, or from a scanner that types.
   Nothing of the index is loaded until search is used; search-find.js does the finding. */
"use strict";
(() => {
  const input = /** @type {HTMLInputElement} */ (document.getElementById("bl-search-input"));
  const article = /** @type {HTMLElement} */ (document.querySelector("#main article"));
  if (!input || !article) return;

  const AT_ONCE = 10; // results in one go
  const AT_FIRST = 3; // of these, shown before the texts of the others are there
  const LETTERS = 2; // with fewer, almost everything would be found
  const PAUSE = 20; // ms after a key, so that a scanner's burst is one search
  const GAP = 50; // ms between keys: a scanner's are closer, a hand's further apart
  const BURST = 4; // keys that make a burst
  const LINE = 170; // letters of a line that are shown
  const ROOT = new URL(".", new URL(document.body.dataset.home || "", document.baseURI)).href;
  const FINDER = new URL("search-find.js", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;

  // Parts of the page

  function make(tag, name, text) {
    const element = document.createElement(tag);
    if (name) element.className = name;
    if (text) element.textContent = text;
    return element;
  }

  function button(words, press) {
    const element = make("button", "bl-results__button", words);
    element.type = "button";
    element.addEventListener("click", press);
    return element;
  }

  const panel = make("section", "bl-results");
  panel.setAttribute("aria-label", "What was found");
  panel.hidden = true;
  const head = make("div", "bl-results__head");
  const count = make("p", "bl-results__count");
  count.setAttribute("role", "status");
  const notes = make("div", "bl-results__notes");
  const list = make("ol", "bl-results__list");
  const more = button("Show more", showMore);
  head.append(count, button("Close", leave));
  panel.append(make("h1", "bl-unseen", "Search"), head, notes, list, more);

  let scrolled = 0;

  function open() {
    if (!panel.hidden) return;
    scrolled = window.scrollY;
    panel.hidden = false;
    article.hidden = true;
    window.scrollTo(0, 0);
  }

  /** Give the page back. */
  function close() {
    latest++;
    input.value = "";
    if (panel.hidden) return;
    panel.hidden = true;
    article.hidden = false;
    list.replaceChildren();
    window.scrollTo(0, scrolled);
  }

  /** Give the page back, and wait at the box for another word. */
  function leave() {
    close();
    input.focus();
  }

  // Finding

  let finder = null;
  let latest = 0;
  let result = null;

  function ready() {
    finder ||= new Promise((resolve, reject) => {
      const script = make("script");
      script.src = FINDER;
      script.onload = () => resolve(window.benchleafFind);
      script.onerror = () => { finder = null; reject(new Error("search did not load")); };
      document.head.append(script);
    }).then((found) => found.start().then(() => found));
    return finder;
  }

  /** Find what stands in the box now; false where another search has overtaken this one. */
  async function search() {
    const mine = ++latest;
    const text = input.value.trim();
    if (text.length < LETTERS) {
      if (!panel.hidden && !text) close();
      return false;
    }
    const found = await (await ready()).find(text);
    if (mine !== latest) return false;
    result = found;
    const first = await rows(0, AT_FIRST);
    if (mine !== latest) return false;
    list.replaceChildren(...first);
    notes.replaceChildren(...notesOn(found));
    count.textContent = counted(found, text);
    open();
    await drawn();
    if (mine === latest) await append(AT_FIRST, AT_ONCE);
    return mine === latest;
  }

  /** The first results are on the screen before more are loaded. */
  const drawn = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));

  async function rows(from, to) {
    const { shown } = await ready();
    const places = result.places.slice(from, to);
    return (await Promise.all(places.map((place) => shown(place, result.words)))).map(row);
  }

  /** Add results to the list, unless another search has begun meanwhile. */
  async function append(from, to) {
    const mine = latest;
    more.hidden = result.places.length <= to;
    const items = await rows(from, to);
    if (mine === latest) list.append(...items);
    return items;
  }

  async function showMore() {
    const shown = list.children.length;
    const items = await append(shown, shown + AT_ONCE);
    items[0].firstChild.focus();
  }

  function counted({ places, words }, text) {
    if (places.length) return places.length === 1 ? "1 found" : `${places.length} found`;
    return words.length > 1 ? "Nothing has all of these words." : `Nothing found for “${text}”.`;
  }

  /** What was made of words that stand nowhere, and what else could be looked for. */
  function notesOn({ places, words }) {
    const found = [];
    for (const { word, readAs, near } of words) {
      if (readAs) found.push(make("p", "", `No page has “${word}”. Shown instead: ${readAs.join(", ")}.`));
      if (near) found.push(make("p", "", `No page has “${word}”.`), ...near.map((one) => instead(words, word, one)));
    }
    if (!places.length && words.length > 1) {
      const known = words.filter((one) => one.found.size && one.word.length > 2);
      const meant = known.map(({ word, readAs }) => (readAs ? readAs[0] : word));
      found.push(...meant.map((word) => button(`Look for “${word}” alone`, () => lookFor(word))));
    }
    if (!places.length) found.push(lists());
    return found;
  }

  /** Look for the same with one word changed, and slips in the others mended. */
  function instead(words, unknown, near) {
    const text = words.map(({ word, readAs }) => (word === unknown ? near : readAs?.[0] || word)).join(" ");
    return button(`Look for “${text}”`, () => lookFor(text));
  }

  function lists() {
    const link = make("a", "bl-results__button", "Look in the lists");
    link.href = `${ROOT}find.html`;
    return link;
  }

  function lookFor(text) {
    input.value = text;
    input.focus();
    search();
  }

  /** One thing that was found. What the manual says goes in as text, never as HTML. */
  function row({ address, kind, title, under, lines }) {
    const item = make("li");
    const link = make("a", "bl-found");
    link.href = ROOT + address;
    link.append(make("span", "bl-found__kind", kind), marked("bl-found__title", title));
    if (under) link.append(make("span", "bl-found__under", under));
    link.append(...lines.map((line) => marked("bl-found__line", shortened(line))));
    // The place may be on this very page, which is hidden now.
    link.addEventListener("click", close);
    item.append(link);
    return item;
  }

  function marked(name, pieces) {
    const element = make("span", name);
    element.append(...pieces.map(([text, isHit]) => (isHit ? make("mark", "", text) : text)));
    return element;
  }

  /** A long line, cut to what stands around the first word that was looked for. */
  function shortened(pieces) {
    if (pieces.reduce((sum, [text]) => sum + text.length, 0) <= LINE) return pieces;
    const [[first, isHit], ...others] = pieces;
    const cut = isHit || first.length < LINE / 2 ? first
      : "… " + first.slice(-LINE / 3).replace(/^\S*\s/, "");
    let left = LINE;
    const kept = [];
    for (const [text, hit] of [[cut, isHit], ...others]) {
      if (left <= 0) break;
      kept.push([text.length <= left ? text : text.slice(0, left).replace(/\s\S*$/, "") + " …", hit]);
      left -= text.length;
    }
    return kept;
  }

  // Keys

  let timer = 0;
  input.addEventListener("focus", () => {
    if (!panel.isConnected) article.before(panel); // early, so that the first count is read out too
    ready().catch(() => {});
  });
  input.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(search, PAUSE);
  });

  /** Enter: a number leads to its page; one result opens; else the first is offered. */
  async function enter() {
    clearTimeout(timer);
    const text = input.value;
    if (await goTo(text)) return;
    if (!(await search())) return;
    const links = list.querySelectorAll("a");
    if (result.places.length === 1) links[0].click();
    else if (links.length) links[0].focus();
  }

  async function goTo(text) {
    const mine = ++latest;
    const address = await (await ready()).direct(text);
    if (!address || mine !== latest) return false;
    close();
    location.href = ROOT + address;
    return true;
  }

  /** @type {HTMLFormElement} */ (input.form).addEventListener("submit", (event) => {
    event.preventDefault();
    enter();
  });

  function step(event, by) {
    const stops = [input, ...panel.querySelectorAll(".bl-found, .bl-results__button:not([hidden])")];
    const at = stops.indexOf(document.activeElement);
    if (at < 0 || panel.hidden) return;
    event.preventDefault();
    stops[Math.max(0, Math.min(stops.length - 1, at + by))].focus();
  }

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && (!panel.hidden || input.value)) leave();
    else if (event.key === "ArrowDown") step(event, 1);
    else if (event.key === "ArrowUp") step(event, -1);
  });

  // A scanner types a number as a burst of keys and ends with Enter, wherever the focus is.

  let burst = "";
  let last = 0;

  document.addEventListener("keydown", (event) => {
    const gap = event.timeStamp - last;
    last = event.timeStamp;
    if (event.key === "Enter") {
      if (gap <= GAP && burst.length >= BURST && mayScan()) scan(event);
      burst = "";
    } else if (event.key.length === 1 && !event.ctrlKey && !event.altKey && !event.metaKey) {
      burst = gap <= GAP ? burst + event.key : event.key;
    }
  }, true);

  /** Not while someone types elsewhere, reads step by step or answers a question. */
  function mayScan() {
    const at = document.activeElement;
    const elsewhere = at !== input && at?.matches("input:not([type='checkbox']), textarea, select, [contenteditable]");
    return !elsewhere && !document.querySelector("dialog[open], html.bl-stepping");
  }

  function scan(event) {
    event.preventDefault();
    event.stopPropagation();
    input.value = burst;
    input.focus();
    enter();
  }

  // The next person finds an empty box, also where the browser keeps what was typed.
  window.addEventListener("pageshow", (event) => { if (!event.persisted) input.value = ""; });
})();
