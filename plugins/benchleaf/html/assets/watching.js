/* The sheet for watching a job: a watch, rows that grow, and a file of what was written.
   It is the trainer's own: kept on this device until it is cleared, and no idle screen ends it. */
(function () {
  "use strict";
  const KEY = "watching.sheet"; /* not among what going home forgets: hours of work stand here */
  const sheet = /** @type {HTMLElement} */ (document.querySelector(".bl-watching"));
  const bar = /** @type {HTMLElement} */ (document.querySelector("[data-watch]"));
  if (!sheet || !bar) return;
  const pattern = /** @type {Element} */ (sheet.firstElementChild).cloneNode(true);
  const clock = /** @type {HTMLOutputElement} */ (bar.querySelector("output"));
  const status = /** @type {HTMLElement} */ (bar.querySelector("[role='status']"));
  const SHORTEST = 0.3; /* s: no part of any work is shorter, and a finger may touch twice */
  let began = 0; /* ms: when the part now watched began; 0 while the watch stands */
  document.body.dataset.idle = "0"; /* who watches touches nothing for minutes */
  bar.hidden = false;

  function rows() {
    return Array.from(sheet.querySelectorAll("[data-row]"));
  }

  function fields(row) {
    return Array.from(row.querySelectorAll("textarea, select"));
  }

  function headFields() {
    return /** @type {HTMLInputElement[]} */ (Array.from(document.querySelectorAll(".bl-watching__head input")));
  }

  function addRow(isMore, after) {
    const row = /** @type {HTMLElement} */ (pattern.cloneNode(true));
    fields(row).forEach((one) => { one.value = ""; });
    if (isMore) row.dataset.more = "";
    showButtons(row);
    if (after) after.after(row); else sheet.append(row);
    return row;
  }

  function showButtons(row) {
    row.querySelectorAll("button").forEach((one) => {
      one.hidden = row.dataset.more !== undefined && one.dataset.do === "lap";
    });
  }

  function written(row) {
    return fields(row).some((one) =>  one.value.trim() !== "" );
  }

  function keep() {
    const kept = rows().map((row) => {
      const values = fields(row).map((one) =>  one.value );
      return { more: row.dataset.more !== undefined, values };
    });
    const head = headFields().map((one) =>  one.value );
    try {
      localStorage.setItem(KEY, JSON.stringify({ head, rows: kept }));
    } catch (error) {
      status.textContent = "This browser keeps nothing. Save as a file before you leave the page.";
    }
  }

  function restore() {
    let kept = null;
    try {
      kept = JSON.parse(localStorage.getItem(KEY) || "null");
    } catch (error) {
      kept = null; /* nothing that can be read is kept */
    }
    if (!kept || !Array.isArray(kept.rows) || !kept.rows.length) return;
    headFields().forEach((one, index) => { one.value = kept.head[index] || ""; });
    sheet.replaceChildren();
    kept.rows.forEach((one) => {
      const row = addRow(one.more);
      fields(row).forEach((field, index) => { field.value = one.values[index] || ""; });
    });
  }

  function seconds() {
    return began ? (performance.now() - began) / 1000 : 0;
  }

  function tick() {
    clock.textContent = seconds().toFixed(1) + " s";
    if (began) requestAnimationFrame(tick);
  }

  function startOrStop(button) {
    began = began ? 0 : performance.now();
    button.textContent = began ? "Stop the watch" : "Start the watch";
    tick();
  }

  function lap(row) {
    if (!began) {
      status.textContent = "Start the watch first.";
      return;
    }
    if (seconds() < SHORTEST) {
      status.textContent = "That was a double touch: nothing is written.";
      return;
    }
    const operator = /** @type {HTMLSelectElement} */ (bar.querySelector("select")).value;
    const cell = fields(row).find((one) =>  one.name === operator );
    cell.value = (cell.value.trim() + " " + seconds().toFixed(1)).trim();
    began = performance.now(); /* the next part begins where this one ends */
    status.textContent = "Written for " + operator + ".";
    keep();
  }

  function quoted(text) {
    return '"' + text.replace(/"/g, '""') + '"';
  }

  function asText() {
    const names = fields(pattern).map((one) =>  one.name );
    const lines = rows().filter(written).map((row) => fields(row).map((one) =>  quoted(one.value.trim()) ).join(";"));
    return [names.map(quoted).join(";")].concat(lines).join("\r\n") + "\r\n";
  }

  function save() {
    if (!rows().some(written)) {
      status.textContent = "Nothing is written yet.";
      return;
    }
    const job = headFields()[0].value.trim().toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "");
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob(["\ufeff" + asText()], { type: "text/csv" }));
    link.download = (job || "job") + "-watching.csv";
    link.click();
    URL.revokeObjectURL(link.href);
    status.textContent = link.download + " is saved.";
  }

  function clear(button) {
    if (button.dataset.sure === undefined) {
      button.dataset.sure = "";
      button.textContent = "Clear all: touch again";
      return;
    }
    delete button.dataset.sure;
    button.textContent = "Clear all";
    try {
      localStorage.removeItem(KEY);
    } catch (error) {
      /* nothing was kept */
    }
    headFields().forEach((one) => { one.value = ""; });
    const count = rows().length;
    sheet.replaceChildren();
    for (let index = 0; index < count; index += 1) addRow(false);
    status.textContent = "All is cleared.";
  }

  /** @type {HTMLElement} */ (document.querySelector(".bl-article")).addEventListener("click", (event) => {
    const button = /** @type {Element} */ (event.target).closest("[data-do]");
    if (!button) return;
    const row = button.closest("[data-row]");
    if (button.dataset.do === "start") startOrStop(button);
    if (button.dataset.do === "add") /** @type {HTMLElement} */ (addRow(false).querySelector("textarea")).focus();
    if (button.dataset.do === "more") /** @type {HTMLElement} */ (addRow(true, row).querySelector("[name='key point']")).focus();
    if (button.dataset.do === "lap") lap(row);
    if (button.dataset.do === "save") save();
    if (button.dataset.do === "clear") clear(button);
  });
  /** @type {HTMLElement} */ (document.querySelector(".bl-article")).addEventListener("input", keep);

  restore();
  rows().forEach(showButtons);
})();
