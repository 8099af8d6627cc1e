/* The teeth of the step view: wide and with the title is where one stands, full is done, open is ahead.
   The title itself stands in its step and lies over the wide tooth, which is as high as it is. */
(function () {
  "use strict";

  window.benchleafRack = function (article, top, parts) {
    /* `isCovered`: something else stands on the screen, and one is where one was */
    function show(screen, shut, isPast, isCovered) {
      const at = screen ? screen.step : 0;
      const step = isCovered ? 0 : at;
      const teeth = top.querySelectorAll(".bl-rack li");
      top.classList.toggle("bl-top--step", Boolean(step));
      teeth.forEach((tooth, index) => {
        const done = screen ? (at ? index + 1 < at : isPast) : true;
        tooth.className = index + 1 === step ? "bl-rack__now" : done ? "bl-rack__done" : "";
        if (Math.abs(index + 1 - step) === 1) tooth.classList.add("bl-rack__near");
        tooth.querySelectorAll("span").forEach((one) => {
          one.remove();
        });
      });
      if (!step) return;
      /* the tooth is as high as its title, which itself stands in its section and lies over it */
      const part = screen.parts[0];
      const title = part.querySelector(shut ? ".bl-step__before" : ".bl-step__title");
      const room = document.createElement("span");
      room.className = "bl-rack__title";
      room.textContent = title.textContent.replace(/^\s*Step\s*\d+\s*/, "");
      const tooth = teeth[step - 1];
      tooth.classList.toggle("bl-rack__shut", shut);
      tooth.append(room);
      if (!shut) tooth.append(marks()); /* what is to read is counted in words */
      place(tooth);
    }

    function marks() {
      const box = document.createElement("span");
      box.className = "bl-rack__parts";
      parts.marks().forEach((one) => {
        const mark = document.createElement("i");
        mark.textContent = one.letter;
        mark.className = one.state ? "bl-rack__part--" + one.state : "";
        box.append(mark);
      });
      return box;
    }

    function place(tooth) {
      const at = tooth.getBoundingClientRect();
      const from = article.getBoundingClientRect();
      article.style.setProperty("--bl-tooth-top", at.top - from.top + "px");
      article.style.setProperty("--bl-tooth-left", at.left - from.left + "px");
      article.style.setProperty("--bl-tooth-wide", at.width + "px");
      article.style.setProperty("--bl-tooth-high", at.height + "px");
      article.style.setProperty("--bl-marks", tooth.querySelector("i") ? tooth.lastChild.offsetWidth + "px" : "0px");
    }

    return { show };
  };
})();
