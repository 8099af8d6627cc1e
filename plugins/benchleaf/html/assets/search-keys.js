/* A number pad and large letters of our own, for a screen that is touched and has no keyboard. Loaded
   by search.js where a finger opens the box. */
"use strict";
(() => {
  const ROWS = ["1234567890", "QWERTYUIOP", "ASDFGHJKL<", "ZXCVBNM. "];
  const NAMES = { "<": "Delete the last letter", ".": "Point", " ": "Space" };
  const SHOWN = { "<": "\u232b", " ": "Space" };
  const search = window.benchleafSearch;
  let box = null;
  let input = null;

  /** A key: the box keeps the focus, so that a keyboard can go on at the same place. */
  function key(sign) {
    const made = document.createElement("button");
    made.type = "button";
    made.className = `bl-key${sign === " " ? " bl-key--space" : ""}`;
    made.textContent = SHOWN[sign] || sign;
    if (NAMES[sign]) made.setAttribute("aria-label", NAMES[sign]);
    made.addEventListener("pointerdown", (event) => event.preventDefault());
    made.addEventListener("click", () => {
      input.value = sign === "<" ? Array.from(input.value).slice(0, -1).join("") : input.value + sign.toLowerCase();
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
    return made;
  }

  function build() {
    box = document.createElement("div");
    box.className = "bl-keys";
    box.setAttribute("role", "group");
    box.setAttribute("aria-label", "Letters and numbers");
    for (const row of ROWS) box.append(...Array.from(row, key));
  }

  search.join({ keys: {
    get isShown() { return Boolean(box?.isConnected && !box.hidden); },
    show(panel, into) {
      input = into;
      if (!box) build();
      box.hidden = false;
      panel.append(box);
    },
    hide() { if (box) box.hidden = true; },
  } });
})();
