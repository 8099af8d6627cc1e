/* The parts in which a step is shown where it does not fit one screen, and how each is laid out.
   A table that was measured in a browser says it (`benchleaf layouts`); a step that is not in it, or
   a screen smaller than any in it, or larger text, is shown whole and scrolls. On the screen only. */
(function () {
  "use strict";

  window.benchleafParts = function (article, state) {
    /** @type {{ layout: BenchleafLayout | null, groups: string[][], index: number, isShut: boolean }} */
    let now = { layout: null, groups: [[]], index: 0, isShut: false };

    /* What a step is made of, by the names that the table uses; all else is in its first part */
    function blocks(step) {
      /** @type {Record<string, HTMLElement[]>} */
      const found = { h: [], r: Array.from(step.querySelectorAll(":scope > .bl-right")) };
      let pictures = 0;
      Array.from(step.querySelector(".bl-step__side").children).forEach((one) => {
        if (one.matches("figure, .bl-picture")) found["s" + pictures++] = [one];
        else found.h.push(one);
      });
      found.h = found.h.concat(Array.from(step.querySelectorAll(":scope > .bl-hands")));
      step.querySelectorAll(".bl-point").forEach((one, index) => {
        found["p" + index] = [one];
      });
      step.querySelectorAll(".bl-check").forEach((one, index) => {
        found["c" + index] = [one];
      });
      return found;
    }

    /** The largest size in the table that this screen holds.
     *  @returns {BenchleafLayout | null} */
    function layoutOf(step) {
      if (!step.dataset.layouts || document.documentElement.dataset.text !== "1") return null;
      /** @type {Record<string, BenchleafLayout>} */
      const table = JSON.parse(step.dataset.layouts);
      /** @type {BenchleafLayout | null} */
      let best = null;
      let most = 0;
      Object.keys(table).forEach((name) => {
        const size = name.split("x").map(Number);
        const isUpright = size[1] > size[0];
        if (size[0] > innerWidth || size[1] > innerHeight || isUpright !== innerHeight > innerWidth) return;
        if (size[0] * size[1] > most) {
          best = table[name];
          most = size[0] * size[1];
        }
      });
      return best;
    }

    function words(list) {
      return (list || []).map((part) => part.split(" "));
    }

    /* A group of hazards of which none is to be read now is passed over, and a question that is not asked */
    function toRead(step, groups) {
      const messages = step.querySelectorAll(".bl-hazard__message");
      return groups.filter((group) => isQuestion(group) ? step.matches(".bl-asks")
        : group.some((index) => messages[index] && !messages[index].classList.contains("bl-told"))
      );
    }

    /* What is asked of hazards stands apart from them where both do not fit */
    function isQuestion(group) {
      return group[0] === "?";
    }

    /* Lay out what is shown of a screen, by the table */
    function lay(screen, isShut = false) {
      clear();
      const step = screen && screen.step ? screen.parts[0] : null;
      const layout = step ? layoutOf(step) : null;
      now = { layout, groups: [[]], index: 0, isShut };
      if (!layout) return;
      now.groups = isShut ? toRead(step, words(layout.before)) : words(layout.parts);
      if (!now.groups.length) now.groups = [[]];
      const name = screen.name + (isShut ? " before" : "");
      if (state.partOf !== name) state.part = 0;
      now.index = state.part = Math.min(state.part, now.groups.length - 1);
      state.partOf = name;
      article.dataset.fit = String(isShut ? layout.beforeFit : layout.fit);
      if (isShut) layBefore(step);
      else layOpen(step, layout);
    }

    function layBefore(step) {
      if (now.groups.length < 2) return;
      const group = now.groups[now.index];
      step.querySelectorAll(".bl-hazard__message").forEach((one, index) => {
        one.classList.toggle("bl-elsewhere", !group.includes(String(index)));
      });
      step.querySelectorAll(":scope > .bl-hazard").forEach((panel) => {
        const isEmpty = !panel.querySelector(".bl-hazard__message:not(.bl-told, .bl-elsewhere)");
        panel.classList.toggle("bl-elsewhere", isEmpty);
      });
      step.classList.toggle("bl-more-to-read", now.index < now.groups.length - 1);
    }

    function layOpen(step, layout) {
      const shown = now.groups[now.index];
      const all = blocks(step);
      const has = {};
      Object.keys(all).forEach((name) => {
        const isHere = shown.includes(name) || (now.index === 0 && !words(layout.parts).flat().includes(name));
        all[name].forEach((one) => {
          one.classList.toggle("bl-elsewhere", !isHere);
          if (isHere) has[one.matches(".bl-right, .bl-check") ? "tail" : one.matches(".bl-point") ? "points" : one.matches(".bl-hands") ? "hands" : "side"] = true;
        });
      });
      step.dataset.has = Object.keys(has).join(" ");
      step.dataset.columns = layout.columns;
      step.style.setProperty("--bl-wide", layout.picture + "px");
    }

    function clear() {
      article.querySelectorAll(".bl-elsewhere, .bl-more-to-read").forEach((one) => {
        one.classList.remove("bl-elsewhere", "bl-more-to-read");
      });
      article.querySelectorAll("[data-has]").forEach((one) => {
        one.removeAttribute("data-has");
        one.removeAttribute("data-columns");
        one.style.removeProperty("--bl-wide");
      });
    }

    /* One part on or back; false where there is none */
    function turn(by) {
      const to = now.index + by;
      if (!now.layout || to < 0 || to >= now.groups.length) return false;
      state.part = to;
      return true;
    }

    function letter(index) {
      return "abcdefghijklmnopqrstuvwxyz"[index];
    }

    return {
      blocks,
      lay,
      clear,
      turn,
      isLaidOut () {
        return Boolean(now.layout);
      },
      /* Back leads into the last part of the step before */
      last (screen, isShut) {
        state.part = 99;
        state.partOf = screen.name + (isShut ? " before" : "");
      },
      /* The part in which something stands, for whoever leads to it */
      holding (screen, element) {
        const layout = screen.step ? layoutOf(screen.parts[0]) : null;
        if (!layout || !element) return;
        const all = blocks(screen.parts[0]);
        const name = Object.keys(all).find((one) =>
          all[one].some((block) => block.contains(element))
        );
        const index = words(layout.parts).findIndex((group) => group.includes(name));
        state.part = Math.max(0, index);
        state.partOf = screen.name;
      },
      told () {
        if (now.groups.length < 2) return "";
        if (isQuestion(now.groups[now.index])) return ", to answer";
        return (now.isShut ? ", to read " : ", part ") + (now.index + 1) + " of " + now.groups.length;
      },
      marks () {
        if (now.groups.length < 2) return [];
        return now.groups.map((_, index) => (
          { letter: letter(index), state: index < now.index ? "done" : index === now.index ? "now" : "" }
        ));
      },
      hasNext () {
        return now.index + 1 < now.groups.length;
      },
      /* The letter of the part before or after, where the step has such a one */
      letterAt (by) {
        const to = now.index + by;
        return now.isShut || now.groups.length < 2 || to < 0 || to >= now.groups.length ? "" : letter(to);
      },
    };
  };
})();
