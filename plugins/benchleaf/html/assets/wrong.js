/* *Something is wrong*: a choice leads to what is done there, on the page and over a step. A step that
   is touched in its line opens as one step at a time. */
(function () {
  "use strict";

  document.addEventListener("click", (event) => {
    const from = /** @type {Element} */ (event.target);
    const choice = from.closest("a[data-to]");
    const target = choice && document.getElementById((choice.getAttribute("href") || "").slice(1));
    if (target) {
      event.preventDefault(); /* the address stays: over a step it holds the place */
      target.tabIndex = -1;
      target.scrollIntoView();
      target.focus({ preventScroll: true });
      return;
    }
    const line = /** @type {HTMLElement | null} */ (from.closest("[data-step-of]"));
    if (line && document.getElementById("follow")) {
      event.preventDefault();
      document.dispatchEvent(new CustomEvent("benchleaf:step", { detail: line.dataset.stepOf }));
    }
  });
})();
