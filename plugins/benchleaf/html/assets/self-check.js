/* The self-check, built from the breakdown. Results stay on the screen and nowhere else. */
(function () {
  "use strict";
  const follow = /** @type {BenchleafFollow} */ (window.benchleafFollow);
  if (!follow) return;
  const make = window.benchleafMake;
  const ASKED_REASONS = 3;
  const OFFERED = 4;

  function shuffled(list) {
    const copy = list.slice();
    for (let i = copy.length - 1; i > 0; i -= 1) {
      const j = Math.floor(Math.random() * (i + 1));
      const one = copy[i];
      copy[i] = copy[j];
      copy[j] = one;
    }
    return copy;
  }

  function outOfOrder(list) {
    const mixed = shuffled(list);
    const same = list.every((one, index) => one === mixed[index]);
    return same && list.length > 1 ? list.slice().reverse() : mixed;
  }

  function plain(element) {
    const copy = element.cloneNode(true);
    copy.querySelectorAll(".bl-unseen, .bl-step__number, .bl-point__label, .bl-speak").forEach((one) => {
      one.remove();
    });
    return copy.textContent.replace(/\s+/g, " ").trim();
  }

  function read() {
    const points = [];
    const steps = follow.steps.map((screen) => {
      const part = screen.parts[0];
      const title = plain(part.querySelector(".bl-step__title"));
      part.querySelectorAll(".bl-point").forEach((point) => {
        points.push({
          step: title,
          what: plain(point.querySelector(".bl-point__what")),
          why: plain(point.querySelector(".bl-point__why")),
        });
      });
      return { title, first: points.find((one) => one.step === title) };
    });
    return { steps, points };
  }

  function check(box) {
    follow.veil(null, false);
    const job = read();
    const questions = [inOrder(job.steps)].concat(
      shuffled(job.points).slice(0, ASKED_REASONS).map((point) => reasonFor(point, job.points)),
      Array.from(/** @type {HTMLTemplateElement} */ (document.getElementById("bl-values")).content.children, toSet)
    );
    const results = [];
    let at = 0;

    function ask() {
      box.replaceChildren();
      if (at === questions.length) {
        finish(box, results);
        return;
      }
      box.append(make("p", "bl-check-count", "Question " + (at + 1) + " of " + questions.length));
      questions[at](box, (result) => {
        results.push(result);
        const on = make("button", "bl-choice bl-choice--on", at + 1 < questions.length ? "Next question" : "See how it went");
        on.addEventListener("click", () => {
          at += 1;
          ask();
        });
        box.append(on);
        on.scrollIntoView({ block: "nearest" });
        on.focus({ preventScroll: true });
      });
      const title = box.querySelector("h2");
      title.tabIndex = -1;
      title.focus({ preventScroll: true });
      window.dispatchEvent(new Event("resize"));
    }
    ask();
  }

  function says(box) {
    const line = make("p", "bl-verdict");
    line.setAttribute("role", "status");
    box.append(line);
    return function (isRight, words) {
      line.className = "bl-verdict bl-verdict--" + (isRight ? "right" : "wrong");
      line.textContent = (isRight ? "Right. " : "Not this one. ") + words;
    };
  }

  function inOrder(steps) {
    return function (box, done) {
      box.append(make("h2", "", "Touch the steps in the order of the work"));
      let slips = 0;
      let place = 0;
      outOfOrder(steps).forEach((step) => {
        const button = make("button", "bl-choice", step.title);
        button.addEventListener("click", () => {
          if (button.classList.contains("bl-choice--done")) return;
          const wanted = steps[place];
          if (step.title === wanted.title) {
            place += 1;
            button.classList.add("bl-choice--done");
            button.prepend(make("b", "", place + " "));
            say(true, place < steps.length ? "What comes next?" : "That is the whole job.");
            if (place === steps.length) {
              const told = slips === 1 ? "1 slip" : slips + " slips";
              done({ name: "Steps in order", right: slips === 0, told: slips ? told : "no slip" });
            }
          } else {
            slips += 1;
            say(false, "“" + wanted.title + "” comes before it. " + wanted.first.what + " " + wanted.first.why);
          }
        });
        box.append(button);
      });
      const say = says(box);
    };
  }

  function choose(box, options, name, done) {
    let tried = 0;
    let isDone = false;
    options.forEach((option) => {
      const button = make("button", "bl-choice", option.words);
      button.addEventListener("click", () => {
        if (isDone) return;
        tried += 1;
        button.classList.add(option.right ? "bl-choice--done" : "bl-choice--no");
        say(option.right, option.why);
        if (option.right) {
          isDone = true;
          done({ name, right: tried === 1, told: tried === 1 ? "at the first touch" : "at touch " + tried });
        }
      });
      box.append(button);
    });
    const say = says(box);
  }

  function reasonFor(point, points) {
    return function (box, done) {
      box.append(make("h2", "", "Why? “" + point.what + "”"));
      box.append(make("p", "", "In the step “" + point.step + "”."));
      const seen = {};
      seen[point.why] = true;
      const others = shuffled(points).filter((one) => {
        if (seen[one.why] || one.what === point.what) return false;
        seen[one.why] = true;
        return true;
      });
      const offered = shuffled([point].concat(others.slice(0, OFFERED - 1)));
      const options = offered.map((one) => {
        const right = one === point;
        return { words: one.why, right, why: right ? "" : "That is the reason for “" + one.what + "”" };
      });
      choose(box, options, "Reason: " + point.what, done);
    };
  }

  function toSet(question) {
    return function (box, done) {
      box.append(make("h2", "", question.dataset.ask));
      const options = Array.from(question.children, (one) => {
        const right = one.hasAttribute("data-right");
        const why = right ? question.dataset.why + ". Source: " + question.dataset.source + "." : one.dataset.why;
        return { words: one.textContent, right, why };
      });
      choose(box, options, question.dataset.ask.replace(/\?$/, ""), done);
    };
  }

  function finish(box, results) {
    const top = /** @type {HTMLElement} */ (document.getElementById("follow")).dataset;
    const right = results.filter((one) => one.right).length;
    box.append(make("h2", "", "Show this to your trainer"));
    box.append(make("p", "bl-score", top.number + ", " + top.issue + ": " + right + " of " + results.length + " right at once"));
    const list = make("ul", "bl-outcome");
    results.forEach((one) => {
      const line = make("li", one.right ? "bl-outcome__right" : "bl-outcome__wrong");
      line.append(make("b", "", one.right ? "Right" : "Not at once"), " " + one.name + " (" + one.told + ")");
      list.append(line);
    });
    box.append(list, make("p", "", "Nothing of this is stored. It is gone when you close it."));
    const again = make("button", "bl-choice", "Check yourself again");
    again.addEventListener("click", () => {
      follow.act("check");
    });
    box.append(again);
    window.dispatchEvent(new Event("resize"));
  }

  follow.join({}, {
    check () {
      follow.cover("check", check);
    },
  });
})();
