/* "My soil is at …": a mark on the band chart and a sentence, from values worked out when the page was built. */

const whole = (value) => Math.floor(value + 0.5);
const LOW = -4;
const HIGH = 46; // the chart's ends in °C, as in render/charts/bands.py

function share(percent) {
  if (percent >= 90) return "nearly all good seed comes up";
  if (percent >= 70) return `about ${whole(percent)} % come up`;
  if (percent >= 40) return `only about ${whole(percent)} % come up`;
  if (percent > 0.5) return `few come up, about ${whole(percent)} %`;
  return "none came up";
}

function nearBest(celsius, best) {
  if (Math.abs(celsius - best) <= 2) return "near the best published temperature";
  return celsius < best ? "colder than the best published temperature" : "warmer than the best published temperature";
}

/** The sentence for a soil temperature. `data` is the page's reader-data. */
export function readerSentence(data, celsius) {
  const band = data.band;
  const at = data.at[String(Math.round(celsius * 2) / 2)];
  const days = at ? at[0] : null;
  const percent = at ? at[1] : null;
  const parts = [];
  if (band.minimum_c !== undefined && celsius < band.minimum_c) parts.push((percent !== null && percent >= 50) || celsius >= band.minimum_c - 0.75 ? "at the cold limit" : "too cold to sow");
  else if (band.maximum_c !== undefined && celsius > band.maximum_c) parts.push("too hot");
  else if (band.optimum_low_c !== undefined && celsius < band.optimum_low_c) parts.push(band.minimum_c === undefined ? "colder than best; no published minimum" : "slow");
  else if (band.optimum_high_c !== undefined && celsius > band.optimum_high_c) parts.push(band.maximum_c === undefined ? "warmer than best; no published maximum" : "warmer than best");
  else if (band.optimum_low_c !== undefined) parts.push("good");
  else if (band.optimum_c !== undefined) parts.push(nearBest(celsius, band.optimum_c));
  if (days !== null) {
    const low = Math.max(1, whole(days / data.factor));
    const high = Math.max(1, whole(days * data.factor));
    parts.push(low === high ? `about ${low} day${low === 1 ? "" : "s"}` : `about ${low}–${high} days`);
  } else if (data.tested) {
    if (data.none.some((t) => Math.abs(t - celsius) < 0.26)) parts.push("no germination in the test at this temperature");
    else if (celsius < data.tested[0]) parts.push("days not measured this cold");
    else if (celsius > data.tested[1]) parts.push("days not measured this warm");
  } else {
    parts.push("no days were measured for this crop");
  }
  if (percent !== null) parts.push(share(percent));
  return parts.join("; ");
}

/** Mount the slider and number fields of a crop page. */
export function mountReader(document) {
  const form = document.querySelector("form.reader");
  if (!form) return;
  form.hidden = false;
  const data = JSON.parse(document.getElementById("reader-data").textContent);
  const range = document.getElementById("reader-range");
  const c = document.getElementById("reader-c");
  const f = document.getElementById("reader-f");
  const answer = form.querySelector(".reader-answer");
  const mark = document.querySelector(".reader-mark");
  const show = (celsius, from) => {
    if (!Number.isFinite(celsius)) {
      answer.textContent = "Type a temperature as a number, such as 15.";
      return;
    }
    if (celsius < -10 || celsius > 50) {
      answer.textContent = `${Math.round(celsius)} °C (${whole(celsius * 1.8 + 32)} °F) is hardly a soil temperature. Is the unit right?`;
      mark?.setAttribute("visibility", "hidden");
      return;
    }
    if (from !== range) range.value = celsius;
    if (from !== c) c.value = Math.round(celsius * 2) / 2;
    if (from !== f) f.value = whole(celsius * 1.8 + 32);
    const words = readerSentence(data, celsius);
    const unit = document.documentElement.dataset.unit;
    const [inC, inF] = [`${Math.round(celsius * 10) / 10} °C`, `${whole(celsius * 1.8 + 32)} °F`];
    answer.textContent = `At ${unit === "c" ? inC : unit === "f" ? inF : `${inC} (${inF})`}: ${words}.`;
    if (mark) {
      const x = `${((Math.min(Math.max(celsius, LOW), HIGH) - LOW) / (HIGH - LOW)) * 100}%`;
      mark.setAttribute("x1", x);
      mark.setAttribute("x2", x);
      mark.setAttribute("visibility", "visible");
    }
  };
  range.addEventListener("input", () => show(Number(range.value), range));
  c.addEventListener("input", () => show(c.value === "" ? NaN : Number(c.value), c));
  f.addEventListener("input", () => show(f.value === "" ? NaN : (Number(f.value) - 32) / 1.8, f));
  form.addEventListener("submit", (event) => event.preventDefault());
  show(data.band.minimum_c !== undefined && data.band.minimum_c >= 12 ? 20 : 15, null); // what a windowsill or a spring bed may have
}
