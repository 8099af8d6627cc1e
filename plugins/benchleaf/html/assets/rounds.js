/* Teaching in rounds: the same screens, with what the learner is to say hidden until touched. */
(function () {
  "use strict";
  const follow = /** @type {BenchleafFollow} */ (window.benchleafFollow);
  if (!follow) return;

  /* The rounds stand in the page, from the one list of them; the showing comes first. */
  const told = /** @type {HTMLTemplateElement} */ (document.getElementById("bl-rounds")).content.children;
  const ROUNDS = Array.from(/** @type {HTMLCollectionOf<HTMLElement>} */ (told), (one) => (
    { name: one.dataset.name || "", hides: one.dataset.hides || "", card: one.dataset.card || "", ask: one.textContent }
  ));

  function make(tag, css, words) {
    const element = document.createElement(tag);
    if (css) element.className = css;
    if (words) element.textContent = words;
    if (tag === "button") element.type = "button";
    return element;
  }
  window.benchleafMake = make;

  const LAID_OUT = ["bl-cards--step", "bl-cards--points", "bl-cards--reasons"];

  function uncover() {
    document.querySelectorAll(".bl-say, .bl-halt").forEach((one) => {
      one.remove();
    });
    document.querySelectorAll("[data-veiled]").forEach(unhide);
    document.querySelectorAll(".bl-step__side--bare").forEach((side) => {
      side.classList.remove("bl-step__side--bare");
    });
  }

  function unhide(one) {
    one.hidden = false;
    one.removeAttribute("data-veiled");
    const part = one.parentElement; /* a step is called by its title, but not while that is hidden */
    if (part.dataset.called) part.setAttribute("aria-labelledby", part.dataset.called);
  }

  /* Words keep their room while a card lies on them, so that nothing moves when it is turned.
     Not seen, they are not in the accessibility tree either. */
  function hide(elements, words, on, turned) {
    if (!elements.length) return;
    const card = make("button", "bl-say", words);
    elements.forEach((one) => {
      one.setAttribute("data-veiled", "");
    });
    on.prepend(card);
    card.addEventListener("click", () => {
      if (turned) turned();
      else elements.forEach(unhide);
      card.remove();
      const shown = elements[0];
      shown.tabIndex = -1;
      shown.focus({ preventScroll: true });
      stepsChanged();
    });
  }

  function stepsChanged() {
    /** @type {HTMLElement} */ (document.getElementById("main")).dispatchEvent(new Event("scroll")); /* whether more stands below */
  }

  function within(part, css) {
    return Array.from(part.querySelectorAll(css));
  }

  /* Never kept back: hazards, what protects hands inside, figures to set, how to stop */
  const STAYS = [".bl-hazard", ".bl-strip", ".bl-ack", ".bl-question", ".bl-ack__help", ".bl-step__before", ".bl-step__side", ".bl-hands"];

  function hideStep(part, words) {
    const title = part.querySelector(".bl-step__title");
    Array.from(part.children).forEach((one) => {
      if (one === title || one.matches(STAYS.join(", "))) return;
      one.hidden = true; /* nothing that is seen stands below it */
      one.setAttribute("data-veiled", "");
    });
    part.dataset.called = title.id;
    part.removeAttribute("aria-labelledby");
    part.querySelector(".bl-step__side").classList.add("bl-step__side--bare");
    hide([title], words, title, uncover);
    within(part, ".bl-step__next").forEach((name) => {
      name.hidden = true;
      name.setAttribute("data-veiled", "");
    });
    part.append(halt());
  }

  /* How to stop, as the page says it */
  function halt() {
    const list = make("dl", "bl-halt");
    document.querySelectorAll("[data-stop]").forEach((line) => {
      const copy = make("div");
      ["dt", "dd"].forEach((tag) => {
        copy.append(make(tag, "", /** @type {HTMLElement} */ (line.querySelector(tag)).textContent));
      });
      list.append(copy);
    });
    return list;
  }

  function veil(screen, shut) {
    uncover();
    follow.steps.forEach((one) => {
      one.parts[0].classList.remove.apply(one.parts[0].classList, LAID_OUT);
    });
    const now = follow.screens[follow.state.at];
    const round = ROUNDS[follow.state.round];
    if (now && now.step && round.hides !== "nothing") now.parts[0].classList.add("bl-cards--" + round.hides);
    if (!screen || !screen.step) return;
    const part = screen.parts[0];
    if (round.hides === "step" && follow.state.part && !shut) return; /* it was said in the first part */
    if (round.hides === "step") {
      hideStep(part, "Step " + screen.step + ". " + round.card);
    } else if (shut) {
      return;
    } else if (round.hides === "points") {
      within(part, ".bl-point").forEach((point) => {
        hide(Array.from(point.children), round.card, point);
      });
    } else if (round.hides === "reasons") {
      within(part, ".bl-point__why").forEach((why) => {
        hide([why], round.card, why);
      });
    }
  }

  function called(index) {
    return index ? "Round " + index + ": " + ROUNDS[index].name : ROUNDS[index].name;
  }

  function roundName() {
    const round = follow.state.round;
    const last = ROUNDS.length - 1;
    return round ? called(round).replace(":", " of " + last + ":") : called(round);
  }

  function roundButton(index) {
    const button = make("button", "bl-choice");
    button.append(make("b", "", called(index)), make("span", "", ROUNDS[index].ask));
    button.addEventListener("click", () => {
      follow.start(index);
    });
    if (index === follow.state.round) button.classList.add("bl-choice--now");
    return button;
  }

  /* The self-check is loaded when somebody asks for it; it hands its action in */
  const CHECK = new URL("self-check.js", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;
  let isLoaded = false;

  function openCheck() {
    if (isLoaded) {
      follow.act("check");
      return;
    }
    const script = document.createElement("script");
    script.src = CHECK;
    script.addEventListener("load", () => {
      window.benchleafSheet("check.css").then(() => {
        isLoaded = true;
        follow.act("check");
      });
    });
    document.head.append(script);
  }

  function checkButton() {
    const button = make("button", "bl-choice");
    button.append(make("b", "", "Check yourself"), make("span", "", "Put the steps in order, find the reasons, pick what to set."));
    button.addEventListener("click", () => {
      openCheck();
    });
    return button;
  }

  function rounds() {
    window.benchleafSheet("check.css").then(() => follow.cover("rounds", (box) => {
      box.append(make("h2", "", /** @type {HTMLElement} */ (document.getElementById("bl-rounds")).dataset.title), make("p", "", "Go on to the next round when your trainer agrees."));
      ROUNDS.forEach((_, index) => {
        box.append(roundButton(index));
      });
      box.append(checkButton());
    }));
  }

  function end(box) {
    const round = follow.state.round;
    box.append(make("h2", "", round ? "Round " + round + " is done" : "You have seen every step"));
    box.append(make("p", "", "Talk it over with your trainer. Ask anything that is not clear."));
    if (round + 1 < ROUNDS.length) box.append(roundButton(round + 1));
    else box.append(checkButton());
    box.append(roundButton(round));
    if (round + 1 < ROUNDS.length) box.append(checkButton());
  }

  /* All steps on one screen, without what this round asks for */
  function stepCard(screen) {
    const hides = ROUNDS[follow.state.round].hides;
    const part = screen.parts[0];
    const card = make("button", "bl-card");
    const title = part.querySelector(".bl-step__title");
    const words = title.textContent.replace(/^\s*Step\s*\d+\s*/, "").trim();
    card.append(make("b", "bl-card__title", screen.step + ". " + words));
    if (hides === "step") card.firstElementChild.textContent = "Step " + screen.step;
    if (hides === "nothing" || hides === "reasons") {
      within(part, ".bl-point__what").forEach((point) => {
        card.append(make("span", "bl-card__point", point.textContent.trim()));
      });
    }
    card.addEventListener("click", () => {
      follow.goTo(screen);
    });
    return card;
  }

  function all() {
    follow.cover("all", (box) => {
      box.append(make("h2", "", "All steps"));
      const grid = make("div", "bl-cards");
      follow.steps.forEach((screen) => {
        grid.append(stepCard(screen));
      });
      box.append(grid);
    });
  }

  follow.join({ veil, roundName, end }, { rounds, all });
})();
