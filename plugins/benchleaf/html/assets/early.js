/* Runs before the page is drawn, so that a chosen screen light or text size never flashes. */
(function () {
  "use strict";
  const root = document.documentElement;
  root.classList.replace("no-js", "js");
  try {
    root.dataset.mdColorScheme = localStorage.getItem("benchleaf.light") || "default";
    root.dataset.text = localStorage.getItem("benchleaf.text") || "1";
  } catch (error) {
    root.dataset.text = "1"; /* a browser that keeps nothing still shows the page */
  }
})();
