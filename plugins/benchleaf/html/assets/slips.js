/* *This page is wrong* makes a slip: job, step, revision and ready words, nothing about a person.
   Slips stay on this computer, whoever goes home, until they are taken off as a file or a text. */
(function () {
  "use strict";
  const KEY = "slips.kept"; /* not among what going home forgets: an engineer waits for them */
  const HEAD = "job; step; revision; what is wrong";
  const WHOLE = "whole page";
  const place = /** @type {HTMLElement | null} */ (document.querySelector("[data-slips]"));
  const given = /** @type {HTMLTemplateElement | null} */ (document.getElementById("bl-slip-words"));
  if (!place || !given) return;

  const words = Array.from(given.content.children, (one) => one.textContent || "");
  const follow = document.getElementById("follow");
  let step = /** @type {HTMLElement | null} */ (null); /* the one that was shown last */
  let held = /** @type {string[]} */ ([]); /* where the browser keeps nothing */

  function slips() {
    try {
      const kept = JSON.parse(localStorage.getItem(KEY) || "[]");
      return Array.isArray(kept) ? kept.map(String) : held;
    } catch (error) {
      return held;
    }
  }

  /** @param {string[]} lines */
  function keep(lines) {
    held = lines;
    try {
      if (lines.length) localStorage.setItem(KEY, JSON.stringify(lines));
      else localStorage.removeItem(KEY);
      return true;
    } catch (error) {
      return false;
    }
  }

  /** @param {string} tag @param {string} css @param {string} text */
  function make(tag, css, text) {
    const element = document.createElement(tag);
    if (css) element.className = css;
    element.textContent = text;
    if (tag === "button") element.setAttribute("type", "button");
    return element;
  }

  /** @param {string} text @param {() => void} act @param {string} [css] */
  function button(text, act, css) {
    const made = make("button", css || "bl-slips__act", text);
    made.addEventListener("click", act);
    return made;
  }

  /* A slip that is open stands over the page, the step view too */
  const sheet = /** @type {HTMLDialogElement} */ (document.createElement("dialog"));
  sheet.className = "bl-slip";
  sheet.setAttribute("aria-labelledby", "bl-slip-title");
  document.body.append(sheet);

  /** @param {string} title @param {...Element} parts */
  function show(title, ...parts) {
    const head = make("h2", "", title);
    head.id = "bl-slip-title";
    sheet.replaceChildren(head, ...parts);
    window.benchleafSheet("slips.css").then(() => {
      if (!sheet.open) sheet.showModal();
      head.tabIndex = -1;
      head.focus();
    });
  }

  function stepTitle() {
    const title = step && step.querySelector(".bl-step__title");
    return title ? (title.textContent || "").trim().replace(/\s+/g, " ") : "";
  }

  function ask() {
    if (!follow) {
      choosePage();
      return;
    }
    const about = follow.dataset;
    const where = step ? stepTitle() : "The whole page";
    const list = document.createElement("div");
    list.className = "bl-slip__words";
    words.forEach((what) => {
      const line = [about.number, step ? step.id : WHOLE, about.issue, what].join("; ");
      list.append(button(what.charAt(0).toUpperCase() + what.slice(1), () => done(line), "bl-slip__word"));
    });
    const at = make("p", "bl-slip__where", about.number + ", " + about.issue + ". " + where);
    const parts = [at, list];
    if (step) parts.push(button("Not this step: the whole page", () => { step = null; ask(); }));
    show("What is wrong on this page?", ...parts, button("Close", () => sheet.close()));
  }

  function choosePage() {
    show("Which page is wrong?",
      make("p", "", "Open the page of the job, and touch Something is wrong there. Then the slip knows job, step and revision."),
      button("Close", () => sheet.close()));
  }

  /** @param {string} line */
  function done(line) {
    const isKept = keep([...slips(), line]);
    const more = line.endsWith(words[0]) ? " Stop, and tell your trainer or the shift lead now: a slip is read later." : "";
    const said = isKept
      ? "The slip is kept on this computer, with no name on it." + more
      : "This browser keeps nothing. Write a slip on paper." + more;
    show("Thank you", make("p", "", said), button("Close", () => sheet.close(), "bl-slips__act bl-slips__act--main"));
    list();
  }

  function asText() {
    return [HEAD, ...slips()].join("\r\n") + "\r\n";
  }

  function save() {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([asText()], { type: "text/plain" }));
    link.download = "slips.txt";
    link.click();
    URL.revokeObjectURL(link.href);
  }

  /* Only what was shown is taken away: a slip that another tab has made meanwhile stays */
  function clear() {
    const seen = slips();
    show("Are they saved, printed or copied?",
      make("p", "", count(seen.length) + " will be taken off this computer for good."),
      button("Take them off", () => {
        const now = slips();
        keep(seen.every((line, index) => line === now[index]) ? now.slice(seen.length) : now);
        sheet.close();
        list();
      }),
      button("Keep them", () => sheet.close(), "bl-slips__act bl-slips__act--main"));
  }

  /** @param {number} many */
  function count(many) {
    return many + (many === 1 ? " slip" : " slips");
  }

  /* The engineer's part, on the page of the shop: what is kept here, and how it is taken off */
  function list() {
    if (!place || place.dataset.lists === undefined) return;
    const old = document.querySelector(".bl-slips__kept");
    if (old) old.remove();
    const kept = slips();
    if (!kept.length) return;
    const box = make("div", "bl-slips__kept", "");
    box.append(make("h2", "", count(kept.length) + " on this computer"), make("pre", "bl-slips__text", asText().trim()));
    box.append(button("Save as a file", save), button("Print", () => window.print()), button("Take them off", clear));
    place.after(box);
  }

  document.addEventListener("click", (event) => {
    if (/** @type {Element} */ (event.target).closest("[data-slip='make']")) ask();
  });
  document.addEventListener("benchleaf:screen", () => {
    const now = /** @type {HTMLElement | null} */ (document.querySelector(".bl-step.bl-now"));
    const isOver = document.querySelector(".bl-now[data-screen='wrong'], .bl-extra.bl-now");
    if (now) step = now;
    else if (!isOver) step = null;
  });
  ["benchleaf:left", "benchleaf:reset"].forEach((name) => document.addEventListener(name, () => {
    step = null;
    if (sheet.open) sheet.close();
  }));
  list();
})();
