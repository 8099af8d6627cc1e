/* Says when this copy is older than the shop's rule, by the screen's own clock; or a wrong clock. */
(function () {
  "use strict";
  const DAY = 24 * 60 * 60 * 1000;
  const HOUR = DAY / 24;
  const MONTHS = [
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December"
  ];
  const facts = document.body.dataset;
  const notice = /** @type {HTMLElement} */ (document.querySelector(".bl-age"));
  const parts = (facts.made || "").split("-").map(Number);
  const made = new Date(parts[0], parts[1] - 1, parts[2]);

  function inWords(day) {
    return day.getDate() + " " + MONTHS[day.getMonth()] + " " + day.getFullYear();
  }

  function words() {
    const now = new Date();
    const days = Math.floor((now.getTime() - made.getTime()) / DAY);
    const most = Number(facts.copyDays);
    if (days < -1) { /* a day may lie between the clock of the build and this one */
      return "The clock of this screen is wrong. It says " + inWords(now) + ", but this copy was made on " +
        inWords(made) + ". Tell the shift lead.";
    }
    if (most > 0 && days > most) {
      return "This copy is old. It was made on " + inWords(made) + ", " + days +
        " days ago. Ask the shift lead for the new copy before you start a job.";
    }
    return "";
  }

  function tell() {
    const text = words();
    if (notice.textContent !== text) {
      notice.textContent = text;
    }
  }

  tell();
  setInterval(tell, HOUR); /* a screen may stand open for weeks */
  window.addEventListener("pageshow", tell);
})();
