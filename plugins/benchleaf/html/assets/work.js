/* At work: what the page says of hazards, stop, figures and steps, with the checks and a count to the
   next. The style sheet leaves the rest out. The count is of this sitting, and going home forgets it. */
(function () {
  "use strict";
  const work = /** @type {HTMLElement} */ (document.querySelector(".bl-work"));
  if (!work) return;

  const root = document.documentElement;
  const HASH = "#bl-at-work";
  const KEPT = "benchleaf.work." + work.dataset.work;
  const DOUBLE = 400; /* ms: a second touch within them is the same finger, once more */
  const checks = /** @type {HTMLElement[]} */ (Array.from(work.querySelectorAll("[data-every]")));
  const box = /** @type {HTMLElement | null} */ (work.querySelector("[data-count]"));
  const state = { pieces: 0, gauged: 0 }; /* `gauged`: the count at which a due check was last made */
  let touched = -DOUBLE;

  function recall() {
    try {
      Object.assign(state, JSON.parse(sessionStorage.getItem(KEPT) || "{}"));
    } catch (error) {
      /* nothing usable was kept */
    }
  }

  function keep() {
    try {
      sessionStorage.setItem(KEPT, JSON.stringify(state));
    } catch (error) {
      /* then it holds while the page is open */
    }
  }

  /** @param {HTMLElement} check @param {number} pieces */
  function isDueAt(check, pieces) {
    /* The first-off is measured whole, whatever the words say of the pieces after it */
    if (pieces === 1 && check.dataset.first !== undefined) return true;
    const every = Number(check.dataset.every);
    return every > 0 && pieces > 0 && pieces % every === 0;
  }

  /* What came due since the last check stays due until it is made */
  function due() {
    return checks.filter((check) => {
      for (let piece = state.gauged + 1; piece <= state.pieces; piece += 1) {
        if (isDueAt(check, piece)) return true;
      }
      return false;
    });
  }

  function toNext() {
    let more = 1;
    while (!checks.some((check) => isDueAt(check, state.pieces + more))) more += 1;
    return more;
  }

  /** @param {number} count */
  function pieces(count) {
    return count + (count === 1 ? " piece" : " pieces");
  }

  function show() {
    if (!box) return;
    const now = due();
    checks.forEach((check) => check.classList.toggle("bl-work__check--due", now.includes(check)));
    box.classList.toggle("bl-work__count--due", now.length > 0);
    const said = /** @type {HTMLElement} */ (box.querySelector(".bl-work__due"));
    said.replaceChildren();
    const head = document.createElement("b");
    head.textContent = now.length ? "Gauge now" : pieces(state.pieces) + " done";
    said.append(head);
    now.forEach((check) => {
      const line = document.createElement("span");
      const limits = check.querySelector(".bl-work__limits");
      line.textContent = [check.querySelector(".bl-work__what"), limits]
        .map((one) => (one ? (one.textContent || "").trim().replace(/\s+/g, " ") : ""))
        .filter(Boolean)
        .join(": ");
      said.append(line);
    });
    if (!now.length) {
      const line = document.createElement("span");
      line.textContent = "Gauge after " + pieces(toNext()) + " more";
      said.append(line);
    }
    const done = /** @type {HTMLElement} */ (box.querySelector(".bl-work__done"));
    done.textContent = now.length ? "Gauged, and good" : "One piece done";
    done.dataset.workDo = now.length ? "gauged" : "done";
    const less = /** @type {HTMLButtonElement} */ (box.querySelector("[data-work-do='less']"));
    less.disabled = state.pieces === 0;
  }

  /** @type {Record<string, () => void>} */
  const ACTIONS = {
    done: () => {
      state.pieces += 1;
    },
    gauged: () => {
      state.gauged = state.pieces;
    },
    less: () => {
      state.pieces = Math.max(0, state.pieces - 1);
      state.gauged = Math.min(state.gauged, state.pieces);
    },
    anew: () => {
      Object.assign(state, { pieces: 0, gauged: 0 });
    },
  };

  work.addEventListener("click", (event) => {
    const button = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-work-do]"));
    if (!button) return;
    const isSame = event.detail > 0 && event.timeStamp - touched < DOUBLE;
    touched = event.timeStamp;
    if (isSame) return;
    ACTIONS[button.dataset.workDo || ""]();
    keep();
    show();
  });

  function followTheAddress() {
    if (location.hash === HASH) window.benchleafSheet("work.css").then(change);
    else change();
  }

  function change() {
    const on = location.hash === HASH;
    if (on === root.classList.contains("bl-working")) return;
    root.classList.toggle("bl-working", on);
    work.hidden = !on;
    if (on) show();
    scrollTo(0, 0);
  }

  document.addEventListener("benchleaf:reset", () => {
    ACTIONS.anew();
    keep();
    if (location.hash === HASH) history.replaceState(null, "", location.pathname + location.search);
    followTheAddress();
  });
  window.addEventListener("hashchange", followTheAddress);
  /* The count stands over the page, whose end can be moved clear of it */
  if (box) new ResizeObserver(() => root.style.setProperty("--bl-count", box.offsetHeight + "px")).observe(box);
  recall();
  followTheAddress();
})();
