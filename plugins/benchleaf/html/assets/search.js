/* The box of the header. All else of search is loaded at its first use (search-panel.js), and the keys
   of our own only where a finger opens it. A scanner that types is heard at any time. */
"use strict";
(() => {
  const input = /** @type {HTMLInputElement} */ (document.getElementById("bl-search-input"));
  if (!input || !document.querySelector("#main article")) return;

  const PAUSE = 20; // ms after a key, so that a scanner's burst is one search
  const GAP = 50; // ms between keys: a scanner's are closer, a hand's further apart
  const BURST = 4; // keys that make a burst
  const NARROW = 600; // px: a telephone brings its own keys
  const FOLDER = new URL(".", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;

  const loads = new Map();

  /** Load a script of ours once; a page from disk can fetch nothing else. */
  function load(name) {
    if (!loads.has(name)) {
      loads.set(name, new Promise((resolve, reject) => {
        const script = document.createElement("script");
        script.src = FOLDER + name;
        script.onload = resolve;
        script.onerror = () => { loads.delete(name); reject(new Error(`${name} did not load`)); };
        document.head.append(script);
      }));
    }
    return loads.get(name);
  }

  /* What comes later hands itself in by `join` */
  /** @type {BenchleafSearch} */
  const search = { input, load, join: (part) => { Object.assign(search, part); } };
  window.benchleafSearch = search;
  const panel = () => Promise.all([load("search-panel.js"), window.benchleafSheet("search.css")]).then(() => /** @type {BenchleafPanel} */ (search.panel));

  let byFinger = false; // whether the last touch was a finger's: then no keyboard may be at hand

  /** Where a finger opens the box on a wide screen, keys of our own come, and no system's. */
  const wantsKeys = () => byFinger && innerWidth >= NARROW;

  function noteTouch(event) {
    byFinger = event.pointerType !== "mouse";
    if (event.target.closest(".bl-search, [data-tool='search']")) input.inputMode = wantsKeys() ? "none" : "search";
  }

  async function open() {
    const shown = await panel();
    if (wantsKeys()) await load("search-keys.js");
    shown.open(wantsKeys());
  }

  document.addEventListener("pointerdown", noteTouch, true);
  input.addEventListener("focus", () => { panel().then((one) => one.ready()).catch(() => {}); });
  input.addEventListener("click", () => { if (byFinger) open(); });
  document.querySelectorAll("[data-tool='search']").forEach((one) => one.addEventListener("click", open));

  let timer = 0;
  input.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(() => panel().then((one) => one.search()), PAUSE);
  });
  /** @type {HTMLFormElement} */ (input.form).addEventListener("submit", (event) => {
    event.preventDefault();
    clearTimeout(timer);
    panel().then((one) => one.enter());
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
    clearTimeout(timer);
    input.value = burst;
    panel().then((one) => one.enter());
  }

  // The next person finds an empty box, also where the browser keeps what was typed.
  window.addEventListener("pageshow", (event) => { if (!event.persisted) input.value = ""; });
  document.addEventListener("benchleaf:reset", () => search.panel?.close());
})();
