/* What search shows: a panel in the page's place, or over a job that is followed step by step. Loaded
   by search.js at the first use of the box; search-find.js does the finding. */
"use strict";
(() => {
  const search = window.benchleafSearch;
  const { input, load } = search;
  const main = /** @type {HTMLElement} */ (document.getElementById("main"));
  const article = /** @type {HTMLElement} */ (main.querySelector("article"));

  const AT_ONCE = 10; // results in one go
  const AT_FIRST = 3; // of these, shown before the texts of the others are there
  const LETTERS = 2; // with fewer, almost everything would be found
  const LINE = 170; // letters of a line that are shown
  const ROOT = new URL(".", new URL(document.body.dataset.home || "", document.baseURI)).href;

  // Parts of the page

  function make(tag, name, text) {
    const element = document.createElement(tag);
    if (name) element.className = name;
    if (text) element.textContent = text;
    return element;
  }

  function button(words, press, name = "bl-results__button") {
    const element = make("button", name, words);
    element.type = "button";
    element.addEventListener("click", press);
    return element;
  }

  function way(words, address, name = "bl-results__button") {
    const link = make("a", name, words);
    link.href = address.startsWith("#") ? address : ROOT + address;
    link.addEventListener("click", close); // the place may be on this very page, which is hidden now
    return link;
  }

  const panel = make("section", "bl-results");
  panel.setAttribute("aria-label", "Search");
  panel.hidden = true;
  const head = make("div", "bl-results__head");
  const count = make("p", "bl-results__count");
  count.setAttribute("role", "status");
  const first = make("div", "bl-first-help");
  const start = make("div", "bl-results__start");
  const notes = make("div", "bl-results__notes");
  const list = make("ol", "bl-results__list");
  const more = button("Show more", showMore);
  more.hidden = true;
  head.append(count, button("Close", leave));
  panel.append(make("h1", "bl-unseen", "Search"), head, first, start, notes, list, more);

  let scrolled = 0;
  const form = /** @type {HTMLFormElement} */ (input.form);
  let formAt = null; // where the box stands in the header, while it is over a step

  const isStepping = () => document.documentElement.classList.contains("bl-stepping");

  function show() {
    if (!panel.isConnected) article.before(panel);
    if (!panel.hidden) return;
    scrolled = window.scrollY;
    panel.hidden = false;
    if (isStepping()) {
      document.body.append(panel); // over the bars of the step, which stays as it is
      panel.classList.add("bl-results--over");
      formAt = make("span", "bl-search__gap");
      form.after(formAt);
      head.prepend(form);
      main.inert = true;
    } else {
      article.hidden = true;
      window.scrollTo(0, 0);
    }
  }

  /** Open with nothing found yet: what to touch, and keys of our own where a finger opened it. */
  async function open(withKeys) {
    show();
    if (withKeys) search.keys?.show(panel, input);
    input.focus({ preventScroll: true });
    if (input.value.trim().length < LETTERS) await begin(); // what was typed meanwhile is being looked for
  }

  async function begin() {
    const mine = ++latest;
    const { told } = await ready();
    if (mine !== latest || panel.hidden) return;
    result = null;
    count.textContent = "";
    notes.replaceChildren();
    list.replaceChildren();
    more.hidden = true;
    first.replaceChildren();
    start.replaceChildren(...beginnings(told.first));
  }

  /** Ways to find without a word: trouble first, then what is seen. */
  function beginnings(help) {
    const troubles = make("div", "bl-results__row bl-results__row--first");
    for (const [title] of help?.kinds || []) {
      troubles.append(button(title, () => { first.replaceChildren(firstHelp(help, title)); first.scrollIntoView({ block: "nearest" }); }));
    }
    const ways = make("div", "bl-results__row");
    ways.append(way("What do you see?", "see.html"), way("Everything from A to Z", "find.html"));
    return [troubles, ways];
  }

  /** Give the page back. */
  function close() {
    latest++;
    input.value = "";
    if (panel.hidden) return;
    panel.hidden = true;
    if (formAt) {
      formAt.replaceWith(form);
      formAt = null;
      panel.classList.remove("bl-results--over");
      main.inert = false;
      article.before(panel);
    }
    article.hidden = false;
    list.replaceChildren();
    first.replaceChildren();
    start.replaceChildren();
    search.keys?.hide();
    if (!isStepping()) window.scrollTo(0, scrolled);
  }

  /** Give the page back, and wait at the box for another word. */
  function leave() {
    const over = isStepping();
    close();
    (over ? document.querySelector("[data-tool='search']") : input)?.focus();
  }

  // Finding

  let finding = null;
  let latest = 0;
  let result = null;

  function ready() {
    finding ||= load("search-find.js").then(async () => {
      const { find, direct, shown, start } = search.finder;
      return { find, direct, shown, told: await start() };
    });
    finding.catch(() => { finding = null; });
    return finding;
  }

  /** Find what stands in the box now; false where another search has overtaken this one. */
  async function look() {
    const mine = ++latest;
    const text = input.value.trim();
    if (text.length < LETTERS) {
      if (!panel.hidden && !text) await (search.keys?.isShown || isStepping() ? begin() : close());
      return false;
    }
    const { find, told } = await ready();
    const found = await find(text);
    if (mine !== latest) return false;
    result = found;
    const top = await rows(0, AT_FIRST);
    if (mine !== latest) return false;
    const help = asksForHelp(told.first, text, found.words);
    first.replaceChildren(...(help ? [firstHelp(told.first, help)] : []));
    start.replaceChildren();
    list.replaceChildren(...top);
    notes.replaceChildren(...(help && !found.places.length ? [] : notesOn(found)));
    count.textContent = help && !found.places.length ? "First of all" : counted(found, text);
    show();
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

  const lists = () => way("Look in the lists", "find.html");

  function lookFor(text) {
    input.value = text;
    input.focus();
    look();
  }

  /** One thing that was found. What the manual says goes in as text, never as HTML. */
  function row({ address, kind, title, under, lines }) {
    const item = make("li");
    const link = make("a", "bl-found");
    link.href = ROOT + address;
    link.append(make("span", "bl-found__kind", kind), marked("bl-found__title", title));
    if (under) link.append(make("span", "bl-found__under", under));
    link.append(...lines.map((line) => marked("bl-found__line", shortened(line))));
    link.addEventListener("click", close); // the place may be on this very page
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

  // Help before all else

  const SMALL = new Set(("a am an and are at be been by do does for from has have he i im in into is it its just me"
    + " my of on or our she that the there they this to too under was we what when where will with").split(" "));

  /** The kind of trouble that somebody's words ask for help with, or nothing. */
  function asksForHelp(help, text, read) {
    const words = text.toLowerCase().replace(/['\u2019]/g, "").split(/[^\p{L}\p{N}]+/u).filter(Boolean);
    const strange = new Set(read.filter((one) => one.readAs || one.near).map((one) => one.word));
    const has = (part) => part.split("|").some((one) => words.some(
      (word) => word === one || (strange.has(word) && isSlip(word, one))));
    const telling = words.filter((word) => !SMALL.has(word)).length || words.length;
    let most = 0, kind = "";
    for (const [title, phrases] of help?.kinds || []) {
      for (const phrase of phrases) {
        const parts = phrase.replace("*", "").toLowerCase().split(" ");
        const own = parts.filter((part) => !SMALL.has(part)).length;
        const isWhole = phrase.endsWith("*") || telling <= own;
        if (parts.length > most && isWhole && parts.every(has)) [most, kind] = [parts.length, title];
      }
    }
    return kind;
  }

  /** True where a word is another with one letter changed, left out, put in, or two swapped. */
  function isSlip(word, other) {
    if (other.length < 4 || word[0] !== other[0]) return false;
    let at = 0;
    while (at < word.length && word[at] === other[at]) at++;
    const [left, right] = [word.slice(at), other.slice(at)];
    const swapped = left.length > 1 && left[1] + left[0] + left.slice(2) === right;
    return left.slice(1) === right.slice(1) || left.slice(1) === right || left === right.slice(1) || swapped;
  }

  /** What the shop says first, whole; then where more stands. */
  function firstHelp(help, title) {
    const box = make("section", "bl-first-help__box");
    box.append(make("h2", "", title), make("p", "bl-first-help__do", help.emergency));
    const call = make("p", "");
    call.append(make("b", "", "Call: "), help.call);
    const ways = make("div", "bl-results__row");
    if (document.getElementById("if-wrong")) ways.append(thisJob());
    ways.append(...help.places.map(([address, words]) => way(words, address)));
    const stops = document.getElementById("machine-controls") ? [["#machine-controls", "this job"]] : help.stops;
    ways.append(...stops.map(([address, name]) => way(`Where to stop: ${name}`, address)));
    box.append(call, ways);
    return box;
  }

  function thisJob() {
    const words = "Something is wrong with this job";
    if (!isStepping()) return way(words, "#if-wrong");
    return button(words, () => { close(); /** @type {HTMLElement} */ (document.querySelector("[data-do='wrong']")).click(); });
  }

  // Keys

  /** Enter: a number leads to its page; one result opens; else the first is offered. */
  async function enter() {
    const text = input.value;
    if (await goTo(text)) return;
    if (!(await look())) return;
    input.focus({ preventScroll: true });
    if (first.firstChild) return; // it is read where it stands
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

  function step(event, by) {
    const stops = [input, ...panel.querySelectorAll(".bl-found, .bl-results__button:not([hidden])")];
    const at = stops.indexOf(document.activeElement);
    if (at < 0) return;
    event.preventDefault();
    stops[Math.max(0, Math.min(stops.length - 1, at + by))].focus();
  }

  /* First of all listeners: over a step, a key for the search is none for the step behind it. */
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && (!panel.hidden || input.value)) leave();
    else if (panel.hidden) return;
    else if (event.key === "ArrowDown") step(event, 1);
    else if (event.key === "ArrowUp") step(event, -1);
    if (isStepping()) event.stopPropagation();
  }, true);

  search.join({ panel: { open, close, enter, ready, search: look, asksForHelp } });
})();
