/* Reads a step aloud with a voice of this computer; without such a voice nothing is shown. */
(function () {
  "use strict";
  var speech = window.speechSynthesis;
  var RATE = 0.9; /* of a voice's usual speed, for somebody at a machine in a second language */
  var LOOK = 250; /* ms between two looks whether the step is still on the screen */
  /* What is read, in the order of the page: hazards stand before the title. */
  var PARTS = [
    ".bl-step__before", ".bl-hazard__word", ".bl-hazard__message > p", ".bl-hazard__avoid > li",
    ".bl-step__title", ".bl-step__stand", ".bl-point__kind", ".bl-point__what", ".bl-point__why",
    ".bl-right", ".bl-check__what"
  ].join(", ");
  var reading = null; /* the button whose step is being read */
  var queue = []; /* kept, or the browser may drop an utterance before it ends */
  var watch = 0;

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

  /* Words that are hidden until the learner has said them stay unsaid; a hazard never does. */
  function isRead(part) {
    return part.closest(".bl-hazard") !== null || part.checkVisibility({ visibilityProperty: true });
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
    clearInterval(watch);
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
    var parts = Array.from(button.closest(".bl-step").querySelectorAll(PARTS)).filter(isRead);
    parts.forEach(function (part, place) {
      say(part, with_, place === parts.length - 1);
    });
    queue.forEach(function (one) {
      speech.speak(one);
    });
    watch = setInterval(function () {
      if (!button.checkVisibility({ visibilityProperty: true })) {
        stop(); /* the next step is on the screen */
      }
    }, LOOK);
  }

  function addButton(step) {
    var title = step.querySelector(".bl-step__title");
    var button = document.createElement("button");
    button.type = "button";
    button.className = "bl-speak";
    var text = document.createElement("span");
    text.className = "bl-speak__words";
    var which = document.createElement("span");
    which.className = "bl-unseen";
    which.textContent = " step " + step.querySelector(".bl-step__number").lastChild.textContent;
    button.append(text, which);
    label(button, false);
    button.addEventListener("click", function () {
      if (reading === button) {
        stop();
      } else {
        read(button);
      }
    });
    title.after(button);
  }

  /* Voices may come some time after the page, and go when their service stops. */
  function offer() {
    var hasVoice = voice() !== null;
    if (hasVoice && !document.querySelector(".bl-speak")) {
      document.querySelectorAll(".bl-step").forEach(addButton);
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
  document.addEventListener("benchleaf:reset", stop);
})();
