/* Finds for each step of a job page, at the size of this screen, how it is laid out so that it does not
   scroll: run by `benchleaf layouts` in a browser, never on a kiosk. Fewest parts first, then letters
   not smaller, then the largest picture. */
(function () {
  "use strict";
  var LEAST = { phone: 300, tall: 576, wide: 576, low: 440 }; /* px: letters of a drawing are then 24 high, 18 on a low screen */
  var LEAST_WORDS = { phone: 300, tall: 772, wide: 772, low: 643 }; /* px: of a picture with words, which are 28 high in its 900 */
  var SMALLEST = 150; /* px: a picture that is higher than wide is no narrower */
  var HIGHEST = 0.5; /* of the screen: how high a picture may be, and one with words */
  var HIGHEST_WORDS = 0.58;
  var STEPS = 6; /* sizes of picture that are tried */
  /* With cards on reasons, which take most room, a card on the step, the showing, and cards on points */
  var ROUNDS = [4, 1, 0, 3];
  var MOST = 12; /* parts */
  var ROOMY = 2; /* letters and gaps larger: `data-fit` of the style sheet */

  function form() {
    if (innerWidth < 960) return "phone";
    if (innerHeight >= innerWidth) return "tall";
    return innerWidth >= 1760 && innerHeight >= 992 ? "wide" : "low";
  }

  window.benchleafPlan = function () {
    var follow = window.benchleafFollow;
    var state = follow.state;
    var size = innerWidth + "x" + innerHeight;
    var main = document.getElementById("main");

    function isOver() {
      return follow.isOver() || main.scrollWidth > main.clientWidth;
    }

    /* Whether a part of a layout fits, in the showing or as it is with the cards of a round */
    function fits(screen, layout, index, round) {
      screen.parts[0].dataset.layouts = JSON.stringify((function () {
        var table = {};
        table[size] = layout;
        return table;
      })());
      state.round = round || 0;
      state.at = follow.screens.indexOf(screen);
      follow.markRead(screen);
      state.part = index;
      state.partOf = screen.name;
      follow.show();
      return !isOver();
    }

    function fitsWhole(screen, layout) {
      return ROUNDS.every(function (round) {
        return layout.parts.every(function (_, index) {
          return fits(screen, layout, index, round);
        });
      });
    }

    /* What must stand together: a point that can injure, with the act that it belongs to */
    function units(screen) {
      var all = follow.parts.blocks(screen.parts[0]);
      var found = [];
      var isAct = false;
      if (all.h.length) found.push("h");
      Object.keys(all).forEach(function (name) {
        if (name[0] === "s") found.push(name);
      });
      screen.parts[0].querySelectorAll(".bl-point").forEach(function (point, index) {
        var injures = point.classList.contains("bl-point--can-injure");
        if (injures && isAct) found[found.length - 1] += " p" + index;
        else found.push("p" + index);
        isAct = isAct || !injures;
      });
      if (all.r.length) found.push("r");
      Object.keys(all).forEach(function (name) {
        if (name[0] === "c") found.push(name);
      });
      return found;
    }

    /* An act with more points that can injure than fit one part stands with each of them */
    function repeated(all) {
      return all.flatMap(function (one) {
        var names = one.split(" ");
        if (names.length < 3) return [one];
        return names.slice(1).map(function (name) {
          return names[0] + " " + name;
        });
      });
    }

    function shape(screen) {
      var found = (follow.parts.blocks(screen.parts[0]).s0 || [])[0];
      if (!found) return 0;
      var one = found.querySelector("img") || found.querySelector("svg[viewBox]");
      if (!one) return 1.5;
      var box = one.viewBox && one.viewBox.baseVal;
      return box && box.width ? box.width / box.height : (Number(one.getAttribute("width")) || 3) / (Number(one.getAttribute("height")) || 2);
    }

    function widths(screen) {
      var ratio = shape(screen);
      if (!ratio) return [0];
      var name = form();
      var hasWords = Boolean(screen.parts[0].querySelector(".bl-step__side img"));
      var high = innerHeight * (hasWords ? HIGHEST_WORDS : HIGHEST);
      var most = Math.min(name === "wide" || name === "low" ? innerWidth * 0.56 : innerWidth - (name === "phone" ? 12 : 48), high * ratio);
      var wanted = hasWords ? LEAST_WORDS[name] : Math.min(LEAST[name], LEAST[name] * ratio / 1.3);
      var least = Math.min(most, Math.max(SMALLEST, wanted));
      var found = [];
      for (var i = 0; i < STEPS; i += 1) found.push(Math.round(most - ((most - least) * i) / (STEPS - 1)));
      return found.filter(function (one, index) {
        return found.indexOf(one) === index;
      });
    }

    function columns(screen) {
      var points = screen.parts[0].querySelectorAll(".bl-point").length;
      if (points < 2 || form() === "phone") return [1];
      return form() === "tall" ? [2, 1] : [1, 2];
    }

    function made(fit, wide, count, parts) {
      return { fit: fit, columns: count, picture: wide, parts: parts, beforeFit: 0, before: [] };
    }

    /* Larger letters with a large picture, then letters as they are, then smaller ones */
    function inOne(screen, all, sizes) {
      for (var fit of [ROOMY, 0, 1]) {
        for (var wide of fit === ROOMY ? sizes.slice(0, STEPS / 2) : sizes) {
          for (var count of columns(screen)) {
            var layout = made(fit, wide, count, [all.join(" ")]);
            if (fits(screen, layout, 0) && fitsWhole(screen, layout)) return layout;
          }
        }
      }
      return null;
    }

    /* As much in each part as fits, in the order of the work */
    function packed(screen, all, fit, wide, count) {
      for (var many = 2; many <= MOST; many += 1) {
        var layout = packedIn(many, screen, all, fit, wide, count);
        if (layout !== undefined) return layout;
      }
      return null;
    }

    /* Undefined where it takes more parts: each has a mark beside the title, which takes room */
    function packedIn(many, screen, all, fit, wide, count) {
      var parts = [];
      var rest = all.slice();
      while (rest.length) {
        if (parts.length === many) return undefined;
        var taken = rest.length;
        for (; taken > 0; taken -= 1) {
          var parted = parts.concat(rest.slice(0, taken).join(" "));
          if (taken < rest.length) parted.push(rest.slice(taken).join(" "));
          while (parted.length < many) parted.push("later");
          var layout = made(fit, wide, count, parted);
          var index = parts.length;
          if (ROUNDS.every(function (round) {
            return fits(screen, layout, index, round);
          })) break;
        }
        if (!taken) return null;
        parts.push(rest.slice(0, taken).join(" "));
        rest = rest.slice(taken);
      }
      return made(fit, wide, count, parts);
    }

    function inParts(screen, all, sizes) {
      var best = null;
      var tried = sizes.length > 2 ? [sizes[0], sizes[2], sizes[sizes.length - 1]] : sizes;
      [0, 1].forEach(function (fit) {
        tried.forEach(function (wide) {
          columns(screen).forEach(function (count) {
            var layout = packed(screen, all, fit, wide, count);
            if (layout && (!best || cost(layout) < cost(best))) best = layout;
          });
        });
      });
      return best && evened(screen, all, best);
    }

    /* Fewest parts; where to stand and what to set do not stand alone before a picture */
    function cost(layout) {
      return layout.parts.length * 2 + (layout.parts[0] === "h" ? 1 : 0);
    }

    /* No part with one line in it where the others are full: the last cut comes as early as fits */
    function evened(screen, all, layout) {
      if (layout.parts.length < 2 || new Set(all.join(" ").split(" ")).size < all.join(" ").split(" ").length) return layout;
      var last = layout.parts.length - 1;
      for (;;) {
        var before = groupsOf(all, layout.parts[last - 1]);
        if (before.length < 2 || height(layout.parts[last]) >= height(layout.parts[last - 1]) - 1) return layout;
        var parts = layout.parts.slice();
        var moved = before.pop();
        parts[last - 1] = before.join(" ");
        parts[last] = moved + " " + parts[last];
        var next = made(layout.fit, layout.picture, layout.columns, parts);
        if (!fitsWhole(screen, next)) return layout;
        layout = next;
      }
    }

    function groupsOf(all, part) {
      return all.filter(function (one) {
        return part.split(" ").includes(one.split(" ")[0]);
      });
    }

    /* Roughly: points and pictures count */
    function height(part) {
      return part.split(" ").filter(function (one) {
        return one !== "h";
      }).length;
    }

    /* What a hazard's question takes at most: its two longest wrong answers, and the help after a
       wrong touch. Each round may ask about another hazard */
    function isRoomToAsk(screen, told) {
      var rounds = document.getElementById("bl-rounds").content.children.length;
      for (var round = 0; round < rounds; round += 1) {
        Object.assign(state, { round: round, told: told(), read: {} });
        follow.show();
        var box = screen.parts[0].querySelector(":scope > .bl-question");
        if (box) fill(screen, box);
        if (isOver()) return false;
        if (!box) return true;
      }
      return true;
    }

    function fill(screen, box) {
      var right = Array.from(screen.parts[0].querySelectorAll("[data-control]"), function (one) {
        return one.dataset.control;
      });
      var shown = Array.from(box.querySelectorAll(".bl-answer")).filter(function (one) {
        return !right.includes(one.textContent);
      });
      longest(shown[0]).slice(0, shown.length).forEach(function (words, index) {
        shown[index].textContent = words;
      });
      shown[0].click();
    }

    /* All answers of the list in which this one stands, the longest first */
    function longest(answer) {
      var lists = document.getElementById("bl-answers").content.children;
      return Array.from(lists, function (list) {
        return Array.from(list.children, function (one) {
          return one.textContent;
        });
      }).find(function (list) {
        return list.includes(answer.textContent);
      }).sort(function (a, b) {
        return b.length - a.length;
      });
    }

    /* The hazards that come before a step, as many on a screen as fit: all new; and what is asked
       below the last of them, also where those before it were told and stand in the strip */
    function before(screen, layout) {
      var messages = screen.parts[0].querySelectorAll(".bl-hazard__message").length;
      var all = Array.from({ length: messages }, function (_, index) {
        return String(index);
      });
      function isRoom(fit, groups, index) {
        layout.beforeFit = fit;
        layout.before = groups;
        var table = {};
        table[size] = layout;
        screen.parts[0].dataset.layouts = JSON.stringify(table);
        function at() {
          Object.assign(state, { part: index, partOf: screen.name + " before" });
          return {};
        }
        function known(isKnown) {
          var told = {};
          screen.parts[0].querySelectorAll(".bl-hazard__message").forEach(function (one, place) {
            if (isKnown(String(place))) told[one.dataset.hazard] = true;
          });
          Object.assign(state, { part: 0, partOf: screen.name + " before" });
          return told;
        }
        function others() {
          return known(function (place) {
            return !groups[index].split(" ").includes(place);
          });
        }
        function each() {
          return known(function () {
            return true;
          });
        }
        state.at = follow.screens.indexOf(screen);
        if (!isRoomToAsk(screen, at)) return false;
        return index < groups.length - 1 || (isRoomToAsk(screen, others) && isRoomToAsk(screen, each));
      }
      if (!messages) return true;
      for (var fit of [ROOMY, 0, 1]) if (isRoom(fit, [all.join(" ")], 0)) return true;
      /* the question below the last of them, or, where both do not fit, on a screen of its own */
      for (var last of [[], ["?"]]) {
        for (fit of [0, 1]) {
          var groups = grouped(fit, last);
          if (!groups) continue;
          layout.beforeFit = fit;
          layout.before = groups;
          return true;
        }
      }
      return false;

      function grouped(fit, last) {
        var groups = [];
        var rest = all.slice();
        while (rest.length) {
          var taken = rest.length;
          for (; taken > 0; taken -= 1) {
            var tried = groups.concat(rest.slice(0, taken).join(" "));
            if (taken < rest.length) tried = tried.concat(rest.slice(taken).join(" "));
            if (isRoom(fit, tried.concat(last), groups.length)) break;
          }
          if (!taken) return null;
          groups.push(rest.slice(0, taken).join(" "));
          rest = rest.slice(taken);
        }
        groups = groups.concat(last);
        return last.length && !isRoom(fit, groups, groups.length - 1) ? null : groups;
      }
    }

    var found = {};
    follow.steps.forEach(function (screen) {
      var step = screen.parts[0];
      var kept = step.dataset.layouts;
      var all = units(screen);
      var sizes = widths(screen);
      var layout = inOne(screen, all, sizes) || inParts(screen, all, sizes) || inParts(screen, repeated(all), sizes) || inParts(screen, all, [LEAST[form()]]); /* words in it are then small */
      var key = step.dataset.laidOut;
      found[key] = layout || { failed: "step" };
      if (layout && !before(screen, layout)) Object.assign(layout, { beforeFit: 0, before: [], failed: "before" });
      if (kept === undefined) step.removeAttribute("data-layouts");
      else step.dataset.layouts = kept;
    });
    return found;
  };

  /* In the frame of `benchleaf layouts`: begin when all scripts have run, and answer once */
  if (parent !== window) {
    addEventListener("load", function () {
      document.fonts.ready.then(function () {
        parent.postMessage(window.benchleafPlan(), "*");
      });
    });
  }
})();
