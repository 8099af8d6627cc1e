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

  /* A box to tick in place of a drawn one; what names it is read out, and only a key is kept. */
  function tickBox(name, key) {
    const label = document.createElement("label");
    const box = document.createElement("input");
    const words = document.createElement("span");
    words.className = "bl-unseen";
    words.textContent = "Done: " + name;
    box.type = "checkbox";
    box.checked = key !== "" && kept(key);
    box.addEventListener("change", () => {
      if (key) { kept(key, box.checked); }
    });
    label.className = "bl-tick";
    label.append(box, words);
    return label;
  }

  document.querySelectorAll("[data-ticks]").forEach((list) => {
    list.querySelectorAll("[data-tick]").forEach((item) => {
      const key = "benchleaf.tick." + list.dataset.ticks + "." + item.dataset.tick;
      const name = /** @type {HTMLElement} */ (item.querySelector(".bl-item__what")).innerText.split("\n")[0];
      /** @type {HTMLElement} */ (item.querySelector(".bl-box")).replaceWith(tickBox(name, key));
    });
  });

  /* What is to be had ready, or checked each day: ticked with a finger, too */
  const page = location.pathname.split("/").slice(-2).join("/");
  document.querySelectorAll(".bl-list--box").forEach((list, which) => {
    Array.prototype.forEach.call(list.children, (item, n) => {
      const words = document.createElement("span");
      words.append.apply(words, item.childNodes);
      item.append(tickBox(words.textContent.trim(), "benchleaf.tick." + page + "." + which + "." + n), words);
    });
  });

  /* Boxes of a form are ticked on the screen as on paper; what concerns a person is kept nowhere */
  document.querySelectorAll(".bl-box").forEach((drawn) => {
    const line = drawn.closest("li, tr");
    drawn.replaceWith(tickBox(line ? line.textContent.trim() : "", ""));
  });
})();
