/* Teaching in rounds: the same screens, with what the learner is to say hidden until touched. */
(function () {
  "use strict";
  var follow = window.benchleafFollow;
  if (!follow) return;

  var ROUNDS = [
    { name: "Watch", ask: "Read each step, or watch your trainer do it. Everything is shown." },
    { name: "Call the steps", ask: "Say aloud what the next step is. Then touch the card and see if you are right." },
    { name: "Do and tell", ask: "With your trainer beside you, do the step and say each key point. Then touch the card and see if you are right." },
    { name: "Give the reasons", ask: "Say why each key point matters. Then touch the card and see if you are right." },
  ];

  function make(tag, css, words) {
    var element = document.createElement(tag);
    if (css) element.className = css;
    if (words) element.textContent = words;
    if (tag === "button") element.type = "button";
    return element;
  }
  follow.make = make;

  function uncover() {
    document.querySelectorAll(".bl-say").forEach(function (card) {
      card.remove();
    });
    document.querySelectorAll("[data-veiled]").forEach(unhide);
  }

  function unhide(one) {
    one.hidden = false;
    one.removeAttribute("data-veiled");
    var part = one.parentElement; /* a step is called by its title, but not while that is hidden */
    if (part.dataset.called) part.setAttribute("aria-labelledby", part.dataset.called);
  }

  /* `hidden` takes the words out of the accessibility tree too */
  function hide(elements, words, before) {
    if (!elements.length) return;
    var card = make("button", "bl-say", words);
    elements.forEach(function (one) {
      one.hidden = true;
      one.setAttribute("data-veiled", "");
    });
    before.before(card);
    card.addEventListener("click", function () {
      elements.forEach(unhide);
      card.remove();
      var shown = elements[0];
      shown.tabIndex = -1;
      shown.focus({ preventScroll: true });
      window.dispatchEvent(new Event("resize"));
    });
  }

  function within(part, css) {
    return Array.from(part.querySelectorAll(css));
  }

  follow.veil = function (screen, shut) {
    uncover();
    if (!screen || !screen.step) return;
    var part = screen.parts[0];
    var round = follow.state.round;
    var title = part.querySelector(".bl-step__title");
    if (round === 1) {
      var rest = within(part, ":scope > :not(.bl-hazard):not(.bl-strip):not(.bl-ack):not(.bl-ack__help):not(.bl-step__before)");
      part.dataset.called = title.id;
      part.removeAttribute("aria-labelledby");
      hide(rest, "Step " + screen.step + ". Say what you do now. Then touch here.", title);
    } else if (shut) {
      return;
    } else if (round === 2) {
      within(part, ".bl-point").forEach(function (point, index) {
        hide(Array.from(point.children), "Say key point " + (index + 1) + ". Then touch here.", point.firstElementChild);
      });
    } else if (round === 3) {
      within(part, ".bl-point__why").forEach(function (why) {
        hide([why], "Say why. Then touch here.", why);
      });
    }
  };

  follow.roundName = function () {
    return "Round " + (follow.state.round + 1) + " of 4: " + ROUNDS[follow.state.round].name;
  };

  function roundButton(index) {
    var button = make("button", "bl-choice");
    button.append(make("b", "", "Round " + (index + 1) + ": " + ROUNDS[index].name), make("span", "", ROUNDS[index].ask));
    button.addEventListener("click", function () {
      follow.start(index);
    });
    if (index === follow.state.round) button.classList.add("bl-choice--now");
    return button;
  }

  function checkButton() {
    var button = make("button", "bl-choice");
    button.append(make("b", "", "Check yourself"), make("span", "", "Put the steps in order, find the reasons, pick what to set."));
    button.addEventListener("click", function () {
      follow.cover("check", follow.check);
    });
    return button;
  }

  follow.actions.rounds = function () {
    follow.cover("rounds", function (box) {
      box.append(make("h2", "", "The four rounds"), make("p", "", "Go on to the next round when your trainer agrees."));
      ROUNDS.forEach(function (_, index) {
        box.append(roundButton(index));
      });
      box.append(checkButton());
    });
  };

  follow.end = function (box) {
    var round = follow.state.round;
    box.append(make("h2", "", "Round " + (round + 1) + " is done"));
    box.append(make("p", "", "Talk it over with your trainer. Ask anything that is not clear."));
    if (round + 1 < ROUNDS.length) box.append(roundButton(round + 1));
    else box.append(checkButton());
    box.append(roundButton(round));
    if (round + 1 < ROUNDS.length) box.append(checkButton());
  };

  /* All steps on one screen, without what this round asks for */
  function stepCard(screen) {
    var round = follow.state.round;
    var part = screen.parts[0];
    var card = make("button", "bl-card");
    var title = part.querySelector(".bl-step__title");
    var words = title.textContent.replace(/^\s*Step\s*\d+\s*/, "").trim();
    card.append(make("b", "bl-card__title", screen.step + ". " + (round === 1 ? "Say it first" : words)));
    if (round === 0 || round === 3) {
      within(part, ".bl-point__what").forEach(function (point) {
        card.append(make("span", "bl-card__point", point.textContent.trim()));
      });
    }
    card.addEventListener("click", function () {
      follow.goTo(screen);
    });
    return card;
  }

  follow.actions.all = function () {
    follow.cover("all", function (box) {
      box.append(make("h2", "", "All steps"));
      var grid = make("div", "bl-cards");
      follow.steps.forEach(function (screen) {
        grid.append(stepCard(screen));
      });
      box.append(grid);
    });
  };
})();
