/* What a screen warns of: whole where it is new in this sitting, afterwards in a strip with the
   control of the step. A sitting ends when the screen goes home (idle.js). Nothing is left out:
   the whole text is one touch away, stands on the page, and is printed. */
(function () {
  "use strict";
  var GRAVE = ["danger", "warning"];
  var ASKED_EACH_ROUND = "danger";

  /* `state` is the step view's: what was told in this sitting, and what was answered in a round */
  window.benchleafHazards = function (article, state, answered) {
    var atSteps = {};
    article.querySelectorAll(".bl-step > .bl-hazard").forEach(function (panel) {
      messagesOf(panel).forEach(function (one) {
        atSteps[idOf(one)] = true;
      });
    });

    /* A shop's own template may tell less of a message: then it is asked for all the same */
    function messagesOf(panel) {
      var found = Array.from(panel.querySelectorAll(".bl-hazard__message"));
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
      screen.messages = screen.messages || screen.parts.flatMap(panelsOf).flatMap(function (panel) {
        return messagesOf(panel).map(function (one) {
          var id = idOf(one);
          return { id: id, word: word(panel), element: one, isLater: !screen.step && atSteps[id] === true };
        });
      });
      return screen.messages;
    }

    function isNew(one) {
      return !one.isLater && !state.told[one.id];
    }

    function isAsked(one) {
      return !one.isLater && one.word === ASKED_EACH_ROUND && !state.read[state.round + ":" + one.id];
    }

    function isShut(screen) {
      return messages(screen).some(function (one) {
        return isNew(one) || isAsked(one);
      });
    }

    /* What is grave and new needs a touch, and danger once in each round; for the rest, Next is enough */
    function needsTouch(screen) {
      return messages(screen).some(function (one) {
        return isAsked(one) || (isNew(one) && GRAVE.includes(one.word));
      });
    }

    function markRead(screen) {
      messages(screen).forEach(function (one) {
        if (one.isLater) return;
        state.told[one.id] = true;
        state.read[state.round + ":" + one.id] = true;
      });
    }

    function gate(screen) {
      var shut = isShut(screen);
      var news = messages(screen).filter(isNew).map(function (one) {
        return one.element;
      });
      screen.parts.forEach(function (part) {
        var panels = panelsOf(part);
        if (!panels.length) return;
        if (!part.querySelector(":scope > .bl-ack")) build(part, panels, screen);
        part.classList.remove("bl-whole");
        part.classList.toggle("bl-shut", shut);
        part.classList.toggle("bl-read", !shut);
        part.classList.toggle("bl-asks", shut && needsTouch(screen));
        part.querySelector(":scope > .bl-ack").textContent = news.length ? "I have read this" : "I have this in mind";
        part.querySelector(":scope > .bl-ack__help").textContent = "";
        markNew(part, panels, news);
      });
      return shut;
    }

    /* Before a step the new ones stand whole, and the others in the strip below them */
    function markNew(part, panels, news) {
      panels.forEach(function (panel, index) {
        var all = messagesOf(panel);
        var group = part.querySelectorAll(".bl-strip__group")[index];
        all.forEach(function (one, place) {
          one.classList.toggle("bl-told", !news.includes(one));
          group.querySelectorAll(".bl-strip__line")[place].classList.toggle("bl-strip__new", news.includes(one));
        });
        var newHere = all.filter(function (one) {
          return news.includes(one);
        }).length;
        panel.classList.toggle("bl-told", newHere === 0);
        group.classList.toggle("bl-strip__new", newHere === all.length);
      });
    }

    function showWhole(screen) {
      screen.parts.forEach(function (part) {
        part.classList.remove("bl-read");
        part.classList.add("bl-shut", "bl-whole");
      });
    }

    function ask() {
      var part = article.querySelector(".bl-now.bl-asks");
      if (!part) return;
      var button = /** @type {HTMLElement} */ (part.querySelector(".bl-ack"));
      /** @type {HTMLElement} */ (part.querySelector(".bl-ack__help")).textContent = "First touch “" + button.textContent + "”.";
      button.scrollIntoView({ block: "center" });
    }

    function make(tag, css, words) {
      var element = document.createElement(tag);
      element.className = css;
      element.append(words || "");
      if (tag === "button") element.type = "button";
      return element;
    }

    function build(part, panels, screen) {
      var button = make("button", "bl-ack");
      var help = make("p", "bl-ack__help");
      help.setAttribute("role", "status");
      button.addEventListener("click", function () {
        answered(screen);
      });
      var strip = make("div", "bl-strip");
      var whole = make("button", "bl-strip__whole", "Whole text");
      whole.dataset.do = "text";
      var groups = make("div", "bl-strip__groups");
      panels.forEach(function (panel) {
        groups.append(group(panel, screen));
      });
      strip.append(groups, whole);
      panels[panels.length - 1].after(strip, button, help);
    }

    /* One signal word, and beside it each hazard of that word with what keeps it away here */
    function group(panel, screen) {
      var name = word(panel);
      var box = make("div", "bl-strip__group bl-word--" + name + (GRAVE.includes(name) ? "" : " bl-strip__group--slight"));
      var head = make("p", "bl-strip__word", panel.querySelector(".bl-hazard__word").textContent.trim());
      var symbol = panel.querySelector(".bl-hazard__word svg");
      if (symbol) head.prepend(symbol.cloneNode(true));
      var lines = make("div", "bl-strip__lines");
      messagesOf(panel).forEach(function (one) {
        lines.append(line(one, screen));
      });
      box.append(head, lines);
      return box;
    }

    function line(one, screen) {
      var steps = one.querySelector(".bl-hazard__steps");
      var measured = one.querySelector(".bl-hazard__measured");
      var isLater = !screen.step && atSteps[idOf(one)] && steps;
      var words = isLater ? steps.textContent + "." : one.dataset.control || "";
      var box = make("p", "bl-strip__line");
      box.dataset.of = idOf(one);
      box.append(make("b", "", (one.dataset.title || one.textContent.trim()) + "."));
      box.append(" " + words + (measured ? " " + measured.textContent : ""));
      return box;
    }

    return { isShut: isShut, needsTouch: needsTouch, markRead: markRead, gate: gate, showWhole: showWhole, ask: ask };
  };
})();
