/* The self-check, built from the breakdown. Results stay on the screen and nowhere else. */
(function () {
  "use strict";
  var follow = /** @type {BenchleafFollow} */ (window.benchleafFollow);
  if (!follow) return;
  var make = window.benchleafMake;
  var ASKED_REASONS = 3;
  var OFFERED = 4;

  function shuffled(list) {
    var copy = list.slice();
    for (var i = copy.length - 1; i > 0; i -= 1) {
      var j = Math.floor(Math.random() * (i + 1));
      var one = copy[i];
      copy[i] = copy[j];
      copy[j] = one;
    }
    return copy;
  }

  function outOfOrder(list) {
    var mixed = shuffled(list);
    var same = list.every(function (one, index) {
      return one === mixed[index];
    });
    return same && list.length > 1 ? list.slice().reverse() : mixed;
  }

  function plain(element) {
    var copy = element.cloneNode(true);
    copy.querySelectorAll(".bl-unseen, .bl-step__number, .bl-point__label, .bl-speak").forEach(function (one) {
      one.remove();
    });
    return copy.textContent.replace(/\s+/g, " ").trim();
  }

  function read() {
    var points = [];
    var steps = follow.steps.map(function (screen) {
      var part = screen.parts[0];
      var title = plain(part.querySelector(".bl-step__title"));
      part.querySelectorAll(".bl-point").forEach(function (point) {
        points.push({
          step: title,
          what: plain(point.querySelector(".bl-point__what")),
          why: plain(point.querySelector(".bl-point__why")),
        });
      });
      return { title: title, first: points.find(function (one) {
        return one.step === title;
      }) };
    });
    return { steps: steps, points: points };
  }

  function check(box) {
    follow.veil(null, false);
    var job = read();
    var questions = [inOrder(job.steps)].concat(
      shuffled(job.points).slice(0, ASKED_REASONS).map(function (point) {
        return reasonFor(point, job.points);
      }),
      Array.from(/** @type {HTMLTemplateElement} */ (document.getElementById("bl-values")).content.children, toSet)
    );
    var results = [];
    var at = 0;

    function ask() {
      box.replaceChildren();
      if (at === questions.length) {
        finish(box, results);
        return;
      }
      box.append(make("p", "bl-check-count", "Question " + (at + 1) + " of " + questions.length));
      questions[at](box, function (result) {
        results.push(result);
        var on = make("button", "bl-choice bl-choice--on", at + 1 < questions.length ? "Next question" : "See how it went");
        on.addEventListener("click", function () {
          at += 1;
          ask();
        });
        box.append(on);
        on.scrollIntoView({ block: "nearest" });
        on.focus({ preventScroll: true });
      });
      var title = box.querySelector("h2");
      title.tabIndex = -1;
      title.focus({ preventScroll: true });
      window.dispatchEvent(new Event("resize"));
    }
    ask();
  }

  function says(box) {
    var line = make("p", "bl-verdict");
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
      var slips = 0;
      var place = 0;
      outOfOrder(steps).forEach(function (step) {
        var button = make("button", "bl-choice", step.title);
        button.addEventListener("click", function () {
          if (button.classList.contains("bl-choice--done")) return;
          var wanted = steps[place];
          if (step.title === wanted.title) {
            place += 1;
            button.classList.add("bl-choice--done");
            button.prepend(make("b", "", place + " "));
            say(true, place < steps.length ? "What comes next?" : "That is the whole job.");
            if (place === steps.length) {
              var told = slips === 1 ? "1 slip" : slips + " slips";
              done({ name: "Steps in order", right: slips === 0, told: slips ? told : "no slip" });
            }
          } else {
            slips += 1;
            say(false, "“" + wanted.title + "” comes before it. " + wanted.first.what + " " + wanted.first.why);
          }
        });
        box.append(button);
      });
      var say = says(box);
    };
  }

  function choose(box, options, name, done) {
    var tried = 0;
    var isDone = false;
    options.forEach(function (option) {
      var button = make("button", "bl-choice", option.words);
      button.addEventListener("click", function () {
        if (isDone) return;
        tried += 1;
        button.classList.add(option.right ? "bl-choice--done" : "bl-choice--no");
        say(option.right, option.why);
        if (option.right) {
          isDone = true;
          done({ name: name, right: tried === 1, told: tried === 1 ? "at the first touch" : "at touch " + tried });
        }
      });
      box.append(button);
    });
    var say = says(box);
  }

  function reasonFor(point, points) {
    return function (box, done) {
      box.append(make("h2", "", "Why? “" + point.what + "”"));
      box.append(make("p", "", "In the step “" + point.step + "”."));
      var seen = {};
      seen[point.why] = true;
      var others = shuffled(points).filter(function (one) {
        if (seen[one.why] || one.what === point.what) return false;
        seen[one.why] = true;
        return true;
      });
      var offered = shuffled([point].concat(others.slice(0, OFFERED - 1)));
      var options = offered.map(function (one) {
        var right = one === point;
        return { words: one.why, right: right, why: right ? "" : "That is the reason for “" + one.what + "”" };
      });
      choose(box, options, "Reason: " + point.what, done);
    };
  }

  function toSet(question) {
    return function (box, done) {
      box.append(make("h2", "", question.dataset.ask));
      var options = Array.from(question.children, function (one) {
        var right = one.hasAttribute("data-right");
        var why = right ? question.dataset.why + ". Source: " + question.dataset.source + "." : one.dataset.why;
        return { words: one.textContent, right: right, why: why };
      });
      choose(box, options, question.dataset.ask.replace(/\?$/, ""), done);
    };
  }

  function finish(box, results) {
    var top = /** @type {HTMLElement} */ (document.getElementById("follow")).dataset;
    var right = results.filter(function (one) {
      return one.right;
    }).length;
    box.append(make("h2", "", "Show this to your trainer"));
    box.append(make("p", "bl-score", top.number + ", " + top.issue + ": " + right + " of " + results.length + " right at once"));
    var list = make("ul", "bl-outcome");
    results.forEach(function (one) {
      var line = make("li", one.right ? "bl-outcome__right" : "bl-outcome__wrong");
      line.append(make("b", "", one.right ? "Right" : "Not at once"), " " + one.name + " (" + one.told + ")");
      list.append(line);
    });
    box.append(list, make("p", "", "Nothing of this is stored. It is gone when you close it."));
    var again = make("button", "bl-choice", "Check yourself again");
    again.addEventListener("click", function () {
      follow.act("check");
    });
    box.append(again);
    window.dispatchEvent(new Event("resize"));
  }

  follow.join({}, {
    check: function () {
      follow.cover("check", check);
    },
  });
})();
