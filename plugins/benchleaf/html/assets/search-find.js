/* Finds words in the index that the build wrote (search/index.py). Loaded at the first use of
   search. Every file of the index is a script that calls benchleafIndex, as scripts load from disk. */
"use strict";
(() => {
  const FOLDER = new URL("search/", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;
  const RANKS = [8, 4, 2]; // title, key point, text; the fourth, around, only helps
  const WHOLE = 3, BEGINNING = 2, AROUND = 1, OWN = RANKS[2] * BEGINNING, NAMED = 100;
  const FILLERS = new Set("a an and are at be by for from i in is it of on or that the this to with".split(" "));
  const DIGIT = /\p{N}/u;

  // Files of the index

  const arrived = new Map();
  const loads = new Map();
  window.benchleafIndex = (name, value) => arrived.set(name, value);

  function load(name) {
    if (!loads.has(name)) {
      loads.set(name, new Promise((resolve, reject) => {
        const script = document.createElement("script");
        script.src = `${FOLDER}${name}.js`;
        script.onload = () => resolve(arrived.get(name));
        script.onerror = () => { loads.delete(name); reject(new Error(`${name} did not load`)); };
        document.head.append(script);
      }));
    }
    return loads.get(name);
  }

  async function start() {
    const told = await load("start");
    told.shelves ||= told.beginnings.split(" ").filter(Boolean);
    return told;
  }

  const fileName = (beginning) => Array.from(beginning,
    (sign) => (/[a-z0-9]/.test(sign) ? sign : `_${sign.codePointAt(0).toString(16)}`)).join("");

  /** The shelves that can hold words which begin so: the one it belongs on, and all finer ones. */
  async function shelvesOf(beginning) {
    const { shelves } = await start();
    const own = shelves.filter((one) => beginning.startsWith(one)).sort((a, b) => b.length - a.length)[0];
    const finer = shelves.filter((one) => one !== own && one.startsWith(beginning));
    const wanted = own === undefined ? finer : [own, ...finer];
    return Promise.all(wanted.map((one) => load(`words-${fileName(one)}`)));
  }

  // Words, as search/words.py splits them

  const PIECE = /[\p{L}\p{N}]+(?:[-./][\p{L}\p{N}]+)*/gu;
  const PART = /\p{Nd}+(?:\.\p{Nd}+)*|[\p{L}\p{Nl}\p{No}][\p{L}\p{N}]*/gu;

  function plain(text) {
    const bare = text.replace(/['\u2019\u02bc]/g, "");
    if (!/[^\0-\x7f]/.test(bare)) return bare.toLowerCase();
    return bare.replace(/[\u2010\u2011]/g, "-").normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  }
  const numberKey = (text) => plain(text).replace(/[^\p{L}\p{N}]/gu, "");
  const partsOf = (text) => (plain(text).match(PIECE) || []).flatMap((piece) => piece.match(PART));
  const wordsOf = (text) => [...partsOf(text), ...(plain(text).match(PIECE) || []).map(numberKey)];

  /** The word and its regular singular or plural. */
  function forms(word) {
    const found = [word];
    if (word.length < 3 || DIGIT.test(word)) return found;
    if (word.endsWith('ies')) found.push(word.slice(0, -3) + "y");
    if (/(?:s|x|z|ch|sh)es$/.test(word)) found.push(word.slice(0, -2));
    if (/[^s]s$/.test(word)) found.push(word.slice(0, -1));
    if (/[^aeiou]y$/.test(word)) found.push(word.slice(0, -1) + "ies");
    return found;
  }

  // Where words stand

  /** Every word of the index that counts as `word`: itself, its plural, or what begins with it. */
  async function matches(word) {
    const found = new Map();
    for (const form of forms(word)) {
      const byBeginning = form === word && word.length > 1;
      for (const shelf of await shelvesOf(form)) {
        if (Object.hasOwn(shelf, form)) found.set(form, [shelf[form], WHOLE]);
        if (!byBeginning) continue;
        for (const other of Object.keys(shelf)) {
          if (other.startsWith(word) && !found.has(other)) found.set(other, [shelf[other], BEGINNING]);
        }
      }
    }
    return found;
  }

  /** Places from the steps between them, as they are written. */
  function unfolded(told) {
    let place = 0;
    return told ? told.split(" ").map((step) => (place += parseInt(step, 36))) : [];
  }

  /** How much each entry counts for one word that was looked for: 0 where it is not there. */
  function scores(found, count) {
    const best = new Uint8Array(count);
    for (const [told, sort] of found.values()) {
      told.split("|").forEach((places, rank) => {
        const score = rank < RANKS.length ? RANKS[rank] * sort : AROUND;
        for (const place of unfolded(places)) if (best[place] < score) best[place] = score;
      });
    }
    return best;
  }

  // A typing slip

  const slips = (word) => (word.length < 3 ? 0 : word.length < 8 ? 1 : 2);

  /** The words nearest to what was typed, by letters changed, left out, put in or swapped. */
  function nearest(typed, coded) {
    const limit = Math.max(slips(typed), Math.min(3, Math.floor(typed.length / 2)));
    const rows = [Array.from({ length: typed.length + 1 }, (_, n) => n)];
    let word = "", hopeless = Infinity, best = [], least = Infinity;
    for (const item of coded.split(" ")) {
      const shared = parseInt(item[0], 36);
      word = word.slice(0, shared) + item.slice(1);
      if (shared >= hopeless) continue;
      hopeless = Infinity;
      for (let at = shared; at < word.length && hopeless === Infinity; at++) {
        if (nextRow(rows, word, at, typed) > limit) hopeless = at + 1;
      }
      if (hopeless < Infinity) continue;
      const [distance, cost] = distanceOf(rows, word, typed);
      if (distance > limit || cost > least) continue;
      if (cost < least) [best, least] = [[], cost];
      best.push({ word, distance });
    }
    return best;
  }

  /** Fill the row of the word's first `at + 1` letters; its least distance. */
  function nextRow(rows, word, at, typed) {
    const above = rows[at], before = rows[at - 1];
    const row = (rows[at + 1] = [at + 1]);
    let least = at + 1;
    for (let n = 1; n <= typed.length; n++) {
      let cost = Math.min(above[n] + 1, row[n - 1] + 1, above[n - 1] + (word[at] === typed[n - 1] ? 0 : 1));
      if (before && n > 1 && word[at] === typed[n - 2] && word[at - 1] === typed[n - 1]) {
        cost = Math.min(cost, before[n - 2] + 1);
      }
      row[n] = cost;
      least = Math.min(least, cost);
    }
    return least;
  }

  /** Distance to the word or to its beginning, and a cost that prefers whole words and first letters. */
  function distanceOf(rows, word, typed) {
    const end = typed.length;
    const whole = rows[word.length][end];
    let begun = Infinity;
    for (let at = Math.max(1, end - 1); at < word.length; at++) begun = Math.min(begun, rows[at][end]);
    const distance = Math.min(whole, begun);
    return [distance, distance * 4 + (begun < whole ? 1 : 0) + (word[0] === typed[0] ? 0 : 2)];
  }

  /** Take a word that stands nowhere for its nearest; a number is never taken for another. */
  async function mended(word) {
    const near = nearest(word, await load("all-words")).slice(0, 3);
    const isSlip = near.length && near[0].distance <= slips(word) && !DIGIT.test(word);
    const words = near.map((one) => one.word);
    if (!isSlip) return { word, near: words, found: new Map(), roots: [] };
    const found = new Map();
    for (const one of words) {
      for (const shelf of await shelvesOf(one)) {
        if (Object.hasOwn(shelf, one)) found.set(one, [shelf[one], BEGINNING]);
      }
    }
    return { word, readAs: words, found, roots: words };
  }

  async function looked(word) {
    const found = await matches(word);
    return found.size ? { word, found, roots: forms(word) } : mended(word);
  }

  // Results

  /** What is found for a text: places in the order of their worth, and what was made of each word. */
  async function find(text) {
    const all = [...new Set(partsOf(text))];
    const telling = all.filter((word) => !FILLERS.has(word));
    const { count } = await start();
    const words = await Promise.all((telling.length ? telling : all).map(looked));
    const each = words.map((one) => scores(one.found, count));
    const meant = all.map((word) => words.find((one) => one.word === word)?.readAs?.[0] || word);
    const named = new Set(await placesOf(`~${meant.join("")}`));
    const spelt = await numbered(text);
    const byWorth = [];
    for (let place = 0; place < count; place++) {
      let sum = named.has(place) ? NAMED : 0, own = false, everywhere = each.length > 0;
      for (const best of each) {
        everywhere &&= best[place] > 0;
        own ||= best[place] >= OWN;
        sum += best[place];
      }
      if (everywhere && own) (byWorth[sum] ||= []).push(place);
    }
    const found = byWorth.reverse().flat();
    const places = [...new Set([...spelt.whole, ...found, ...spelt.begun])];
    return { places, words: spelt.whole.length ? words.filter((one) => one.found.size) : words };
  }

  /** The address that a job's or part's number leads to, typed or scanned in any of its spellings. */
  async function direct(text) {
    const key = numberKey(text);
    let places = key ? await placesOf(`=${key}`) : [];
    if (!places.length && /\p{L}/u.test(key)) places = (await numbered(text)).whole;
    return places.length === 1 ? (await entry(places[0]))[0] : null;
  }

  /** Jobs and parts whose number is typed in short, `tr120` or `120`, whole or as far as it goes. */
  async function numbered(text) {
    const key = numberKey(text);
    const isOne = DIGIT.test(key) && key.length > 1 && !/\d\s*[.,/x]\s*\d/i.test(text); // no size
    /** @type {Record<"whole" | "begun", number[]>} */
    const found = { whole: [], begun: [] };
    for (const shelf of isOne ? await shelvesOf(key) : []) {
      for (const spelt of Object.keys(shelf)) {
        if (spelt === `+${key}`) found.whole.push(...unfolded(shelf[spelt]));
        else if (spelt.startsWith(`+${key}`)) found.begun.push(...unfolded(shelf[spelt]));
      }
    }
    return found;
  }

  /** The places of a number or a whole name, which are kept under a sign of their own. */
  async function placesOf(key) {
    const shelf = (await shelvesOf(key.slice(1))).find((one) => Object.hasOwn(one, key));
    return shelf ? unfolded(shelf[key]) : [];
  }

  async function entry(place) {
    const { perFile } = await start();
    return (await load(`texts-${Math.floor(place / perFile)}`))[place % perFile];
  }

  /** Everything the list shows of one place. Texts come in pieces: [text, whether it was looked for]. */
  async function shown(place, words) {
    const { kinds, keyPoint } = await start();
    const [address, title, under, points, ...lines] = await entry(place);
    const isTitle = hits(title, words) === words.length; // then what it is, says its first line
    const telling = isTitle ? { at: [0], hit: false } : tellingLines(lines, words);
    const inPoint = telling.hit && telling.at[0] < points;
    const kind = inPoint ? keyPoint : kinds.findLast((one) => one[1] <= place)[0];
    const said = telling.at.map((at) => lines[at]).filter((line) => line && line !== under);
    const marked = (part) => pieces(part, words);
    return { address, kind, title: marked(title), under, lines: said.map(marked) };
  }

  /** How many of the words that were looked for stand in a text. */
  function hits(text, sought) {
    const whole = plain(text); // a quick look first: most lines hold none of the words
    const closed = whole.replace(/[-./]/g, "");
    const perhaps = sought.filter(
      ({ roots }) => roots.some((root) => whole.includes(root) || closed.includes(root)));
    if (!perhaps.length) return 0;
    const there = wordsOf(text);
    return perhaps.filter(({ found }) => there.some((word) => found.has(word))).length;
  }

  /** The line with most of the words, and one with those that it lacks; else the first line. */
  function tellingLines(lines, sought) {
    const counted = lines.map((line) => hits(line, sought));
    const most = Math.max(0, ...counted);
    const at = [counted.indexOf(most)];
    const lacking = sought.filter((one) => most && !hits(lines[at[0]], [one]));
    const others = lines.map((line) => hits(line, lacking));
    const rest = Math.max(0, ...others);
    if (rest) at.push(others.indexOf(rest));
    return { at, hit: most > 0 };
  }

  const WRITTEN = /[\p{L}\p{N}\p{M}]+(?:[-./'\u2019][\p{L}\p{N}\p{M}]+)*/gu;

  function pieces(text, sought) {
    const cut = [];
    let end = 0;
    for (const match of text.matchAll(WRITTEN)) {
      if (!wordsOf(match[0]).some((word) => sought.some(({ found }) => found.has(word)))) continue;
      cut.push([text.slice(end, match.index), false], [match[0], true]);
      end = match.index + match[0].length;
    }
    cut.push([text.slice(end), false]);
    return cut.filter((one) => one[0]);
  }

  window.benchleafSearch.join({ finder: { start, find, direct, shown } });
})();
