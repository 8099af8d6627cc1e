/* The job page opens with what matters first. The rest is one touch down, row by row, and a row is
   open wherever a link into it leads: from search, a scanned symbol, another page, or out of the step
   view. The style sheet shows what belongs to an open row. */
(function () {
  "use strict";
  const rows = /** @type {HTMLDetailsElement[]} */ (Array.from(document.querySelectorAll(".bl-rest")));
  if (!rows.length) return;

  const KEPT = "benchleaf.rest." + location.pathname; /* for whoever comes back from a word's entry */
  const STEPS = "steps"; /* the row of what is shown one step at a time */

  function kept() {
    try {
      return (sessionStorage.getItem(KEPT) || "").split(" ");
    } catch (error) {
      return []; /* then all are closed again */
    }
  }

  function keep() {
    const open = rows.filter((one) => one.open).map((one) => one.dataset.part);
    try {
      sessionStorage.setItem(KEPT, open.join(" "));
    } catch (error) {
      /* then it holds while the page is open */
    }
  }

  /** @param {Element | null} target */
  function openFor(target) {
    const part = target && /** @type {HTMLElement | null} */ (target.closest("[data-part-of], .bl-step"));
    const name = part && (part.dataset.partOf || STEPS);
    const row = rows.find((one) => one.dataset.part === name);
    if (row) row.open = true;
    return Boolean(row);
  }

  function followTheAddress() {
    const target = document.getElementById(location.hash.slice(1));
    if (target && openFor(target)) target.scrollIntoView();
  }

  /* A touch on a link to where the address leads already changes no address */
  document.addEventListener("click", (event) => {
    const link = /** @type {Element} */ (event.target).closest("a[href^='#']");
    if (link && link.getAttribute("href") === location.hash) followTheAddress();
  });
  rows.forEach((row) => row.addEventListener("toggle", keep));
  window.addEventListener("hashchange", followTheAddress);

  /* Out of the step view one lands where one was */
  let shown = /** @type {Element | null} */ (null);
  document.addEventListener("benchleaf:screen", () => {
    shown = document.querySelector(".bl-now[data-screen]") || shown;
  });
  document.addEventListener("benchleaf:left", () => openFor(shown));

  const before = kept();
  rows.forEach((row) => {
    if (before.includes(row.dataset.part || "")) row.open = true;
  });
  followTheAddress();
})();
