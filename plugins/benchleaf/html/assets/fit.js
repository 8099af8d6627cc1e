/* What a screen of the step view has room for: the drawing of a set-up, a picture of some size, and a
   cue where more stands below. */
(function () {
  "use strict";
  const DRAWN_LEAST = 576; /* px: letters of a drawing are then 24 high */
  const DRAWN_MOST = 820;
  const CUE = 58; /* px: height of "More below" */

  window.benchleafFit = function (article, stage, bottom) {
    const more = /** @type {HTMLElement} */ (bottom.querySelector("[data-do='more']"));

    /* A step with a set-up and no picture shows the drawing of that set-up */
    function drawInSteps() {
      article.querySelectorAll(".bl-step[data-set-up]").forEach((step) => {
        const side = /** @type {HTMLElement} */ (step.querySelector(".bl-step__side"));
        const frame = article.querySelector("#" + CSS.escape(step.dataset.setUp || "") + " .bl-drawing__frame");
        if (!frame || side.querySelector(".bl-picture")) return;
        const name = /** @type {Element} */ (frame.querySelector("title")).id.replace(/-title$/, "");
        const copy = document.createElement("template");
        copy.innerHTML = frame.outerHTML.split(name).join(name + "--" + step.id);
        /** @type {Element} */ (copy.content.firstElementChild).classList.add("bl-drawing__frame--step");
        side.append(copy.content);
      });
    }

    /* Where a screen is too full, the drawing gets smaller, then it goes; then the picture gets smaller */
    function fit() {
      let level = 0;
      more.hidden = true; /* its strip takes room only where the screen scrolls all the same */
      article.dataset.fit = "0";
      draw();
      while (level < 3 && isOver()) {
        level += 1;
        article.dataset.fit = String(level);
      }
      /* a screen that scrolls all the same need not be so small */
      if (isOver()) article.dataset.fit = "2";
    }

    function isOver() {
      return stage.scrollHeight > stage.clientHeight;
    }

    /* As large as fits, and no smaller than its letters can be read */
    function draw() {
      const step = article.querySelector(".bl-now:not(.bl-shut):has(.bl-drawing__frame--step)");
      if (!step) return;
      const room = step.clientWidth;
      const least = Math.min(DRAWN_LEAST, room);
      step.classList.add("bl-drawn");
      for (let wide = Math.min(DRAWN_MOST, room); wide >= least; wide -= Math.min(40, Math.max(1, wide - least))) {
        step.style.setProperty("--bl-drawn", wide + "px");
        for (const where of ["beside", "below"]) { /* the figures to set */
          step.dataset.drawn = where;
          if (!isOver()) return;
        }
      }
      step.classList.remove("bl-drawn");
    }

    function cue() {
      more.hidden = stage.scrollHeight - stage.clientHeight - stage.scrollTop < 24;
      let higher = 0;
      bottom.style.setProperty("--bl-cut", "0px");
      for (let turn = 0; turn < 4 && !more.hidden && higher <= CUE; turn += 1) {
        higher += cut();
        bottom.style.setProperty("--bl-cut", higher + "px");
      }
      /* two columns may have no end of a line in common */
      if (higher > CUE || (!more.hidden && cut())) bottom.style.setProperty("--bl-cut", "0px");
    }

    /* How much of a line of text is seen above the cue: it begins higher, so that it cuts through none */
    function cut() {
      const edge = more.getBoundingClientRect().top;
      let highest = edge;
      const range = document.createRange();
      article.querySelectorAll(".bl-now").forEach((part) => {
        const texts = document.createTreeWalker(part, NodeFilter.SHOW_TEXT);
        while (texts.nextNode()) {
          if (!/** @type {Text} */ (texts.currentNode).data.trim()) continue;
          range.selectNodeContents(texts.currentNode);
          Array.from(range.getClientRects()).forEach((line) => {
            if (line.top < edge - 1 && line.bottom > edge + 2) highest = Math.min(highest, line.top);
          });
        }
      });
      return Math.ceil(edge - highest);
    }

    drawInSteps();
    return { fit, cue };
  };
})();
