/* What a screen of the step view has room for: the drawing of a set-up in its step, and a cue in a
   strip of its own where more stands below. */
(function () {
  "use strict";
  const CUE = 58; /* px: height of "More below" */
  const TIGHT = 1; /* how much closer a screen stands that is too full */

  window.benchleafFit = function (article, stage, bottom, parts) {
    const more = /** @type {HTMLElement} */ (bottom.querySelector("[data-do='more']"));
    let lines = []; /* top and bottom of each line of text, where the screen is not scrolled */
    let waits = false;

    /* A step with a set-up and no picture shows the drawing of that set-up */
    function drawInSteps() {
      article.querySelectorAll(".bl-scene").forEach((scene) => {
        scene.classList.add("bl-drawing__frame--step");
      });
      article.querySelectorAll(".bl-step[data-set-up]").forEach((step) => {
        const side = /** @type {HTMLElement} */ (step.querySelector(".bl-step__side"));
        const frame = article.querySelector("#" + CSS.escape(step.dataset.setUp || "") + " .bl-drawing__frame");
        if (!frame || side.querySelector("figure, .bl-picture, .bl-scene")) return;
        const name = /** @type {Element} */ (frame.querySelector("title")).id.replace(/-title$/, "");
        const copy = document.createElement("template");
        copy.innerHTML = frame.outerHTML.split(name).join(name + "--" + step.id);
        /** @type {Element} */ (copy.content.firstElementChild).classList.add("bl-drawing__frame--step");
        side.append(copy.content);
      });
    }

    function isOver() {
      return stage.scrollHeight > stage.clientHeight;
    }

    /* What the table does not lay out stands closer where it is too full, and scrolls if that is not enough */
    function fit() {
      more.hidden = true; /* its strip takes room only where the screen scrolls */
      bottom.style.setProperty("--bl-cut", "0px");
      if (!parts.isLaidOut()) {
        article.dataset.fit = "0";
        if (isOver()) article.dataset.fit = String(TIGHT);
      }
      measure();
    }

    function measure() {
      lines = [];
      if (!isOver()) return;
      const range = document.createRange();
      const scrolled = stage.scrollTop;
      article.querySelectorAll(".bl-now").forEach((part) => {
        const texts = document.createTreeWalker(part, NodeFilter.SHOW_TEXT);
        while (texts.nextNode()) {
          if (!/** @type {Text} */ (texts.currentNode).data.trim()) continue;
          range.selectNodeContents(texts.currentNode);
          Array.from(range.getClientRects()).forEach((line) => {
            if (line.height) lines.push([line.top + scrolled, line.bottom + scrolled]);
          });
        }
      });
    }

    /* The strip begins higher where its edge would cut through a line; two columns may have no end of
       a line in common */
    function cue() {
      waits = false;
      more.hidden = stage.scrollHeight - stage.clientHeight - stage.scrollTop < 24;
      bottom.style.setProperty("--bl-cut", "0px");
      if (more.hidden) return;
      const lowest = more.getBoundingClientRect().top + stage.scrollTop;
      let edge = lowest;
      const cut = function (line) {
        return line[0] < edge - 1 && line[1] > edge + 2;
      };
      while (lowest - edge <= CUE && lines.some(cut)) {
        edge = Math.min.apply(null, lines.filter(cut).map((line) => line[0]));
      }
      if (lowest - edge <= CUE) bottom.style.setProperty("--bl-cut", Math.ceil(lowest - edge) + "px");
    }

    /* Once a frame, whatever the wheel sends */
    function cueSoon() {
      if (waits) return;
      waits = true;
      requestAnimationFrame(cue);
    }

    drawInSteps();
    return { fit, cue, cueSoon, isOver };
  };
})();
