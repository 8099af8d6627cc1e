/* Reads a step aloud with a voice of this computer; without such a voice nothing is shown.
   Each step of a job page has a button; the step view has one, always in the same place. */
(function () {
  "use strict";
  var speech = window.speechSynthesis;
  var RATE = 0.9; /* of a voice's usual speed, for somebody at a machine in a second language */
  /* What is read, in the order of the page: hazards stand before the title. */
  var PARTS = [
    ".bl-strip__word", ".bl-strip__line", ".bl-step__before", ".bl-hazard__word", ".bl-hazard__message > p", ".bl-hazard__avoid > li", ".bl-question__ask", ".bl-answer",
    ".bl-step__title", ".bl-step__stand", ".bl-hands", ".bl-point__kind", ".bl-point__what", ".bl-point__why",
    ".bl-right", ".bl-check__what"
  ].join(", ");
  /* Of a screen that is no step. Figures are for the eye: a voice says units and limits badly. */
  var OTHER_PARTS = ":is(h2, h3, p, li, dt, dd):not(:has(p, li)):not(.bl-setup *)";
  var reading = null; /* the button whose step is being read */
  var queue = []; /* kept, or the browser may drop an utterance before it ends */

  function language() {
    return document.documentElement.lang.toLowerCase();
  }

  /* The best voice of this computer for the page: never one that sends the text elsewhere. */
  function voice() {
    var wanted = language().split("-")[0];
    var fit = speech.getVoices().filter(function (one) {
      return one.localService && one.lang.toLowerCase().split(/[-_]/)[0] === wanted;
    });
    return fit.find(function (one) { return one.default; }) || fit[0] || null;
  }

  /* Words that are hidden until the learner has said them stay unsaid. */
  function isSeen(part) {
    return part.checkVisibility({ visibilityProperty: true });
  }

  /* The step of the button; in the step view what is on the screen. */
  function partsFor(button) {
    var step = button.closest(".bl-step");
    var screens = step ? [step] : Array.from(document.querySelectorAll(".bl-now"));
    return screens.flatMap(function (screen) {
      var wanted = screen.matches(".bl-step") ? PARTS : PARTS + ", " + OTHER_PARTS;
      return Array.from(screen.querySelectorAll(wanted)).filter(isSeen);
    });
  }

  function clean(part) {
    return part.textContent.replace(/\s+/g, " ").trim();
  }

  /* A label or a number is followed by a pause, and so is the end. */
  function words(part) {
    var text = clean(part);
    var head = part.querySelector(".bl-point__label, .bl-step__number");
    if (head && text.startsWith(clean(head))) {
      text = clean(head) + ". " + text.slice(clean(head).length).trim();
    }
    return /[.!?:]$/.test(text) ? text : text + ".";
  }

  function label(button, isReading) {
    button.querySelector(".bl-speak__words").textContent = isReading ? "Stop reading" : "Read aloud";
    button.classList.toggle("bl-speak--on", isReading);
  }

  function unmark() {
    document.querySelectorAll(".bl-spoken").forEach(function (part) {
      part.classList.remove("bl-spoken");
    });
  }

  function stop() {
    if (!reading) {
      return;
    }
    var button = reading;
    reading = null;
    queue = [];
    speech.cancel();
    unmark();
    label(button, false);
  }

  function say(part, with_, isLast) {
    var one = new SpeechSynthesisUtterance(words(part));
    one.voice = with_;
    one.lang = with_.lang;
    one.rate = RATE;
    one.addEventListener("start", function () {
      unmark();
      part.classList.add("bl-spoken");
    });
    one.addEventListener("end", function () {
      if (isLast && queue.includes(one)) {
        stop();
      }
    });
    one.addEventListener("error", function () {
      if (queue.includes(one)) {
        stop();
      }
    });
    queue.push(one);
  }

  function read(button) {
    var with_ = voice();
    if (!with_) {
      return;
    }
    stop();
    reading = button;
    label(button, true);
    var parts = partsFor(button);
    parts.forEach(function (part, place) {
      say(part, with_, place === parts.length - 1);
    });
    queue.forEach(function (one) {
      speech.speak(one);
    });
    if (!parts.length) {
      stop();
    }
  }

  function made(name) {
    var button = document.createElement("button");
    button.type = "button";
    button.className = "bl-speak";
    var text = document.createElement("span");
    text.className = "bl-speak__words";
    var which = document.createElement("span");
    which.className = "bl-unseen";
    which.textContent = name;
    button.append(text, which);
    label(button, false);
    button.addEventListener("click", function () {
      if (reading === button) {
        stop();
      } else {
        read(button);
      }
    });
    return button;
  }

  function addButtons() {
    document.querySelectorAll(".bl-step").forEach(function (step) {
      var number = /** @type {HTMLElement} */ (step.querySelector(".bl-step__number")).lastChild?.textContent;
      /** @type {HTMLElement} */ (step.querySelector(".bl-step__title")).after(made(" step " + number));
    });
    var leave = document.querySelector(".bl-top [data-do='leave']");
    if (leave) {
      leave.before(made(""));
    }
  }

  /* Voices may come some time after the page, and go when their service stops. */
  function offer() {
    var hasVoice = voice() !== null;
    if (hasVoice && !document.querySelector(".bl-speak")) {
      addButtons();
    }
    document.querySelectorAll(".bl-speak").forEach(function (button) {
      button.hidden = !hasVoice;
    });
    if (!hasVoice) {
      stop();
    }
  }

  if (!speech || !document.querySelector(".bl-step")) {
    return;
  }
  offer();
  speech.addEventListener("voiceschanged", offer);
  window.addEventListener("pagehide", stop);
  ["benchleaf:screen", "benchleaf:left", "benchleaf:reset"].forEach(function (name) {
    document.addEventListener(name, stop);
  });
})();
