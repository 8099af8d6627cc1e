/* One step at a time: the job page's own sections, one a screen, between two bars.
   Nothing is copied: a style sheet shows what stands in the class bl-now. */
(function () {
  "use strict";
  var top = document.getElementById("follow");
  if (!top) return; /* a job that must not be run has no such view */

  var root = document.documentElement;
  var stage = document.getElementById("main");
  var article = stage.querySelector(".bl-article");
  var bottom = article.querySelector(".bl-bottom");
  var extra = article.querySelector("[data-extra]");
  var more = article.querySelector("[data-do='more']");
  var KEPT = "benchleaf.follow." + top.dataset.job + "." + top.dataset.issue;
  var GRAVE = ".bl-hazard--danger, .bl-hazard--warning";
  var NEXT_KEYS = ["PageDown", " ", "ArrowRight", "ArrowDown"];
  var BACK_KEYS = ["PageUp", "ArrowLeft", "ArrowUp"];
  if (document.body.dataset.pedalNext) NEXT_KEYS.push(document.body.dataset.pedalNext);
  if (document.body.dataset.pedalBack) BACK_KEYS.push(document.body.dataset.pedalBack);

  var screens = collect();
  markLater();
  drawInSteps();
  var state = { round: 0, at: 0, read: {} };
  var overlay = null; /* what covers the job for a moment: all steps, rounds, trouble, check */

  function collect() {
    var found = [];
    article.querySelectorAll("[data-screen]").forEach(function (part) {
      var name = part.dataset.screen;
      if (name === "wrong") return;
      var screen = found.find(function (one) {
        return one.name === name;
      });
      if (!screen) {
        screen = { name: name, label: part.dataset.label || "", step: Number(part.dataset.step || 0), parts: [] };
        found.push(screen);
      }
      screen.parts.push(part);
    });
    return found;
  }

  /* A hazard that comes again before its step need not say everything at the beginning */
  function markLater() {
    var again = {};
    article.querySelectorAll(".bl-step [data-title]").forEach(function (one) {
      again[one.dataset.title] = true;
    });
    article.querySelectorAll("[data-screen='hazards'] [data-title]").forEach(function (one) {
      one.classList.toggle("bl-later", again[one.dataset.title] === true);
    });
  }

  /* A step with a set-up and no picture shows the drawing of that set-up */
  function drawInSteps() {
    article.querySelectorAll(".bl-step[data-set-up]").forEach(function (step) {
      var side = step.querySelector(".bl-step__side");
      var frame = article.querySelector("#" + CSS.escape(step.dataset.setUp) + " .bl-drawing__frame");
      if (!frame || side.querySelector(".bl-picture")) return;
      var name = frame.querySelector("title").id.replace(/-title$/, "");
      var copy = document.createElement("template");
      copy.innerHTML = frame.outerHTML.split(name).join(name + "--" + step.id);
      copy.content.firstElementChild.classList.add("bl-drawing__frame--step");
      side.append(copy.content);
    });
  }

  var follow = {
    screens: screens,
    state: state,
    extra: extra,
    steps: screens.filter(function (one) {
      return one.step;
    }),
    isOn: function () {
      return root.classList.contains("bl-stepping");
    },
    veil: function () {}, /* rounds.js hides what this round asks the learner to say */
    roundName: function () {
      return "";
    },
    end: function () {}, /* rounds.js shows what comes after the last screen */
    show: show,
    cover: cover,
    start: function (round) {
      state.round = round;
      state.at = 0;
      show();
    },
    goTo: function (screen) {
      state.at = firstUnread(screens.indexOf(screen));
      show();
    },
  };
  window.benchleafFollow = follow;

  /* Hazards come before anything else of their screen; the grave ones need a touch */
  function readKey(screen) {
    return state.round + ":" + screen.name;
  }

  function hasHazard(screen) {
    return screen.parts.some(function (part) {
      return part.querySelector(":scope > .bl-hazard");
    });
  }

  function isGrave(screen) {
    return screen.parts.some(function (part) {
      return part.querySelector(GRAVE);
    });
  }

  function isShut(screen) {
    return hasHazard(screen) && !state.read[readKey(screen)];
  }

  function markRead(screen) {
    state.read[readKey(screen)] = true;
    if (!screen.step) state.at += 1; /* a screen of hazards and nothing else */
    show();
  }

  function firstUnread(wanted) {
    for (var i = 0; i < wanted; i += 1) {
      if (!screens[i].step && isShut(screens[i])) return i;
    }
    return wanted;
  }

  function gate(screen) {
    var shut = isShut(screen);
    screen.parts.forEach(function (part) {
      var panels = part.querySelectorAll(":scope > .bl-hazard");
      part.classList.toggle("bl-shut", shut && panels.length > 0);
      part.classList.toggle("bl-read", !shut && Boolean(screen.step));
      if (panels.length && !part.querySelector(":scope > .bl-ack")) addTouch(part, panels, screen);
    });
    return shut;
  }

  function addTouch(part, panels, screen) {
    var button = document.createElement("button");
    button.type = "button";
    button.className = "bl-ack";
    button.textContent = "I have read this";
    var help = document.createElement("p");
    help.className = "bl-ack__help";
    help.setAttribute("role", "status");
    button.addEventListener("click", function (event) {
      if (event.detail === 0) {
        help.textContent = "Touch the button on the screen. No key and no pedal does this.";
        return;
      }
      help.textContent = "";
      markRead(screen);
    });
    panels[panels.length - 1].after(button, help);
    part.insertBefore(strip(panels), panels[0]);
  }

  /* What was read stays in sight, in a line for each signal word */
  function strip(panels) {
    var box = document.createElement("div");
    box.className = "bl-strip";
    panels.forEach(function (panel) {
      var line = document.createElement("p");
      line.className = panel.className.replace("bl-hazard ", "bl-strip__line ").replace("bl-hazard--", "bl-word--");
      var word = document.createElement("b");
      word.className = "bl-strip__word";
      word.textContent = panel.querySelector(".bl-hazard__word").textContent.trim();
      var titles = Array.from(panel.querySelectorAll("[data-title]"), function (one) {
        return one.dataset.title;
      });
      line.append(word, " " + titles.join(" · "));
      box.append(line);
    });
    return box;
  }

  /* Showing a screen */
  function clear() {
    article.querySelectorAll(".bl-now").forEach(function (one) {
      one.classList.remove("bl-now");
    });
    extra.hidden = true;
    extra.replaceChildren();
  }

  function show() {
    overlay = null;
    clear();
    var screen = screens[state.at];
    var shut = false;
    if (screen) {
      shut = gate(screen);
      screen.parts.forEach(function (part) {
        part.classList.add("bl-now");
      });
      follow.veil(screen, shut);
    } else {
      extra.hidden = false;
      extra.classList.add("bl-now");
      follow.end(extra);
    }
    bars(screen, shut);
    keep();
    settle();
  }

  function cover(name, fill) {
    clear();
    overlay = name;
    extra.hidden = false;
    extra.classList.add("bl-now");
    fill(extra);
    bars(screens[state.at], false);
    settle();
  }

  /* Where a screen is too full, the drawing goes first, then the picture gets smaller */
  function fit() {
    var level = 0;
    more.hidden = true; /* its strip takes room only where the screen scrolls all the same */
    article.dataset.fit = "0";
    while (level < 3 && stage.scrollHeight > stage.clientHeight) {
      level += 1;
      article.dataset.fit = String(level);
    }
    /* a screen that scrolls all the same need not be so small */
    if (stage.scrollHeight > stage.clientHeight) article.dataset.fit = "2";
  }

  function settle() {
    stage.scrollTop = 0;
    fit();
    var now = article.querySelectorAll(".bl-now");
    var goal = null;
    now.forEach(function (part) {
      goal = goal || part.querySelector(".bl-say, h2, h3");
    });
    if (goal) {
      if (goal.tabIndex < 0) goal.tabIndex = -1;
      goal.focus({ preventScroll: true });
    }
    cue();
    document.dispatchEvent(new CustomEvent("benchleaf:screen"));
  }

  function cue() {
    more.hidden = stage.scrollHeight - stage.clientHeight - stage.scrollTop < 24;
  }

  function count(screen) {
    if (!screen) return state.round ? "The end of the round" : "The end of the job";
    if (screen.step) return "Step " + screen.step + " of " + follow.steps.length;
    var same = screens.filter(function (one) {
      return one.label === screen.label;
    });
    return same.length > 1 ? screen.label + ", " + (same.indexOf(screen) + 1) + " of " + same.length : screen.label;
  }

  function bars(screen, shut) {
    var back = bottom.querySelector("[data-do='back']");
    var next = bottom.querySelector("[data-do='next']");
    back.textContent = overlay ? "Close" : "Back";
    back.disabled = !overlay && state.at === 0;
    next.hidden = Boolean(overlay) || !screen;
    next.setAttribute("aria-disabled", String(shut && isGrave(screen)));
    next.textContent = screen && screen.step && screens[state.at + 1] && screens[state.at + 1].step ? "Next step" : "Next";
    bottom.querySelector("[data-do='all']").hidden = Boolean(overlay);
    bottom.querySelector(".bl-bottom__count").textContent = count(screen);
    top.querySelector("[data-do='rounds']").textContent = follow.roundName();
    bottom.querySelectorAll(".bl-rack li").forEach(function (tooth, index) {
      var step = screen ? screen.step : 0;
      var done = screen ? (step ? index + 1 < step : state.at > screens.indexOf(follow.steps[0])) : true;
      tooth.className = index + 1 === step ? "bl-rack__now" : done ? "bl-rack__done" : "";
    });
  }

  /* Moving */
  function next() {
    if (overlay || !screens[state.at]) return;
    var screen = screens[state.at];
    if (isShut(screen)) {
      if (isGrave(screen)) ask();
      else markRead(screen);
      return;
    }
    state.at += 1;
    show();
  }

  function ask() {
    var part = article.querySelector(".bl-now.bl-shut");
    if (!part) return;
    var button = part.querySelector(".bl-ack");
    part.querySelector(".bl-ack__help").textContent = "First touch “I have read this”.";
    button.scrollIntoView({ block: "center" });
  }

  function back() {
    if (overlay) {
      show();
    } else if (state.at > 0) {
      state.at -= 1;
      show();
    }
  }

  document.addEventListener("keydown", function (event) {
    if (!follow.isOn() || event.ctrlKey || event.altKey || event.metaKey) return;
    var goes = NEXT_KEYS.includes(event.key) ? next : BACK_KEYS.includes(event.key) ? back : null;
    if (!goes || event.target.closest("input, select, textarea, dialog, [role='dialog']")) return;
    if (event.key === " " && event.target.closest("button, a[href], summary")) return;
    event.preventDefault();
    if (!event.repeat && !(overlay && goes === back)) goes();
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
      var kept = JSON.parse(sessionStorage.getItem(KEPT));
      if (kept && kept.at <= screens.length && kept.round < document.getElementById("bl-rounds").content.children.length) Object.assign(state, kept);
    } catch (error) {
      /* nothing usable was kept */
    }
  }

  /* Links beside the way are plain text here, so that nobody leaves the job by a slip */
  function calm(on) {
    article.querySelectorAll("[data-screen] a:not(.bl-term)").forEach(function (link) {
      var from = on ? "href" : "data-href";
      if (!link.hasAttribute(from)) return;
      link.setAttribute(on ? "data-href" : "href", link.getAttribute(from));
      link.removeAttribute(from);
    });
  }

  function enter() {
    root.classList.add("bl-stepping");
    top.hidden = bottom.hidden = false;
    calm(true);
    article.querySelectorAll("[data-screen] img").forEach(function (one) {
      one.loading = "eager";
    });
    recall();
    show();
  }

  function leave() {
    var screen = screens[state.at];
    clear();
    root.classList.remove("bl-stepping");
    top.hidden = bottom.hidden = more.hidden = true;
    follow.veil(null, false);
    calm(false);
    document.dispatchEvent(new CustomEvent("benchleaf:left"));
    if (screen) screen.parts[0].scrollIntoView();
  }

  function followTheAddress() {
    if (location.hash === "#follow" && !follow.isOn()) enter();
    else if (location.hash !== "#follow" && follow.isOn()) leave();
  }

  var ACTIONS = {
    next: next,
    back: back,
    leave: function () {
      history.replaceState(null, "", location.pathname + location.search);
      leave();
    },
    more: function () {
      /* less than what stands between the bars, so that no line is passed over */
      stage.scrollBy({ top: (stage.clientHeight - top.offsetHeight - bottom.offsetHeight) * 0.9 });
    },
    wrong: function () {
      clear();
      overlay = "wrong";
      article.querySelector("[data-screen='wrong']").classList.add("bl-now");
      bars(screens[state.at], false);
      settle();
    },
  };
  follow.actions = ACTIONS;

  article.addEventListener("click", function (event) {
    var button = event.target.closest("[data-do]");
    if (button && ACTIONS[button.dataset.do]) ACTIONS[button.dataset.do]();
  });
  stage.addEventListener("scroll", cue, { passive: true });
  function again() {
    if (!follow.isOn()) return;
    fit();
    cue();
  }
  window.addEventListener("resize", again);
  document.addEventListener("benchleaf:text", again);
  window.addEventListener("hashchange", followTheAddress);
  document.addEventListener("DOMContentLoaded", followTheAddress); /* after rounds.js has joined */
})();
