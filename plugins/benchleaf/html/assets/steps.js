/* One step at a time: the job page's own sections, one a screen, between two bars.
   Nothing is copied: a style sheet shows what stands in the class bl-now. */
(function () {
  "use strict";
  const top = /** @type {HTMLElement} */ (document.getElementById("follow"));
  if (!top) return; /* a job that must not be run has no such view */

  const root = document.documentElement;
  const stage = /** @type {HTMLElement} */ (document.getElementById("main"));
  const article = /** @type {HTMLElement} */ (stage.querySelector(".bl-article"));
  const bottom = /** @type {HTMLElement} */ (article.querySelector(".bl-bottom"));
  const extra = /** @type {HTMLElement} */ (article.querySelector("[data-extra]"));
  const more = /** @type {HTMLElement} */ (article.querySelector("[data-do='more']"));
  const KEPT = "benchleaf.follow." + top.dataset.job + "." + top.dataset.issue;
  const DOUBLE = 400; /* ms: a second touch within them is the same finger, once more */
  const NEXT_KEYS = ["PageDown", " ", "ArrowRight", "ArrowDown"];
  const BACK_KEYS = ["PageUp", "ArrowLeft", "ArrowUp"];
  if (document.body.dataset.pedalNext) NEXT_KEYS.push(document.body.dataset.pedalNext);
  if (document.body.dataset.pedalBack) BACK_KEYS.push(document.body.dataset.pedalBack);

  const screens = collect();
  const state = fresh();
  const parts = window.benchleafParts(article, state);
  const rack = window.benchleafRack(article, top, parts);
  const room = window.benchleafFit(article, stage, bottom, parts);
  const hazards = window.benchleafHazards(article, state, goOn);
  let overlay = null; /* what covers the job for a moment: all steps, rounds, trouble, check */

  function fresh() {
    return { round: 0, at: 0, part: 0, partOf: "", told: {}, read: {} };
  }

  function collect() {
    const found = [];
    article.querySelectorAll("[data-screen]").forEach((part) => {
      const name = part.dataset.screen;
      if (name === "wrong") return;
      let screen = found.find((one) => one.name === name);
      if (!screen) {
        screen = { name, label: part.dataset.label || "", step: Number(part.dataset.step || 0), parts: [] };
        found.push(screen);
      }
      screen.parts.push(part);
    });
    return found;
  }

  /* What rounds.js hands in, once, by `join` */
  /** @type {BenchleafJoined} */
  const joined = {
    veil () {},
    roundName () {
      return "";
    },
    end () {},
  };

  /** @type {BenchleafFollow} */
  const follow = {
    screens,
    state,
    steps: screens.filter((one) => one.step),
    isOn () {
      return root.classList.contains("bl-stepping");
    },
    veil (screen, shut) {
      joined.veil(screen, shut);
    },
    join (parts, actions) {
      Object.assign(joined, parts);
      Object.assign(ACTIONS, actions);
    },
    act (name) {
      ACTIONS[name]();
    },
    show,
    parts,
    isOver: room.isOver,
    cover,
    start (round) {
      state.round = round;
      state.at = 0;
      show();
    },
    /* `place` stands in one of the step's parts: that one is opened */
    goTo (screen, place) {
      state.at = firstUnread(screens.indexOf(screen));
      parts.holding(screen, place);
      show();
    },
    markRead: hazards.markRead,
    again: DOUBLE,
  };
  window.benchleafFollow = follow;

  /* Hazards come before anything else of their screen (hazards.js) */
  function goOn(screen) {
    hazards.markRead(screen);
    if (!screen.step) state.at += 1; /* a screen of hazards and nothing else */
    show();
  }

  function firstUnread(wanted) {
    for (let i = 0; i < wanted; i += 1) {
      if (!screens[i].step && hazards.isShut(screens[i])) return i;
    }
    return wanted;
  }

  /* Showing a screen */
  function clear() {
    article.querySelectorAll(".bl-now").forEach((one) => {
      one.classList.remove("bl-now");
    });
    extra.hidden = true;
    extra.replaceChildren();
  }

  function show() {
    overlay = null;
    clear();
    joined.veil(null, false); /* the tooth is as high as the title without its card */
    const screen = screens[state.at];
    let shut = false;
    if (screen) {
      shut = hazards.gate(screen);
      screen.parts.forEach((part) => {
        part.classList.add("bl-now");
      });
      parts.lay(screen, shut);
    } else {
      parts.lay(null);
      extra.hidden = false;
      extra.classList.add("bl-now");
      joined.end(extra);
    }
    bars(screen, shut);
    keep();
    room.fit(); /* as it is with every card turned, so that nothing moves when one is */
    joined.veil(screen || null, shut);
    settle();
  }

  function cover(name, fill) {
    clear();
    parts.lay(null);
    overlay = name;
    extra.hidden = false;
    extra.classList.add("bl-now");
    fill(extra);
    bars(screens[state.at], false);
    room.fit();
    settle();
  }

  function settle() {
    stage.scrollTop = 0;
    const goals = Array.from(article.querySelectorAll(".bl-now"), (part) =>
      part.querySelector(part.matches(".bl-step.bl-shut") ? ".bl-step__before" : ".bl-say, h2, h3")
    );
    const goal = goals.find(Boolean);
    if (goal) {
      if (goal.tabIndex < 0) goal.tabIndex = -1;
      goal.focus({ preventScroll: true });
    }
    room.cue();
    document.dispatchEvent(new CustomEvent("benchleaf:screen"));
  }

  /* What stands on the page shown for a moment; Close leads back */
  function over(name, shown) {
    clear();
    parts.lay(null);
    overlay = name;
    shown.forEach((part) => {
      part.classList.add("bl-now");
    });
    bars(screens[state.at], false);
    room.fit();
    settle();
  }

  function count(screen) {
    if (!screen) return state.round ? "The end of the round" : "The end of the job";
    if (screen.step) return "Step " + screen.step + " of " + follow.steps.length + parts.told();
    const same = screens.filter((one) => one.label === screen.label);
    return same.length > 1 ? screen.label + ", " + (same.indexOf(screen) + 1) + " of " + same.length : screen.label;
  }

  function bars(screen, shut) {
    const back = /** @type {HTMLButtonElement} */ (bottom.querySelector("[data-do='back']"));
    const next = /** @type {HTMLElement} */ (bottom.querySelector("[data-do='next']"));
    label(back, overlay ? "Close" : "Back", overlay ? "" : leadsTo(-1));
    back.disabled = !overlay && state.at === 0;
    next.hidden = Boolean(overlay) || !screen;
    next.setAttribute("aria-disabled", String(shut && hazards.needsTouch(screen) && !parts.hasNext()));
    label(next, screen && screen.step && !shut && screens[state.at + 1] && screens[state.at + 1].step && !parts.hasNext() ? "Next step" : "Next", leadsTo(1));
    /** @type {HTMLElement} */ (top.querySelector("[data-do='all']")).hidden = Boolean(overlay);
    /** @type {HTMLElement} */ (top.querySelector(".bl-bottom__count")).textContent = overlay ? "" : count(screen);
    /** @type {HTMLElement} */ (top.querySelector("[data-do='rounds']")).textContent = joined.roundName();
    rack.show(screen, shut, state.at > screens.indexOf(follow.steps[0]), Boolean(overlay));
  }

  /* What a button leads to stands small beneath its word: a number, and the letter of a part */
  function label(button, word, where) {
    button.textContent = word;
    button.dataset.where = where;
  }

  function leadsTo(by) {
    const screen = screens[state.at];
    const letter = parts.letterAt(by);
    if (screen && letter) return screen.step + " " + letter;
    if (by > 0 && screen && hazards.isShut(screen)) return "";
    const other = screens[state.at + by];
    return other && other.step ? String(other.step) : "";
  }

  /* Moving */
  function next() {
    if (overlay || !screens[state.at]) return;
    const screen = screens[state.at];
    if (!isKeptBack(screen) && parts.turn(1)) {
      show();
      return;
    }
    if (hazards.isShut(screen)) {
      if (hazards.needsTouch(screen)) hazards.ask();
      else goOn(screen);
      return;
    }
    state.at += 1;
    show();
  }

  /* A step whose title is still to be said has no second part to go to */
  function isKeptBack(screen) {
    return Boolean(screen.step && screen.parts[0].querySelector(".bl-step__title[data-veiled]"));
  }

  function back() {
    if (overlay || parts.turn(-1)) {
      show();
    } else if (state.at > 0) {
      state.at -= 1;
      parts.last(screens[state.at], hazards.isShut(screens[state.at]));
      show();
    }
  }

  document.addEventListener("keydown", (event) => {
    if (!follow.isOn() || event.ctrlKey || event.altKey || event.metaKey) return;
    const goes = NEXT_KEYS.includes(event.key) ? next : BACK_KEYS.includes(event.key) ? back : null;
    if (!goes || /** @type {Element} */ (event.target).closest("input, select, textarea, dialog, [role='dialog']")) return;
    const isPedal = [document.body.dataset.pedalNext, document.body.dataset.pedalBack].includes(event.key);
    if (event.key === " " && !isPedal && /** @type {Element} */ (event.target).closest("button, a[href], summary")) return;
    event.preventDefault();
    if (!event.repeat && !(overlay && goes === back)) goes();
  });

  /* Enter that is held down on a button is one touch */
  article.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.repeat && /** @type {Element} */ (event.target).closest("[data-do], .bl-ack, .bl-answer")) event.preventDefault();
  });

  /* Position, for this tab only */
  function keep() {
    try {
      sessionStorage.setItem(KEPT, JSON.stringify(state));
    } catch (error) {
      /* then a reload starts at the beginning */
    }
  }

  function recall() {
    try {
      const kept = JSON.parse(sessionStorage.getItem(KEPT) || "null");
      if (kept && kept.at <= screens.length && kept.round < /** @type {HTMLTemplateElement} */ (document.getElementById("bl-rounds")).content.children.length) Object.assign(state, kept);
    } catch (error) {
      /* nothing usable was kept */
    }
  }

  /* Links beside the way are plain text here, so that nobody leaves the job by a slip */
  function calm(on) {
    article.querySelectorAll("[data-screen] a:not(.bl-term, [data-to])").forEach((link) => {
      const from = on ? "href" : "data-href";
      if (!link.hasAttribute(from)) return;
      link.setAttribute(on ? "data-href" : "href", link.getAttribute(from) || "");
      link.removeAttribute(from);
    });
  }

  function enter() {
    root.classList.add("bl-stepping");
    top.hidden = bottom.hidden = false;
    window.benchleafSheet("check.css"); /* what stands at the end of a round does not wait for it */
    calm(true);
    article.querySelectorAll("[data-screen] img").forEach((one) => {
      /** @type {HTMLImageElement} */ (one).loading = "eager";
    });
    recall();
    show();
  }

  function leave() {
    const screen = screens[state.at];
    clear();
    parts.clear();
    root.classList.remove("bl-stepping");
    top.hidden = bottom.hidden = more.hidden = true;
    joined.veil(null, false);
    calm(false);
    document.dispatchEvent(new CustomEvent("benchleaf:left"));
    if (screen) screen.parts[0].scrollIntoView();
  }

  function followTheAddress() {
    if (location.hash === "#follow" && !follow.isOn()) enter();
    else if (location.hash !== "#follow" && follow.isOn()) leave();
  }

  /** @type {Record<string, () => void>} */
  const ACTIONS = {
    next,
    back,
    leave () {
      history.replaceState(null, "", location.pathname + location.search);
      leave();
    },
    more () {
      /* less than what stands between the bars, so that no line is passed over */
      stage.scrollBy({ top: (stage.clientHeight - bottom.offsetHeight) * 0.9 });
    },
    wrong () {
      over("wrong", [/** @type {HTMLElement} */ (article.querySelector("[data-screen='wrong']"))]);
    },
    text () {
      hazards.showWhole(screens[state.at]);
      over("text", screens[state.at].parts);
    },
  };

  let wentOn = -DOUBLE; /* when a finger last touched Next; a key has no such time */
  function isSameTouch(event) {
    if (!event.detail) return false;
    const since = event.timeStamp - wentOn;
    wentOn = event.timeStamp;
    return since < follow.again;
  }

  article.addEventListener("click", (event) => {
    const button = /** @type {Element} */ (event.target).closest("[data-do]");
    const action = button && ACTIONS[button.dataset.do || ""];
    if (!button || !action) return;
    if (button.dataset.do === "next" && isSameTouch(event)) return;
    action();
  });
  ["scroll", "scrollend"].forEach((name) => {
    stage.addEventListener(name, room.cueSoon, { passive: true });
  });
  function again() {
    if (!follow.isOn()) return;
    if (overlay) {
      room.fit();
      room.cue();
    } else {
      show(); /* another size may have other parts */
    }
  }
  /* The next person begins anew, even where the browser brings this page back as it was */
  document.addEventListener("benchleaf:reset", () => {
    Object.assign(state, fresh());
    keep();
    if (follow.isOn()) ACTIONS.leave();
  });
  /* A step that was touched in a list of them; its hazards come first, as from any door */
  document.addEventListener("benchleaf:step", (event) => {
    const wanted = follow.steps.find((one) => one.parts[0].id === /** @type {CustomEvent} */ (event).detail);
    if (!wanted) return;
    history.pushState(null, "", "#follow");
    if (!follow.isOn()) enter();
    state.at = screens.indexOf(wanted);
    show();
  });
  window.addEventListener("resize", again);
  document.addEventListener("benchleaf:text", again);
  window.addEventListener("hashchange", followTheAddress);
  document.addEventListener("DOMContentLoaded", followTheAddress); /* after rounds.js has joined */
})();
