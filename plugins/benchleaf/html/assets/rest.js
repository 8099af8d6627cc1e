/* The job page opens with what matters first. The rest is one touch down, and open wherever a link
   into it leads: from search, a scanned symbol, another page, or out of the step view. */
(function () {
  "use strict";
  const rest = /** @type {HTMLDetailsElement} */ (document.querySelector(".bl-rest"));
  if (!rest) return;

  const KEPT = "benchleaf.rest." + location.pathname; /* for whoever comes back from a word's entry */

  function kept() {
    try {
      return sessionStorage.getItem(KEPT) === "1";
    } catch (error) {
      return false; /* then it is closed again */
    }
  }

  rest.addEventListener("toggle", () => {
    try {
      sessionStorage.setItem(KEPT, rest.open ? "1" : "0");
    } catch (error) {
      /* then it holds while the page is open */
    }
  });

  function openFor(target) {
    if (!target || !(rest.compareDocumentPosition(target) & Node.DOCUMENT_POSITION_FOLLOWING)) return;
    rest.open = true;
    target.scrollIntoView();
  }

  function followTheAddress() {
    openFor(document.getElementById(location.hash.slice(1)));
  }

  /* A touch on a link to where the address leads already changes no address */
  document.addEventListener("click", (event) => {
    const link = /** @type {Element} */ (event.target).closest("a[href^='#']");
    if (link && link.getAttribute("href") === location.hash) followTheAddress();
  });
  window.addEventListener("hashchange", followTheAddress);
  document.addEventListener("benchleaf:left", () => {
    rest.open = true; /* where the learner was stands in it */
  });
  if (kept()) rest.open = true;
  followTheAddress();
})();
