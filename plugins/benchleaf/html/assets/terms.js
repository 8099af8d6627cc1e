/* A term's meaning beside the word, by touch or key. Without this script a term is a plain link. */
const benchleafTerms = {}; /* filled by the files of meanings, one for each first letter */
(function () {
  "use strict";
  const root = document.documentElement;
  const TERMS = ".bl-term, :is(p, li, dd) > a[href*='terms.html#']:not(.bl-links a, nav a)";
  const GAP = 8; /* CSS pixels between the word and its meaning, and from the edge of the screen */
  const CAN_POP_UP = "popover" in HTMLElement.prototype;
  const KEYS_OF_THE_BOX = ["Tab", "Enter", " ", "ArrowUp", "ArrowDown", "Shift"];
  const RETURN = "benchleaf.return";
  let box = null;
  let word = null; /* the link whose meaning is shown */

  function element(tag, css, text) {
    const made = document.createElement(tag);
    made.className = css;
    made.textContent = text || "";
    return made;
  }

  function build() {
    box = element("div", "bl-meaning");
    box.popover = "manual";
    box.setAttribute("role", "dialog");
    box.setAttribute("aria-labelledby", "bl-meaning-word");
    box.setAttribute("aria-describedby", "bl-meaning-text");
    const title = element("p", "bl-meaning__word");
    title.id = "bl-meaning-word";
    const text = element("p", "bl-meaning__text");
    text.id = "bl-meaning-text";
    const row = element("div", "bl-meaning__row");
    const entry = element("a", "bl-meaning__entry", "Whole entry");
    const close = element("button", "bl-meaning__close", "Close");
    close.type = "button";
    close.addEventListener("click", () => {
      hide(true);
    });
    entry.addEventListener("click", keepWayBack);
    row.append(close, entry);
    box.append(title, text, row);
    box.addEventListener("focusout", (event) => {
      if (event.relatedTarget && event.relatedTarget !== word && !box.contains(event.relatedTarget)) {
        hide(false);
      }
    });
  }

  /* Below the word, or above it where there is more room; never over it, never off the screen. */
  function place() {
    if (!word) {
      return;
    }
    const at = word.getBoundingClientRect();
    const high = root.clientHeight;
    if (at.bottom < 0 || at.top > high || !word.getClientRects().length) {
      hide(false); /* scrolled away, or its step has been left */
      return;
    }
    const below = high - at.bottom - 2 * GAP;
    const above = at.top - 2 * GAP;
    box.style.maxHeight = "none";
    let tall = box.offsetHeight;
    const goesBelow = tall <= below || below >= above;
    const room = Math.max(96, goesBelow ? below : above);
    box.style.maxHeight = room + "px";
    tall = Math.min(tall, room);
    const left = Math.min(at.left, root.clientWidth - box.offsetWidth - GAP);
    box.style.left = Math.max(GAP, left) + "px";
    box.style.top = (goesBelow ? at.bottom + GAP : Math.max(GAP, at.top - GAP - tall)) + "px";
  }

  function show(link, meaning) {
    if (word) {
      hide(false);
    }
    if (!box) {
      build();
    }
    word = link;
    window.benchleafSheet("panels.css").then(() => {
      if (word === link) fill(link, meaning);
    });
  }

  function fill(link, meaning) {
    box.querySelector(".bl-meaning__word").textContent = meaning[0];
    box.querySelector(".bl-meaning__text").textContent = meaning[1];
    box.querySelector(".bl-meaning__entry").href = link.href;
    (link.closest("dialog") || document.body).append(box);
    link.setAttribute("aria-expanded", "true");
    box.showPopover();
    box.scrollTop = 0;
    place();
    box.querySelector(".bl-meaning__close").focus({ preventScroll: true });
  }

  function hide(giveBackFocus) {
    if (!word) {
      return;
    }
    const link = word;
    word = null;
    link.removeAttribute("aria-expanded");
    box.hidePopover();
    if (giveBackFocus) {
      link.focus({ preventScroll: true });
    }
  }

  /* A kiosk shows no Back button of the browser, so the whole entry has one of ours. */
  function keepWayBack() {
    try {
      sessionStorage.setItem(RETURN, JSON.stringify({ to: location.href, id: word.hash }));
    } catch (error) {
      /* then there is the header */
    }
  }

  function showWayBack() {
    const entry = location.hash.length > 1 ? document.getElementById(location.hash.slice(1)) : null;
    let kept = null;
    try {
      kept = JSON.parse(sessionStorage.getItem(RETURN) || "null");
    } catch (error) {
      return;
    }
    if (!kept || !entry || !entry.matches(".bl-entry") || kept.id !== location.hash) {
      return;
    }
    const back = element("a", "bl-return", "Back to where you were");
    back.href = kept.to;
    back.addEventListener("click", (event) => {
      if (history.length > 1) {
        event.preventDefault();
        history.back(); /* to the same line of the page */
      }
    });
    /** @type {HTMLElement} */ (entry.querySelector("dd")).append(back);
  }

  function go(link) {
    location.href = link.href;
  }

  /* A page from disk can fetch nothing, but a script tag loads. */
  function open(link) {
    const id = decodeURIComponent(link.hash.slice(1));
    if (benchleafTerms[id]) {
      show(link, benchleafTerms[id]);
      return;
    }
    const file = document.createElement("script");
    file.src = document.body.dataset.assets + "/terms/" + id.charAt(0) + ".js";
    file.dataset.elsewhere = "yes"; /* not whole, the link leads to the entry */
    file.addEventListener("load", () => {
      file.remove();
      if (benchleafTerms[id] && !file.dataset.broken) {
        show(link, benchleafTerms[id]);
      } else {
        go(link);
      }
    });
    file.addEventListener("error", () => {
      go(link);
    });
    document.head.append(file);
  }

  document.querySelectorAll(".bl-article").forEach((article) => {
    article.querySelectorAll(TERMS).forEach((link) => {
      link.setAttribute("aria-haspopup", "dialog");
    });
  });

  showWayBack();

  document.addEventListener("click", (event) => {
    const link = /** @type {Element} */ (event.target).closest("a[aria-haspopup='dialog']");
    const isPlain = !(event.ctrlKey || event.metaKey || event.shiftKey || event.altKey);
    if (link && isPlain && CAN_POP_UP) {
      event.preventDefault();
      if (link === word) {
        hide(true);
      } else {
        open(link);
      }
    } else if (word && !box.contains(event.target)) {
      hide(!/** @type {Element} */ (event.target).closest("a, button, input, summary, label"));
    }
  });

  function isAtEdge(backwards) {
    const stops = Array.from(box.querySelectorAll("a, button")).filter((one) => one.checkVisibility());
    return document.activeElement === stops[backwards ? 0 : stops.length - 1];
  }

  /* First of all listeners: a key for the meaning is no key for the step behind it. */
  document.addEventListener(
    "keydown",
    (event) => {
      if (!word) {
        return;
      }
      if (event.key === "Escape") {
        event.preventDefault();
        event.stopImmediatePropagation();
        hide(true);
      } else if (!box.contains(event.target) || !KEYS_OF_THE_BOX.includes(event.key)) {
        hide(false);
      } else {
        event.stopImmediatePropagation();
        if (event.key === "Tab" && isAtEdge(event.shiftKey)) {
          event.preventDefault();
          hide(true); /* on to where the word stands */
        }
      }
    },
    true
  );

  document.addEventListener("scroll", (event) => {
    if (word && event.target !== box) {
      place();
    }
  }, { capture: true, passive: true });
  window.addEventListener("resize", place);
  document.addEventListener("benchleaf:text", place);
  window.addEventListener("pagehide", () => {
    hide(false);
  });
})();
