/* The two buttons of the header: the size of the text in three steps, dark or light screen. */
(function () {
  "use strict";
  const root = document.documentElement;

  /* Who judges the copy is gone, or of a time before there was one: then the line that is there without
     scripts says so, and the page is as without them */
  const line = document.querySelector(".bl-seal");
  if (!window.benchleafSeal && line) {
    root.classList.replace("js", "no-js");
    line.textContent = root.dataset.damaged || "";
  }

  /* A style sheet that only a later state needs is loaded when that is opened. Where it cannot be had,
     what is opened opens all the same. */
  /** @type {Map<string, Promise<void>>} */
  const sheets = new Map();
  window.benchleafSheet = (name) => {
    const asked = sheets.get(name);
    if (asked) return asked;
    /** @type {Promise<void>} */
    const loaded = new Promise((resolve) => {
      const link = document.createElement("link");
      link.rel = "stylesheet";
      link.href = document.body.dataset.assets + "/" + name;
      link.addEventListener("load", () => resolve());
      link.addEventListener("error", () => resolve());
      document.head.append(link);
    });
    sheets.set(name, loaded);
    return loaded;
  };
  const SIZES = 3;

  function keep(name, value) {
    try {
      localStorage.setItem("benchleaf." + name, value);
    } catch (error) {
      /* nothing is kept here: the choice holds for this page */
    }
  }

  function label(button, words) {
    button.querySelector(".bl-unseen").textContent = words;
  }

  function showTextSize(button) {
    label(button, "Text size " + (root.dataset.text || "1") + " of " + SIZES + ". Touch to change");
  }

  function showLight(button) {
    label(button, root.dataset.mdColorScheme === "slate" ? "Light screen" : "Dark screen");
  }

  /* The header has them, and the step view, which covers the header */
  const sizes = document.querySelectorAll("[data-tool='text']");
  const lights = document.querySelectorAll("[data-tool='light']");
  sizes.forEach((button) => {
    showTextSize(button);
    button.addEventListener("click", () => {
      root.dataset.text = String((Number(root.dataset.text || "1") % SIZES) + 1);
      keep("text", root.dataset.text);
      sizes.forEach(showTextSize);
      document.dispatchEvent(new CustomEvent("benchleaf:text"));
    });
  });

  lights.forEach((button) => {
    showLight(button);
    button.addEventListener("click", () => {
      root.dataset.mdColorScheme = root.dataset.mdColorScheme === "slate" ? "default" : "slate";
      keep("light", root.dataset.mdColorScheme);
      lights.forEach(showLight);
    });
  });
})();
