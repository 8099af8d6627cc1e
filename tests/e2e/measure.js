/* What axe leaves undecided, measured on the page that is open: contrast, sizes of letters and of
   targets, sideways scroll, text on text, letters outside their drawing, the ring of the focus.
   Put into the page by a test only. */
window.measure = (function () {
  "use strict";

  function rgba(text) {
    const srgb = text.match(/^color\(srgb ([^)]+)\)/);
    const part = (srgb ? srgb[1] : (text.match(/rgba?\(([^)]+)\)/) || ["", "0,0,0,0"])[1])
      .split(/[\s,/]+/).filter(Boolean).map(Number);
    const times = srgb ? 255 : 1;
    return [part[0] * times, part[1] * times, part[2] * times, part.length > 3 ? part[3] : 1];
  }

  function over(top, below) {
    return [0, 1, 2].map((i) => top[i] * top[3] + below[i] * (1 - top[3])).concat([1]);
  }

  function luminance(colour) {
    const [r, g, b] = colour.slice(0, 3).map((value) => {
      const part = value / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  }

  function ratio(one, other) {
    const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
    return (light + 0.05) / (dark + 0.05);
  }

  /* Whether what an element's ground has drawn on it, bars and strokes, ends before a text begins */
  function isBeside(element, style, box) {
    if (!box) return false;
    const repeats = style.backgroundRepeat.split(",").map((one) => one.trim());
    const wide = style.backgroundSize.split(",").map((one) => parseFloat(one));
    const from = style.backgroundPosition.split(",").map((one) => parseFloat(one));
    const sized = wide.map((_, index) => index).filter((index) => !Number.isNaN(wide[index]));
    if (sized.some((index) => repeats[index] !== "no-repeat")) return false;
    const ends = sized.map((index) => wide[index] + from[index]);
    return ends.length > 0 && box.left - element.getBoundingClientRect().left >= Math.max(...ends);
  }

  /* Colours that an element lays over what is behind it, the top one first: shapes as large as it, its own */
  function laid(one) {
    const found = [];
    for (const shape of ["::after", "::before"]) {
      const style = getComputedStyle(one, shape);
      if (style.content === "none" || style.position !== "absolute" || style.backgroundImage !== "none") continue;
      if (parseFloat(style.width) < one.clientWidth / 2 || parseFloat(style.height) < one.clientHeight / 2) continue;
      found.push(rgba(style.backgroundColor));
    }
    found.push(rgba(getComputedStyle(one).backgroundColor));
    return found;
  }

  /* What is painted below an element at the middle of a text: elements that overlap, then those around it */
  function below(element, box) {
    const around = [];
    for (let one = element; one; one = one.parentElement) around.push(one);
    if (!box) return around;
    const painted = document.elementsFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    const at = painted.indexOf(element);
    return at < 0 ? around : painted.slice(at);
  }

  /* The colour that stands behind an element, or behind a text of it */
  function ground(element, box) {
    const layers = [];
    for (const one of below(element, box)) {
      const style = getComputedStyle(one);
      if (style.backgroundImage !== "none" && !isBeside(one, style, box)) return null;
      layers.push(...laid(one).filter((colour) => colour[3] > 0));
      if (layers.some((colour) => colour[3] === 1)) break;
    }
    const opaque = layers.findIndex((colour) => colour[3] === 1);
    const seen = opaque < 0 ? layers : layers.slice(0, opaque + 1);
    return seen.reverse().reduce((under, top) => over(top, under), [255, 255, 255, 1]);
  }

  function isSeen(element) {
    if (!element.checkVisibility({ opacityProperty: true, visibilityProperty: true,
      contentVisibilityAuto: true })) return false;
    return !element.closest(".bl-unseen, .bl-skip:not(:focus), title, desc, template, script, style, noscript");
  }

  function name(element) {
    const id = element.id ? "#" + element.id : "";
    const css = element.getAttribute("class");
    return element.tagName.toLowerCase() + id + (css ? "." + css.trim().split(/\s+/).join(".") : "");
  }

  /* While all is measured at once, texts are looked for once: nothing moves meanwhile */
  let kept = null;

  function texts() {
    return kept || findTexts();
  }

  /* Every text that is seen: its node, element, box and height of letters as displayed */
  function findTexts() {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const found = [];
    while (walker.nextNode()) {
      const node = walker.currentNode;
      const element = node.parentElement;
      if (!node.data.trim() || !isSeen(element)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      const box = range.getBoundingClientRect();
      if (box.width < 1 || box.height < 1) continue;
      const svg = element.closest("svg");
      const scale = svg ? element.getScreenCTM().a : 1;
      found.push({ node, element, range, words: node.data.trim().replace(/\s+/g, " ").slice(0, 40),
        size: parseFloat(getComputedStyle(element).fontSize) * scale, inDrawing: Boolean(svg) });
    }
    return found;
  }

  /* [ratio, kind, words, element] of every text; kind is signal for a word on a signal colour */
  function contrast() {
    return texts().map((one) => {
      const style = getComputedStyle(one.element);
      const behind = ground(one.element, one.range.getBoundingClientRect());
      const ink = rgba(one.inDrawing ? style.fill : style.color);
      const kind = one.element.closest(".bl-hazard__word, .bl-word, .bl-strip__word") ? "signal"
        : one.element.closest(":disabled, [aria-disabled='true']") ? "off" : "text";
      const found = behind ? ratio(over(ink, behind), behind) : 0;
      return [Math.round(found * 100) / 100, kind, one.words, name(one.element)];
    });
  }

  function letters() {
    return texts().map((one) => [Math.round(one.size * 10) / 10, one.words, name(one.element)]);
  }

  /* Pictures: address, enlargement, words, and whether a button beside it shows it larger */
  function pictures() {
    return Array.from(document.querySelectorAll("img"), (one) => one)
      .filter((one) => isSeen(one) && one.clientWidth > 0)
      .map((one) => {
        const larger = one.closest("figure") && one.closest("figure").querySelector(".bl-larger");
        return [one.src, one.getBoundingClientRect().width / (one.naturalWidth || 1), one.alt,
          Boolean(larger && isSeen(larger))];
      });
  }

  const TARGETS = "a[href], button, input, select, textarea, summary, label:has(input), [role='button'], [role='option']";

  /* A link within a sentence may be as high as its line */
  function isInText(element) {
    if (element.tagName !== "A" || getComputedStyle(element).display !== "inline") return false;
    let block = element.parentElement;
    while (getComputedStyle(block).display === "inline") block = block.parentElement;
    return block.textContent.trim().length > element.textContent.trim().length;
  }

  /* [smaller side, words, element] of every target that is seen outside running text */
  function targets() {
    return Array.from(document.querySelectorAll(TARGETS))
      .filter((one) => isSeen(one) && !isInText(one) && !(one.matches("input") && one.closest("label")))
      .map((one) => {
        const fills = getComputedStyle(one, "::after"); /* a link that fills the tile around it */
        const isTile = fills.content !== "none" && fills.position === "absolute" && fills.inset === "0px";
        const box = (isTile ? one.offsetParent : one).getBoundingClientRect();
        const words = (one.textContent.trim() || one.getAttribute("aria-label") || one.type || "");
        return [Math.round(Math.min(box.width, box.height) * 10) / 10, words.slice(0, 40), name(one)];
      })
      .filter((one) => one[0] > 0);
  }

  function sideways() {
    const wide = document.documentElement.clientWidth;
    const found = [];
    const root = document.documentElement;
    const main = document.getElementById("main");
    if (root.scrollWidth > wide) found.push("page " + root.scrollWidth + " in " + wide);
    if (main.scrollWidth > main.clientWidth) found.push("main " + main.scrollWidth + " in " + main.clientWidth);
    texts().forEach((one) => {
      if (one.element.closest(".bl-chart, .bl-paper, .bl-wide")) return; /* tables have a scroll of their own */
      const box = one.range.getBoundingClientRect();
      if (box.right > wide + 1 || box.left < -1) found.push("text " + one.words);
    });
    return found;
  }

  /* A bar that stands over the page whatever is scrolled below it; what fills the screen is none */
  function standsOver(element) {
    for (let one = element; one && one.id !== "main"; one = one.parentElement) {
      if (getComputedStyle(one).position === "fixed") return one;
    }
    return null;
  }

  /* What cannot be scrolled clear of the bars: the last texts of the page, when it is at its end */
  function covered() {
    if (document.querySelector("dialog[open]")) return [];
    const scrolled = [document.scrollingElement, document.getElementById("main")];
    const were = scrolled.map((one) => one.scrollTop);
    scrolled.forEach((one) => { one.scrollTop = one.scrollHeight; });
    const found = texts().filter((one) => !one.inDrawing && !standsOver(one.element)).flatMap((one) => {
      const boxes = one.range.getClientRects();
      const box = boxes[boxes.length - 1];
      const y = box.top + box.height / 2;
      if (box.bottom < innerHeight * 0.4 || y > innerHeight) return [];
      const there = document.elementFromPoint(Math.min(box.left + box.width / 2, innerWidth - 1), y);
      const bar = there && !there.contains(one.element) && !there.closest("[role='dialog']") ? standsOver(there) : null;
      return bar ? ["under " + name(bar) + ": " + one.words] : [];
    });
    scrolled.forEach((one, index) => { one.scrollTop = were[index]; });
    return found;
  }

  /* Texts whose boxes lie on one another, header and bars apart */
  function overlaps() {
    const boxes = [];
    const covered = Boolean(document.querySelector("dialog[open]"));
    texts().forEach((one) => {
      if (one.inDrawing || covered) return;
      if (one.element.closest(".bl-header, .bl-top, .bl-bottom, .bl-watching__bar, .bl-skip, dialog, [role='dialog'], .bl-search")) return;
      if (standsOver(one.element)) return;
      Array.from(one.range.getClientRects(), (box) => boxes.push([box, one]));
    });
    boxes.sort((a, b) => a[0].top - b[0].top);
    const found = new Set();
    for (let i = 0; i < boxes.length; i += 1) {
      for (let j = i + 1; j < boxes.length && boxes[j][0].top < boxes[i][0].bottom; j += 1) {
        const [a, one] = boxes[i];
        const [b, other] = boxes[j];
        if (one.node === other.node) continue;
        const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        /* boxes of lines reach beyond their letters: only a third of a line counts */
        if (wide > 2 && high > 0.34 * Math.min(a.height, b.height)) found.add(one.words + " / " + other.words);
      }
    }
    return Array.from(found);
  }

  /* Inline figures without role and without a text that tells them (title and description, or a label
     of a sentence or a name), and letters outside their frame */
  function figures() {
    const found = [];
    document.querySelectorAll("svg").forEach((svg) => {
      if (svg.getAttribute("aria-hidden") === "true" || svg.parentElement.closest("svg")) return;
      const called = (svg.getAttribute("aria-labelledby") || "").split(" ").filter(Boolean);
      const named = called.length ? called.every((id) => document.getElementById(id)) : svg.querySelector(":scope > title");
      const isLabelled = (svg.getAttribute("aria-label") || "").trim().length > 2;
      const isTold = isLabelled || (named && svg.querySelector("title") && svg.querySelector("desc"));
      if (svg.getAttribute("role") !== "img" || !isTold) {
        found.push("not told: " + name(svg));
      }
      if (!isSeen(svg)) return;
      const frame = svg.viewBox.baseVal;
      svg.querySelectorAll("text").forEach((text) => {
        const box = text.getBBox();
        if (box.x < frame.x - 1 || box.y < frame.y - 1 || box.x + box.width > frame.x + frame.width + 1
          || box.y + box.height > frame.y + frame.height + 1) found.push("outside: " + text.textContent);
      });
    });
    return found;
  }

  /* Of the element that has the focus: what it is, whether it is seen, width and contrast of its ring */
  function focus() {
    const one = document.activeElement;
    if (!one || one === document.body) return null;
    one.scrollIntoView({ block: "nearest" });
    const after = getComputedStyle(one, "::after"); /* a link that fills its tile draws its ring there */
    const style = after.content !== "none" && after.outlineStyle !== "none" ? after : getComputedStyle(one);
    const box = one.getBoundingClientRect();
    const ring = one.matches("input") && style.outlineStyle === "none" ? null : rgba(style.outlineColor);
    const below = ground(one.parentElement) || [128, 128, 128, 1];
    /* one row of a link that is broken over two lines is enough */
    const seen = Array.from(one.getClientRects()).some((row) => {
      const x = row.left + row.width / 2;
      const y = row.top + row.height / 2;
      const there = document.elementFromPoint(x, y);
      return there && (there === one || one.contains(there) || there.contains(one));
    });
    const tells = style.outlineStyle !== "none" && ring ? parseFloat(style.outlineWidth) : 0;
    return [name(one) + " " + one.textContent.trim().slice(0, 30), seen && box.width > 0, tells,
      ring ? Math.round(ratio(over(ring, below), below) * 100) / 100 : 0];
  }

  function all() {
    kept = findTexts();
    const found = { letters: letters(), pictures: pictures(), targets: targets(), texts: contrast(),
      layout: sideways().concat(overlaps(), covered(), figures()) };
    kept = null;
    return found;
  }

  return { all, contrast, letters, pictures, targets, sideways, overlaps, covered, figures, focus };
})();
