/* A touch on a picture or drawing, or on "Larger", shows it as large as the screen allows. */
(function () {
  "use strict";
  let box = null;
  let body = null;

  function dialog() {
    if (box) return box;
    box = document.createElement("dialog");
    box.className = "bl-large";
    box.setAttribute("aria-label", "Picture, large");
    body = document.createElement("div");
    body.className = "bl-large__body";
    const close = document.createElement("button");
    close.type = "button";
    close.textContent = "Close";
    box.append(body, close);
    box.addEventListener("click", () => {
      box.close();
    });
    /** @type {HTMLElement} */ (document.querySelector(".bl-article")).append(box);
    return box;
  }

  function picture(figure) {
    const copy = figure.querySelector(".bl-marked, img, svg").cloneNode(true);
    copy.querySelectorAll("[id]").forEach((one) => {
      const old = one.id;
      one.id = "large-" + old;
      copy.querySelectorAll("[fill='url(#" + old + ")']").forEach((filled) => {
        filled.setAttribute("fill", "url(#large-" + old + ")");
      });
      if (copy.hasAttribute("aria-labelledby")) {
        copy.setAttribute("aria-labelledby", copy.getAttribute("aria-labelledby").split(old).join("large-" + old));
      }
    });
    [copy, copy.querySelector("img")].forEach((one) => {
      if (!one || !one.removeAttribute) return;
      one.removeAttribute("loading");
      if (one.srcset) one.sizes = "100vw";
    });
    return copy;
  }

  document.querySelectorAll(".bl-picture, .bl-drawing__frame").forEach((figure) => {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "bl-larger";
    button.textContent = "Larger";
    figure.classList.add("bl-has-larger");
    figure.append(button);
  });

  /* Heard here, as the step view shows copies of drawings */
  document.addEventListener("click", (event) => {
    const figure = /** @type {Element} */ (event.target).closest(".bl-has-larger");
    if (!figure) return;
    const large = dialog();
    body.replaceChildren(picture(figure));
    window.benchleafSheet("panels.css").then(() => {
      if (!large.open) large.showModal();
    });
  });
})();
