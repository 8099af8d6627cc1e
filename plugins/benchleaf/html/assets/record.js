/* The record of a session at the bench: who, steps by rounds, pieces by the watch, result.
   An open one is kept on this device, under a name that going home does not clear, until its file
   has been saved and read back. After a while without a touch nothing about anybody is shown. */
(function () {
  "use strict";
  const root = /** @type {HTMLElement} */ (document.querySelector("[data-record]"));
  const veil = /** @type {HTMLElement} */ (document.querySelector("[data-veil]"));
  if (!root || !veil) return;
  const facts = root.dataset;
  const KEY = "record." + String(facts.job).toLowerCase();
  const HIDE_AFTER = 120000; /* ms without a touch: a house value */
  const SHORTEST = 1; /* s: a finger may touch twice */
  const FIELDS = ["person", "by", "day", "last", "language", "before", "learned", "helper", "next", "paper", "replaces"];
  const { fresh, clockOf, dayOf } = window.benchleafRecord;
  const open = /** @type {HTMLElement} */ (root.querySelector("[data-open]"));
  const status = /** @type {HTMLElement} */ (root.querySelector("[data-said]"));
  const back = /** @type {HTMLElement} */ (root.querySelector("[data-back]"));
  const clock = /** @type {HTMLElement} */ (root.querySelector(".bl-booked__clock"));
  let touched = Date.now();
  let sure = ""; /* which button was touched once that asks for two */
  let isKeeping = true;

  let now = fresh();

  function restore() {
    try {
      const kept = JSON.parse(localStorage.getItem(KEY) || "null");
      if (kept && typeof kept.kind === "string" && kept.kind) now = Object.assign(fresh(), kept);
    } catch (error) {
      isKeeping = false;
    }
  }

  function keep() {
    try {
      if (now.kind) localStorage.setItem(KEY, JSON.stringify(now));
      else localStorage.removeItem(KEY);
    } catch (error) {
      isKeeping = false;
    }
  }

  /* Every touch that says something moves the end of the session */
  function changed() {
    now.ended = Date.now();
    sure = "";
    keep();
    show();
  }

  function all(selector) {
    return /** @type {HTMLElement[]} */ (Array.from(root.querySelectorAll(selector)));
  }

  function input(name) {
    return /** @type {HTMLInputElement} */ (root.querySelector("[name='" + name + "']"));
  }

  /** @param {string | undefined} id */
  function stepOf(id) {
    return window.benchleafRecord.step(now, String(id));
  }

  function text() {
    return window.benchleafRecord.text(now, facts, all("[data-step]").map((one) => one.dataset));
  }

  function say(words) {
    status.textContent = words;
  }

  /* What is shown follows from what is kept, and from nothing else */
  function show() {
    open.hidden = !now.kind;
    all("[data-kind]").forEach((one) => { one.setAttribute("aria-pressed", String(one.dataset.kind === now.kind)); });
    all("[data-for]").forEach((one) => { one.hidden = !String(one.dataset.for).split(" ").includes(now.kind); });
    all("[data-codes], .bl-booked__codes").forEach((one) => {
      const button = /** @type {HTMLElement} */ (one.querySelector("[data-pick]"));
      one.hidden = Boolean(now.fields[String(button.dataset.pick)]);
    });
    all("[data-toggle]").forEach((one) => {
      one.setAttribute("aria-pressed", String(Boolean(now.marks[one.dataset.toggle + " " + one.dataset.value])));
    });
    all("[data-result]").forEach((one) => { one.setAttribute("aria-pressed", String(one.dataset.result === now.result)); });
    FIELDS.forEach((name) => {
      const field = input(name);
      if (field && field.value !== (now.fields[name] || "")) field.value = now.fields[name] || "";
    });
    all("[data-shown='begun']").forEach((one) => { one.textContent = now.begun ? clockOf(now.begun) : ""; });
    all("[data-shown='ended']").forEach((one) => { one.textContent = now.ended ? clockOf(now.ended) : ""; });
    all("[data-step]").forEach(showStep);
    showRounds();
    showPieces();
    back.hidden = !now.saved;
    showWatch();
  }

  function cell(seen, button, of) {
    const counted = button.dataset.hides === "points" ? seen.points : seen.reasons;
    const counts = button.dataset.hides === "points" || button.dataset.hides === "reasons";
    if (counts) return { text: (counted === null ? "–" : counted) + " of " + of, right: counted === of };
    const right = seen.right.includes(Number(button.dataset.round));
    return { text: right ? "right" : "", right };
  }

  function showStep(row) {
    const seen = stepOf(row.dataset.step);
    row.querySelectorAll("[data-round]").forEach((button) => {
      const found = cell(seen, button, Number(row.dataset.of));
      button.querySelector("[data-cell]").textContent = found.text;
      button.setAttribute("aria-pressed", String(found.right));
    });
    row.querySelector("[data-errors]").textContent = String(seen.errors);
    row.querySelector("[data-hard]").setAttribute("aria-pressed", String(seen.hard));
  }

  function showRounds() {
    const rows = all("[data-step]");
    const whole = ["1", "2", "3", "4"].filter((round) => rows.every((row) => {
      const button = row.querySelector("[data-round='" + round + "']");
      return button && button.getAttribute("aria-pressed") === "true";
    }));
    const words = whole.length ? "Rounds that are whole: " + whole.join(", ") : "No round is whole yet. What is ticked is kept.";
    all("[data-shown='rounds']").forEach((one) => { one.textContent = words; });
  }

  function make(words, act, pressed) {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "bl-booked__touch";
    made.textContent = words;
    if (pressed !== undefined) made.setAttribute("aria-pressed", String(pressed));
    made.addEventListener("click", act);
    return made;
  }

  function showPieces() {
    const list = /** @type {HTMLElement} */ (root.querySelector("[data-shown='pieces']"));
    list.replaceChildren(...now.pieces.map((piece, index) => {
      const row = document.createElement("li");
      const words = document.createElement("b");
      words.textContent = "Piece " + (index + 1) + (piece.seconds === null ? ", not timed" : ", " + piece.seconds + " s");
      row.append(words);
      ["good", "not good", "not gauged"].forEach((one) => {
        const label = one.charAt(0).toUpperCase() + one.slice(1);
        row.append(make(label, () => { piece.gauge = one; changed(); }, piece.gauge === one));
      });
      if (index === now.pieces.length - 1) row.append(make("Take it out", () => { now.pieces.pop(); changed(); }));
      return row;
    }));
  }

  function seconds() {
    return now.watch ? (Date.now() - now.watch) / 1000 : 0;
  }

  function showWatch() {
    const button = /** @type {HTMLElement} */ (root.querySelector("[data-do='watch']"));
    const words = now.watch ? "The piece is done" : "Start a piece";
    if (button.textContent !== words) button.textContent = words;
    const text = seconds().toFixed(1) + " s";
    clock.textContent = text;
    const other = veil.querySelector("[data-veil-clock]");
    if (other) other.textContent = now.watch ? text : "";
  }

  function watch() {
    if (!now.watch) {
      now.watch = Date.now(); /* the time of day: it goes on where the page is loaded anew */
    } else if (seconds() < SHORTEST) {
      say("That was a double touch: the watch goes on.");
      return;
    } else {
      now.pieces.push({ seconds: Math.round(seconds() * 10) / 10, gauge: "not gauged" });
      now.watch = 0;
      say("Piece " + now.pieces.length + " is written.");
    }
    changed();
  }

  function begin(kind) {
    const isOther = now.kind && now.kind !== kind;
    if (!now.kind) now.begun = Date.now();
    now.kind = kind;
    if (!now.fields.day) now.fields.day = dayOf(Date.now());
    say(isOther ? "What was written stays, as far as this kind of record has it." : "");
    changed();
  }

  function countOn(seen, button) {
    const key = button.dataset.hides;
    if (key === "points" || key === "reasons") {
      const of = Number(button.closest("[data-step]").dataset.of);
      const count = seen[key]; /* none, 1 .. all, 0, none */
      seen[key] = count === null ? 1 : count === 0 ? null : count < of ? count + 1 : 0;
    } else {
      const round = Number(button.dataset.round);
      seen.right = seen.right.includes(round) ? seen.right.filter((one) => one !== round) : seen.right.concat(round).sort();
    }
  }

  function save() {
    const why = window.benchleafRecord.lacking(now);
    if (why) {
      say(why);
      return;
    }
    now.saved = text();
    keep();
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([now.saved], { type: "text/yaml" }));
    link.download = (now.saved.match(/^day: (.*)$/m) || ["", "record"])[1] + "-" + now.fields.person.trim().toLowerCase() + "-" + String(facts.job).toLowerCase() + ".yml";
    link.click();
    URL.revokeObjectURL(link.href);
    show();
    say(link.download + " is saved. Choose it below, so that it is read back.");
  }

  /** @param {File} file */
  function readBack(file) {
    file.text().then((found) => {
      if (found === now.saved && found === text()) {
        clear();
        say("Read back: " + file.name + " is whole. This screen has forgotten it. Give the file to `benchleaf book`.");
      } else if (found === now.saved) {
        say("You wrote more after saving. Save again, and choose the new file.");
      } else {
        say("This is another file, or not whole. Nothing is forgotten. Save again.");
      }
    }, () => say("The file cannot be read. Nothing is forgotten. Save again."));
  }

  function clear() {
    now = fresh();
    keep();
    all("input").forEach((one) => { /** @type {HTMLInputElement} */ (one).value = ""; });
    show();
  }

  function away() {
    if (sure !== "away") {
      sure = "away";
      say("What is not saved will be lost. Touch Throw away again to lose it.");
      return;
    }
    clear();
    say("Thrown away.");
  }

  function scanned(field) {
    const found = field.value.trim().replace(/\s+/g, " ").toLowerCase();
    if (!found) return;
    const isSame = found === String(facts.mark).toLowerCase();
    say(isSame ? "The paper is of this page." : "This paper is of another job or revision: " + found.toUpperCase() + ". Print it anew.");
  }

  function hide() {
    if (!now.kind || !veil.hidden) return;
    veil.hidden = false;
    root.hidden = true; /* not only covered: no code is left for a reader's aid either */
    /** @type {HTMLElement} */ (veil.querySelector("button")).focus();
  }

  function lift() {
    touched = Date.now();
    veil.hidden = true;
    root.hidden = false;
    show();
  }

  /** @param {string} name @param {string} value */
  function toggle(name, value) {
    const key = name + " " + value;
    now.marks[key] = !now.marks[key];
    if (now.marks[key] && ["found", "right"].includes(name)) now.marks["set " + value] = true;
  }

  /* What a touch does, by the first of these that its button has */
  const ACTS = /** @type {Record<string, (button: HTMLElement, seen: any) => void>} */ ({
    pick: (button) => { now.fields[String(button.dataset.pick)] = String(button.dataset.value); },
    toggle: (button) => toggle(String(button.dataset.toggle), String(button.dataset.value)),
    result: (button) => { now.result = now.result === button.dataset.result ? "" : String(button.dataset.result); },
    round: (button, seen) => countOn(seen, button),
    more: (_, seen) => { seen.errors += 1; },
    less: (_, seen) => { seen.errors = Math.max(0, seen.errors - 1); },
    hard: (_, seen) => { seen.hard = !seen.hard; },
  });
  const DOES = /** @type {Record<string, () => void>} */ ({
    watch, save, away,
    untimed: () => {
      now.pieces.push({ seconds: null, gauge: "not gauged" });
      changed();
    },
  });

  root.addEventListener("click", (event) => {
    const button = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("button"));
    if (!button) return;
    const row = /** @type {HTMLElement | null} */ (button.closest("[data-step]"));
    const act = Object.keys(ACTS).find((name) => button.dataset[name] !== undefined);
    if (button.dataset.kind) begin(button.dataset.kind);
    else if (button.dataset.do) DOES[button.dataset.do]();
    else if (act) {
      ACTS[act](button, row ? stepOf(row.dataset.step) : null);
      changed();
    }
  });
  root.addEventListener("input", (event) => {
    const field = /** @type {HTMLInputElement} */ (event.target);
    if (field.type === "file" || field.name === "scanned") return;
    now.fields[field.name] = field.name === "before" ? field.value.replace(/\D/g, "") : field.value;
    changed();
  });
  root.addEventListener("change", (event) => {
    const field = /** @type {HTMLInputElement} */ (event.target);
    if (field.name === "scanned") scanned(field);
    if (field.type === "file" && field.files && field.files[0]) readBack(field.files[0]);
  });
  veil.addEventListener("click", lift);
  ["pointerdown", "keydown", "input"].forEach((name) => {
    window.addEventListener(name, () => { touched = Date.now(); }, { capture: true, passive: true });
  });
  setInterval(() => {
    showWatch();
    if (Date.now() - touched >= HIDE_AFTER) hide();
  }, 100);

  document.body.dataset.idle = "0"; /* it hides what it shows by itself, and keeps the session */
  restore();
  show();
  if (now.kind) hide();
  else root.hidden = false;
  if (!isKeeping) say("This browser keeps nothing. Save as a file before you leave the page.");
})();
