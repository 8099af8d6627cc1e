/* What a screen warns of: whole where it is new in this sitting, afterwards in a strip with the
   control of the step. A sitting ends when the screen goes home (idle.js). Nothing is left out:
   the whole text is one touch away, stands on the page, and is printed. */
(function () {
  "use strict";
  const GRAVE = ["danger", "warning"];
  const ASKED_EACH_ROUND = "danger";
  const OFFERED = 2; /* wrong answers beside the right one */

  /* What an engineer approved as wrong, by the hazard's id; a hazard without it is only confirmed */
  function wrongAnswers() {
    const found = {};
    const kept = /** @type {HTMLTemplateElement | null} */ (document.getElementById("bl-answers"));
    const lists = kept ? kept.content.querySelectorAll("[data-of]") : [];
    lists.forEach((list) => {
      found[list.dataset.of || ""] = Array.from(list.children, (one) => one.textContent);
    });
    return found;
  }

  function shuffled(list) {
    return list
      .map((one) => [Math.random(), one])
      .sort((a, b) => a[0] - b[0])
      .map((pair) => pair[1]);
  }

  /* `state` is the step view's: what was told in this sitting, and what was answered in a round */
  window.benchleafHazards = function (article, state, answered) {
    const atSteps = {};
    const wrong = wrongAnswers();
    article.querySelectorAll(".bl-step > .bl-hazard").forEach((panel) => {
      messagesOf(panel).forEach((one) => {
        atSteps[idOf(one)] = true;
      });
    });

    /* A shop's own template may tell less of a message: then it is asked for all the same */
    function messagesOf(panel) {
      const found = Array.from(panel.querySelectorAll(".bl-hazard__message"));
      return found.length ? found : [panel];
    }

    function idOf(one) {
      return one.dataset.hazard || one.dataset.title || one.textContent;
    }

    function word(panel) {
      return panel.className.match(/bl-hazard--(\w+)/)[1];
    }

    function panelsOf(part) {
      return Array.from(part.querySelectorAll(":scope > .bl-hazard"));
    }

    /* One that bites at a step is told there, and only named at the beginning */
    function messages(screen) {
      screen.messages = screen.messages || screen.parts.flatMap(panelsOf).flatMap((panel) =>
        messagesOf(panel).map((one) => {
          const id = idOf(one);
          return { id, word: word(panel), element: one, isLater: !screen.step && atSteps[id] === true };
        })
      );
      return screen.messages;
    }

    function isNew(one) {
      return !one.isLater && !state.told[one.id];
    }

    function isAsked(one) {
      return !one.isLater && one.word === ASKED_EACH_ROUND && !state.read[state.round + ":" + one.id];
    }

    function isShut(screen) {
      return messages(screen).some((one) => isNew(one) || isAsked(one));
    }

    /* What is grave and new needs a touch, and danger once in each round; for the rest, Next is enough */
    function needsTouch(screen) {
      return messages(screen).some((one) => isAsked(one) || (isNew(one) && GRAVE.includes(one.word)));
    }

    function markRead(screen) {
      messages(screen).forEach((one) => {
        if (one.isLater) return;
        state.told[one.id] = true;
        state.read[state.round + ":" + one.id] = true;
      });
    }

    function gate(screen) {
      const shut = isShut(screen);
      const news = messages(screen).filter(isNew).map((one) => one.element);
      screen.parts.forEach((part) => {
        const panels = panelsOf(part);
        if (!panels.length) return;
        if (!part.querySelector(":scope > .bl-strip")) build(part, panels, screen);
        part.classList.remove("bl-whole");
        part.classList.toggle("bl-shut", shut);
        part.classList.toggle("bl-read", !shut);
        part.classList.toggle("bl-asks", shut && needsTouch(screen));
        const help = part.querySelector(":scope > .bl-ack__help");
        help.textContent = "";
        part.querySelectorAll(":scope > .bl-ack, :scope > .bl-question").forEach((one) => {
          one.remove();
        });
        help.before(toTouch(screen, help, news.length > 0));
        markNew(part, panels, news);
      });
      return shut;
    }

    /* Before a step the new ones stand whole, and the others in the strip below them */
    function markNew(part, panels, news) {
      panels.forEach((panel, index) => {
        const all = messagesOf(panel);
        const group = part.querySelectorAll(".bl-strip__group")[index];
        all.forEach((one, place) => {
          one.classList.toggle("bl-told", !news.includes(one));
          group.querySelectorAll(".bl-strip__line")[place].classList.toggle("bl-strip__new", news.includes(one));
        });
        const newHere = all.filter((one) => news.includes(one)).length;
        panel.classList.toggle("bl-told", newHere === 0);
        group.classList.toggle("bl-strip__new", newHere === all.length);
      });
    }

    function showWhole(screen) {
      screen.parts.forEach((part) => {
        part.classList.remove("bl-read");
        part.classList.add("bl-shut", "bl-whole");
      });
    }

    function ask() {
      const part = article.querySelector(".bl-now.bl-asks");
      if (!part) return;
      const button = part.querySelector(".bl-ack");
      const words = button ? "“" + button.textContent + "”" : "what keeps it away";
      /** @type {Element} */ (part.querySelector(".bl-ack__help")).textContent = "First touch " + words + ".";
      /** @type {Element} */ (part.querySelector(".bl-ack, .bl-question")).scrollIntoView({ block: "center" });
    }

    /* One question a screen: of what waits for a touch here, the gravest first, another each round */
    function asksAbout(screen) {
      const asked = screen.step ? messages(screen).filter((one) => {
        const waits = isAsked(one) || (isNew(one) && GRAVE.includes(one.word));
        return waits && wrong[one.id] && one.element.dataset.control;
      }) : [];
      const gravest = asked.filter((one) => one.word === asked[0].word);
      return gravest[state.round % gravest.length];
    }

    function toTouch(screen, help, isNewHere) {
      const about = asksAbout(screen);
      if (about) return question(about, screen, help);
      const button = make("button", "bl-ack", isNewHere ? "I have read this" : "I have this in mind");
      button.addEventListener("click", () => {
        answered(screen);
      });
      return button;
    }

    /* The right answer is what the strip will say at this step; a wrong touch shows it */
    function question(about, screen, help) {
      const right = about.element.dataset.control;
      const box = make("div", "bl-question");
      const words = make("p", "bl-question__ask", about.element.dataset.title + ": touch what keeps it away in step " + screen.step + ".");
      words.id = "bl-question-" + screen.step;
      box.setAttribute("role", "group");
      box.setAttribute("aria-labelledby", words.id);
      box.append(words);
      shuffled([right].concat(shuffled(wrong[about.id]).slice(0, OFFERED))).forEach((answer) => {
        const button = make("button", "bl-answer", answer);
        button.addEventListener("click", () => {
          if (answer === right) {
            answered(screen);
            return;
          }
          button.classList.add("bl-answer--no");
          box.querySelectorAll(".bl-answer").forEach((one) => {
            one.classList.toggle("bl-answer--yes", one.textContent === right);
          });
          help.textContent = "Not this one. It is “" + right + "” Touch it to go on.";
        });
        box.append(button);
      });
      return box;
    }

    function make(tag, css, words) {
      const element = document.createElement(tag);
      element.className = css;
      element.append(words || "");
      if (tag === "button") element.type = "button";
      return element;
    }

    function build(part, panels, screen) {
      const help = make("p", "bl-ack__help");
      help.setAttribute("role", "status");
      const strip = make("div", "bl-strip");
      const whole = make("button", "bl-strip__whole", "Whole text");
      whole.dataset.do = "text";
      const groups = make("div", "bl-strip__groups");
      panels.forEach((panel) => {
        groups.append(group(panel, screen));
      });
      strip.append(groups, whole);
      panels[panels.length - 1].after(strip, help);
    }

    /* One signal word, and beside it each hazard of that word with what keeps it away here */
    function group(panel, screen) {
      const name = word(panel);
      const box = make("div", "bl-strip__group bl-word--" + name + (GRAVE.includes(name) ? "" : " bl-strip__group--slight"));
      const head = make("p", "bl-strip__word", panel.querySelector(".bl-hazard__word").textContent.trim());
      const symbol = panel.querySelector(".bl-hazard__word svg");
      if (symbol) head.prepend(symbol.cloneNode(true));
      const lines = make("div", "bl-strip__lines");
      messagesOf(panel).forEach((one) => {
        lines.append(line(one, screen));
      });
      box.append(head, lines);
      return box;
    }

    function line(one, screen) {
      const steps = one.querySelector(".bl-hazard__steps");
      const measured = one.querySelector(".bl-hazard__measured");
      const isLater = !screen.step && atSteps[idOf(one)] && steps;
      const words = isLater ? steps.textContent + "." : one.dataset.control || "";
      const box = make("p", "bl-strip__line");
      box.dataset.of = idOf(one);
      box.append(make("b", "", (one.dataset.title || one.textContent.trim()) + "."));
      box.append(" " + words + (measured ? " " + measured.textContent : ""));
      return box;
    }

    return { isShut, needsTouch, markRead, gate, showWhole, ask };
  };
})();
