/* The file of a record: what was touched on the record page, as text; and what it still lacks. */
(function () {
  "use strict";
  const SESSION = ["lesson", "try-out", "check"];
  const CODE = /^[a-z]{1,4}-?[0-9]{1,6}$/i;
  let now = /** @type {BenchleafRecordKept} */ (fresh()); /* what the page handed over last */
  let facts = /** @type {DOMStringMap} */ ({});
  let steps = /** @type {DOMStringMap[]} */ ([]);

  /** @returns {BenchleafRecordKept} */
  function fresh() {
    return { kind: "", fields: {}, begun: 0, ended: 0, steps: {}, marks: {}, pieces: [], result: "", watch: 0, saved: "" };
  }

  function two(number) {
    return String(number).padStart(2, "0");
  }

  function dayOf(ms) {
    const at = new Date(ms);
    return at.getFullYear() + "-" + two(at.getMonth() + 1) + "-" + two(at.getDate());
  }

  function clockOf(ms) {
    const at = new Date(ms);
    return two(at.getHours()) + ":" + two(at.getMinutes());
  }

  function stepOf(id) {
    if (!now.steps[id]) now.steps[id] = { right: [], points: null, reasons: null, errors: 0, hard: false };
    return now.steps[id];
  }

  /* The file: the few kinds of YAML that are needed, each text in quotes where it is free */
  function marked(name) {
    return Object.keys(now.marks).filter((key) => now.marks[key] && key.startsWith(name + " ")).map((key) => key.slice(name.length + 1));
  }

  function stepLines() {
    return steps.map((step) => {
      const seen = stepOf(String(step.step));
      const parts = ["step: " + step.step, "of: " + step.of];
      if (seen.right.length) parts.push("right: [" + seen.right.join(", ") + "]");
      if (seen.points !== null) parts.push("points: " + seen.points);
      if (seen.reasons !== null) parts.push("reasons: " + seen.reasons);
      if (seen.errors) parts.push("errors: " + seen.errors);
      if (seen.hard) parts.push("hard: true");
      return "  - {" + parts.join(", ") + "}";
    });
  }

  function faultLines() {
    return marked("set").map((step) => {
      const found = Boolean(now.marks["found " + step]);
      return "  - {step: " + step + ", found: " + found + ", put_right: " + Boolean(now.marks["right " + step]) + "}";
    });
  }

  function pieceLines() {
    return now.pieces.map((piece, index) => {
      const time = piece.seconds === null ? "" : ", time: " + piece.seconds + " s";
      return "  - {piece: " + (index + 1) + time + ", gauge: " + piece.gauge + "}";
    });
  }

  /** @param {...string} kinds */
  function is(...kinds) {
    return kinds.includes(now.kind);
  }

  /** @param {string} name */
  function field(name) {
    return (now.fields[name] || "").trim();
  }

  /** @param {string} key @param {string} value */
  function line(key, value) {
    return value ? [key + ": " + value] : [];
  }

  /** @param {string} key @param {string[]} entries */
  function lines(key, entries) {
    return entries.length ? [key + ":", ...entries] : [];
  }

  /** @param {string} name */
  function free(name) {
    return field(name) && JSON.stringify(field(name));
  }

  function whenLines() {
    if (!is(...SESSION)) return line("day", field("day"));
    const ended = Math.max(now.ended, now.begun + 60000);
    return ["day: " + dayOf(now.begun), 'begun: "' + clockOf(now.begun) + '"', 'ended: "' + clockOf(ended) + '"'];
  }

  function jobLines() {
    const made = ["page_made: " + facts.made];
    if (!is(...SESSION, "done")) return made;
    return made.concat("job: " + facts.job, "revision: " + facts.revision, "fingerprint: " + facts.fingerprint);
  }

  function taughtLines() {
    if (!is("lesson", "try-out")) return [];
    return [...line("language", free("language")), ...lines("steps", stepLines()), ...lines("faults", faultLines())];
  }

  function workLines() {
    if (!is(...SESSION, "done")) return [];
    const seen = is(...SESSION) ? marked("seen") : [];
    return [
      ...lines("pieces", pieceLines()), ...line("made_before", field("before")),
      ...line("checks", seen.length ? "[" + seen.join(", ") + "]" : ""),
    ];
  }

  function resultLines() {
    if (!is("try-out", "check")) return [];
    const judged = [...line("result", now.result), ...line("next_check", field("next"))];
    if (!is("try-out")) return judged;
    return [
      ...judged, ...line("learned_before", field("learned")), ...line("helper", field("helper")), ...line("paper", free("paper")),
    ];
  }

  function text() {
    const isTold = is("done", "absence") && now.marks["told yes"];
    return [
      "kind: " + now.kind, "person: " + field("person"), "by: " + field("by"),
      ...line("said_by", isTold ? field("person") : ""),
      ...whenLines(), ...line("last", is("absence") ? field("last") : ""), ...jobLines(),
      ...taughtLines(), ...workLines(), ...resultLines(), ...line("replaces", field("replaces")),
    ].join("\n") + "\n";
  }

  /* What only this screen can still ask; everything else is asked when the file is taken in */
  function lacking() {
    const isAble = is("try-out") && now.result === "can do it alone";
    const isLeft = marked("set").some((step) => !now.marks["right " + step]);
    const asked = /** @type {[boolean, string][]} */ ([
      [!CODE.test(field("person")), "Who is the learner? Write the staff code, never a name."],
      [!CODE.test(field("by")), "Who is the trainer? Write the staff code, never a name."],
      [is("taken back") && !field("replaces"), "Which record is taken back? Write its name."],
      [Boolean(now.watch), "The watch runs. Is the piece done?"],
      [is("try-out", "check") && !now.result, "What is the result?"],
      [isLeft && is("lesson", "try-out"), "What was set wrong on purpose is not put right yet."],
      [isAble && !field("paper"), "Where does the signed paper lie? It is the proof."],
    ]);
    const found = asked.find((one) => one[0]);
    return found ? found[1] : "";
  }

  window.benchleafRecord = {
    fresh, clockOf, dayOf,
    text: (kept, page, rows) => {
      now = kept;
      facts = page;
      steps = rows;
      return text();
    },
    lacking: (kept) => {
      now = kept;
      return lacking();
    },
    step: (kept, id) => {
      now = kept;
      return stepOf(id);
    },
  };
})();
