/* Reads a step aloud with a voice of this computer; without such a voice nothing is shown.
   Each step of a job page has a button; the step view has one, always in the same place. */
(function () {
  "use strict";
  const speech = window.speechSynthesis;
  const RATE = 0.9; /* of a voice's usual speed, for somebody at a machine in a second language */
  /* What is read, in the order of the page: hazards stand before the title. */
  const PARTS = [
    ".bl-strip__word", ".bl-strip__line", ".bl-step__before", ".bl-hazard__word", ".bl-hazard__message > p", ".bl-hazard__avoid > li", ".bl-question__ask", ".bl-answer",
    ".bl-step__title", ".bl-step__stand", ".bl-hands", ".bl-point__kind", ".bl-point__what", ".bl-point__why",
    ".bl-right", ".bl-check__what"
  ].join(", ");
  /* Of a screen that is no step. Figures are for the eye: a voice says units and limits badly. */
  const OTHER_PARTS = ":is(h2, h3, p, li, dt, dd):not(:has(p, li)):not(.bl-setup *)";
  let reading = null; /* the button whose step is being read */
  let queue = []; /* kept, or the browser may drop an utterance before it ends */

  function language() {
    return document.documentElement.lang.toLowerCase();
  }

  /* The best voice of this computer for the page: never one that sends the text elsewhere. */
  function voice() {
    const wanted = language().split("-")[0];
    const fit = speech.getVoices().filter((one) =>
      one.localService && one.lang.toLowerCase().split(/[-_]/)[0] === wanted
    );
    return fit.find((one) =>  one.default ) || fit[0] || null;
  }

  /* Words that are hidden until the learner has said them stay unsaid. */
  function isSeen(part) {
    return part.checkVisibility({ visibilityProperty: true });
  }

  /* The step of the button; in the step view what is on the screen. */
  function partsFor(button) {
    const step = button.closest(".bl-step");
    const screens = step ? [step] : Array.from(document.querySelectorAll(".bl-now"));
    return screens.flatMap((screen) => {
      const wanted = screen.matches(".bl-step") ? PARTS : PARTS + ", " + OTHER_PARTS;
      return Array.from(screen.querySelectorAll(wanted)).filter(isSeen);
    });
  }

  function clean(part) {
    return part.textContent.replace(/\s+/g, " ").trim();
  }

  /* A label or a number is followed by a pause, and so is the end. */
  function words(part) {
    let text = clean(part);
    const head = part.querySelector(".bl-point__label, .bl-step__number");
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
    document.querySelectorAll(".bl-spoken").forEach((part) => {
      part.classList.remove("bl-spoken");
    });
  }

  function stop() {
    if (!reading) {
      return;
    }
    const button = reading;
    reading = null;
    queue = [];
    speech.cancel();
    unmark();
    label(button, false);
  }

  function say(part, with_, isLast) {
    const one = new SpeechSynthesisUtterance(words(part));
    one.voice = with_;
    one.lang = with_.lang;
    one.rate = RATE;
    one.addEventListener("start", () => {
      unmark();
      part.classList.add("bl-spoken");
    });
    one.addEventListener("end", () => {
      if (isLast && queue.includes(one)) {
        stop();
      }
    });
    one.addEventListener("error", () => {
      if (queue.includes(one)) {
        stop();
      }
    });
    queue.push(one);
  }

  function read(button) {
    const with_ = voice();
    if (!with_) {
      return;
    }
    stop();
    reading = button;
    label(button, true);
    const parts = partsFor(button);
    parts.forEach((part, place) => {
      say(part, with_, place === parts.length - 1);
    });
    queue.forEach((one) => {
      speech.speak(one);
    });
    if (!parts.length) {
      stop();
    }
  }

  function made(name) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "bl-speak";
    const text = document.createElement("span");
    text.className = "bl-speak__words";
    const which = document.createElement("span");
    which.className = "bl-unseen";
    which.textContent = name;
    button.append(text, which);
    label(button, false);
    button.addEventListener("click", () => {
      if (reading === button) {
        stop();
      } else {
        read(button);
      }
    });
    return button;
  }

  function addButtons() {
    document.querySelectorAll(".bl-step").forEach((step) => {
      const number = /** @type {HTMLElement} */ (step.querySelector(".bl-step__number")).lastChild?.textContent;
      /** @type {HTMLElement} */ (step.querySelector(".bl-step__title")).after(made(" step " + number));
    });
    const leave = document.querySelector(".bl-top [data-do='leave']");
    if (leave) {
      leave.before(made(""));
    }
  }

  /* Voices may come some time after the page, and go when their service stops. */
  function offer() {
    const hasVoice = voice() !== null;
    if (hasVoice && !document.querySelector(".bl-speak")) {
      addButtons();
    }
    document.querySelectorAll(".bl-speak").forEach((button) => {
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
  ["benchleaf:screen", "benchleaf:left", "benchleaf:reset"].forEach((name) => {
    document.addEventListener(name, stop);
  });
})();
