/* Copy a page's link, print a sheet, tick a list. Ticks last until the browser closes. */
(function () {
  "use strict";

  function tell(button, words) {
    button.parentNode.querySelector("[role='status']").textContent = words;
  }

  document.querySelectorAll("[data-copy]").forEach((button) => {
    button.addEventListener("click", () => {
      const link = button.dataset.copy || location.href.split("#")[0];
      const copied = navigator.clipboard ? navigator.clipboard.writeText(link) : Promise.reject();
      copied.then(
        () => { tell(button, "Copied"); },
        () => { tell(button, link); } /* shown, to be copied by hand */
      );
    });
  });

  document.querySelectorAll("[data-print]").forEach((button) => {
    button.addEventListener("click", () => { window.print(); });
  });

  /* A table that is wider than the screen says so: nothing else shows that more stands beside it */
  document.querySelectorAll(".bl-wide, .bl-chart, .bl-paper").forEach((box) => {
    const cue = document.createElement("p");
    cue.className = "bl-wide__cue bl-not-printed";
    cue.textContent = "More stands to the right. Move the table sideways.";
    cue.hidden = true;
    box.before(cue);
    new ResizeObserver(() => {
      cue.hidden = box.scrollWidth - box.clientWidth < 2;
    }).observe(box);
  });

  function kept(key, value) {
    try {
      if (value === undefined) { return sessionStorage.getItem(key) === "1"; }
      sessionStorage.setItem(key, value ? "1" : "0");
    } catch (error) {
      /* nothing is kept here: the tick holds while the page is open */
    }
    return false;
  }

  document.querySelectorAll("[data-ticks]").forEach((list) => {
    list.querySelectorAll("[data-tick]").forEach((item) => {
      const key = "benchleaf.tick." + list.dataset.ticks + "." + item.dataset.tick;
      const label = document.createElement("label");
      const box = document.createElement("input");
      const words = document.createElement("span");
      words.className = "bl-unseen";
      words.textContent = "Done: " + /** @type {HTMLElement} */ (item.querySelector(".bl-item__what")).innerText.split("\n")[0];
      box.type = "checkbox";
      box.checked = kept(key);
      box.addEventListener("change", () => { kept(key, box.checked); });
      label.className = "bl-tick";
      label.append(box, words);
      /** @type {HTMLElement} */ (item.querySelector(".bl-box")).replaceWith(label);
    });
  });
})();
