/* After a while without a touch: a warning, then home, with nothing left of whoever was here. */
(function () {
  "use strict";
  const OURS = "benchleaf.";
  const TICK = 500; /* ms */
  const AWAKE = 2000; /* ms: a longer gap between two ticks was sleep, in which nobody saw the count */
  const WARNING = 30; /* s, ten more than the least allowed */
  const STEPS_WARNING = 60; /* s: both hands are on the work */
  const LONGEST_READING = 300000; /* ms */
  const AFTER_CLICK = 400; /* ms after a finger has lifted: its click has come by then */
  const facts = document.body.dataset;
  const home = new URL(facts.home || "", location.href).href;
  const isHome = location.href.split(/[?#]/)[0] === home;
  let last = Date.now(); /* the last touch; clock times, since ticks stop while a computer sleeps */
  let before = last; /* the last tick */
  let left = 0; /* ms of warning still to be seen */
  let dialog = null;
  let count = null;
  let stay = null;

  function isStepping() {
    const shown = document.documentElement.classList; /* at work, too, both hands are on the work */
    return shown.contains("bl-stepping") || shown.contains("bl-working");
  }

  function limit() {
    return Number(isStepping() ? facts.stepsIdle : facts.idle) * 1000;
  }

  function keysKept() {
    try {
      return Object.keys(localStorage).filter((key) => key.startsWith(OURS));
    } catch (error) {
      return [];
    }
  }

  function somethingIsKept() {
    try {
      return keysKept().length > 0 || sessionStorage.length > 0;
    } catch (error) {
      return false;
    }
  }

  /* Home is left alone until somebody has touched it: it is where the screen waits. */
  let wasTouched = !isHome || somethingIsKept();

  function goHome() {
    document.dispatchEvent(new CustomEvent("benchleaf:reset"));
    if (window.speechSynthesis) {
      speechSynthesis.cancel();
    }
    try {
      sessionStorage.clear();
      keysKept().forEach((key) => {
        localStorage.removeItem(key);
      });
    } catch (error) {
      /* a browser that keeps nothing has nothing to clear */
    }
    location.replace(home);
  }

  function build() {
    dialog = document.createElement("dialog");
    dialog.className = "bl-idle";
    dialog.setAttribute("role", "alertdialog");
    dialog.setAttribute("aria-labelledby", "bl-idle-title");
    dialog.setAttribute("aria-describedby", "bl-idle-text");
    const title = document.createElement("h2");
    title.id = "bl-idle-title";
    title.textContent = "Are you still here?";
    const text = document.createElement("p");
    text.id = "bl-idle-text";
    text.textContent = "Nobody has touched this screen for a while. It will go back to the first page, ready for the next person.";
    count = document.createElement("p");
    count.className = "bl-idle__count";
    stay = document.createElement("button");
    stay.type = "button";
    stay.className = "bl-idle__stay";
    stay.textContent = "I am still here";
    dialog.append(title, text, count, stay);
    dialog.addEventListener("cancel", touched);
    document.body.append(dialog);
  }

  function warn() {
    if (!dialog) {
      build();
    }
    left = (isStepping() ? STEPS_WARNING : WARNING) * 1000;
    window.benchleafSheet("panels.css"); /* a warning waits for nothing */
    dialog.showModal();
    stay.focus();
    showCount();
  }

  function showCount() {
    const seconds = Math.ceil(left / 1000);
    const words = seconds + (seconds === 1 ? " second" : " seconds");
    if (count.textContent !== words) {
      count.textContent = words;
    }
  }

  function isWarning() {
    return dialog !== null && dialog.open;
  }

  function touched() {
    last = Date.now();
    wasTouched = true;
    if (isWarning()) {
      dialog.close();
    }
  }

  /* The touch or key that stops the warning does nothing else. */
  function touchedFirst(event) {
    if (isWarning()) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
    touched();
  }

  /* Whoever is read to does not touch; but a voice may hang, and then this ends too. */
  function listening() {
    return window.speechSynthesis && speechSynthesis.speaking ? LONGEST_READING : 0;
  }

  function tick() {
    const now = Date.now();
    const gap = Math.max(0, now - before); /* a clock may be set back */
    before = now;
    last = Math.min(last, now);
    if (isWarning()) {
      left -= Math.min(gap, AWAKE);
      if (left <= 0) {
        goHome();
      } else {
        showCount();
      }
    } else if (wasTouched && limit() > 0 && now - last >= limit() + listening()) {
      warn();
    }
  }

  if (!(Number(facts.idle) > 0 || Number(facts.stepsIdle) > 0)) {
    return;
  }
  ["click", "keydown"].forEach((name) => {
    window.addEventListener(name, touchedFirst, true);
  });
  ["pointerdown", "wheel", "input", "scroll"].forEach((name) => {
    window.addEventListener(name, () => {
      if (!isWarning()) {
        touched();
      }
    }, { capture: true, passive: true });
  });
  ["pointerup", "pointercancel", "wheel"].forEach((name) => {
    window.addEventListener(name, () => {
      if (isWarning()) {
        setTimeout(touched, AFTER_CLICK);
      }
    }, { capture: true, passive: true });
  });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) {
      touched();
    }
  });
  setInterval(tick, TICK);
})();
