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

/* The copy judges itself (publish/seal.py). The page says the stamp of its build and how many parts it
   has; at the end of each script stands a function, and of each style sheet a property, named after file
   and stamp. What the reader is told leans on no style sheet, for that may be what is damaged. */
(function () {
  "use strict";
  const root = document.documentElement;
  const PARTS = "section, h1, h2, h3, h4, h5, h6, li, p, dt, dd, figure, img";
  const SLOW = 20000; /* ms: until a page that takes longer is whole, it says that it is not checked */
  const AGAIN = 500; /* ms: a picture that was cut off by a touch on a link is no missing one */
  const FOLDER = new URL(".", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;
  const SITE = new URL("../../", FOLDER).href;
  const KEPT = "benchleaf.seal";
  const [stamp, parts] = (root.dataset.seal || "").split(" ");
  window.benchleafSeal = true;
  if (root.dataset.seal === "") return; /* a preview */

  let found = ""; /* the first damage */
  let isLeaving = false;
  let isLate = false;
  let isLoaded = false;

  function line() {
    let shown = /** @type {HTMLElement | null} */ (document.querySelector(".bl-seal"));
    if (!shown) {
      shown = document.createElement("p");
      shown.className = "bl-seal bl-not-printed";
      document.body.prepend(shown);
    }
    return shown;
  }

  function show() {
    const shown = line();
    Object.assign(shown.style, {
      display: "block", position: "sticky", top: "0", zIndex: "99", margin: "0", padding: "0.5em 14px",
      background: "#000", color: "#fff", border: "4px double #fff", textAlign: "center", overflowWrap: "anywhere",
      font: "700 clamp(20px, 12px + 2vw, 40px)/1.25 Leaf, Arial, sans-serif",
    });
    if (!found) return;
    shown.setAttribute("role", "alert");
    shown.textContent = root.dataset.damaged || "This copy is damaged. Do not work from it. Tell the shift lead.";
    const what = document.createElement("small");
    what.textContent = found;
    Object.assign(what.style, { display: "block", fontSize: "max(16px, 0.7em)", fontWeight: "500" });
    shown.append(what);
    /* The step view fills the screen: it begins below, so that nothing of it is covered */
    const main = document.getElementById("main");
    if (main) {
      new ResizeObserver(() => {
        main.style.top = shown.offsetHeight + "px";
        window.dispatchEvent(new Event("resize")); /* what fitted the screen is laid out anew */
      }).observe(shown);
    }
  }

  /* A new copy may have been laid under an open page. So what is found after a page has loaded counts
     once the page was read anew, and is still of the same build. A script that leads elsewhere when its
     file is not whole (data-elsewhere) is let: the page that comes then tells it. */
  function readsAnew(what, elsewhere) {
    try {
      sessionStorage.setItem(KEPT, stamp + what);
      isLeaving = true;
      if (!elsewhere) location.reload();
      return true;
    } catch (error) {
      return false;
    }
  }

  function recall() {
    try {
      const kept = sessionStorage.getItem(KEPT) || "";
      sessionStorage.removeItem(KEPT);
      return kept.startsWith(stamp) ? kept.slice(stamp.length) : "";
    } catch (error) {
      return "";
    }
  }

  function tell(what, elsewhere = "") {
    if (found || isLeaving || (isLoaded && readsAnew(what, elsewhere))) return;
    found = what;
    if (document.readyState !== "loading") show();
  }

  const nameOf = (address) => decodeURIComponent(address.slice((address.startsWith(FOLDER) ? FOLDER : SITE).length));

  /** Whether a script or style sheet of ours has come to its end, and of this build. */
  function check(file) {
    const address = file.src || file.href;
    if (!address.startsWith(FOLDER)) return;
    const name = decodeURIComponent(address.slice(FOLDER.length)).replace(/\.\w+$/, "").replace(/\W/g, "_");
    const isWhole = file.src
      ? "benchleaf_" + name + "_" + stamp in window
      : getComputedStyle(root).getPropertyValue("--s-" + name).trim() === stamp;
    if (isWhole) return;
    file.dataset.broken = "yes";
    tell(nameOf(address) + " is not whole, or of another build", file.dataset.elsewhere);
  }

  /* Also what is loaded later; a script is asked before it may take itself out of the page */
  const KINDS = "script[src], link[rel='stylesheet']";
  document.addEventListener("load", (event) => {
    const file = /** @type {Element} */ (event.target);
    if (file.matches?.(KINDS)) check(file);
  }, true);

  document.addEventListener("error", (event) => {
    const file = /** @type {HTMLImageElement & HTMLLinkElement} */ (event.target);
    const address = String(file.currentSrc || file.src || file.href); /* of a drawing's parts no text */
    if (!address.startsWith(SITE)) return;
    if (file.matches(KINDS)) tell(nameOf(address) + " is missing", file.dataset.elsewhere);
    if (!file.matches("img")) return;
    setTimeout(() => {
      const again = new Image();
      again.onerror = () => tell(nameOf(address) + " is missing, or not whole");
      again.src = address;
    }, AGAIN);
  }, true);

  /** @type {Element[]} */
  let files = [];
  document.addEventListener("readystatechange", () => {
    if (document.readyState !== "interactive") return; /* read to its end, and no script has changed it */
    files = Array.from(document.querySelectorAll(KINDS));
    if (found || isLate) show(); /* of what came before there was a place to say it */
    if (!stamp) tell("This page is of another build");
    if (!document.querySelector("[data-end]") || document.querySelectorAll(PARTS).length < Number(parts)) {
      tell("This page is not whole");
    }
  });

  const isSlow = setTimeout(() => {
    isLate = !found;
    if (isLate && document.body) show();
  }, SLOW);
  window.addEventListener("load", () => {
    clearTimeout(isSlow);
    if (isLate && !found) line().style.display = "";
    files.forEach(check);
    const before = recall();
    if (before) tell(before);
    isLoaded = true;
  });

  window.addEventListener("pagehide", () => { isLeaving = true; });
  window.addEventListener("pageshow", () => { isLeaving = false; });
  /* A sheet that is gone cannot keep the line off paper */
  window.addEventListener("beforeprint", () => { if (found) line().style.display = "none"; });
  window.addEventListener("afterprint", () => { if (found) line().style.display = "block"; });
})();
