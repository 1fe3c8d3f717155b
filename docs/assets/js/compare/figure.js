// A figure made for the eye at hand: the crops chosen, the unit, the colours of the page. Nothing is computed but °F.

const toF = (celsius) => celsius * 1.8 + 32;
const POINTWISE = ["x", "y", "base", "text", "hovertext", "customdata"];
const ROW = 30; // pixels a crop

/** Plotly takes a text for markup of its own: this one shows as it stands. The figure's texts come escaped in the same way. */
export const asLetters = (text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");

/** The trace with only the points of these crops. */
function pick(trace, crops) {
  const kept = trace.customdata.map(([crop], i) => (crops.has(crop) ? i : -1)).filter((i) => i >= 0);
  const picked = { ...trace };
  for (const name of POINTWISE) if (Array.isArray(trace[name])) picked[name] = kept.map((i) => trace[name][i]);
  return picked;
}

/** Points that stand on one another become one, its words those of all. */
function together(trace) {
  const places = new Map();
  trace.x.forEach((x, i) => places.set(x, [...(places.get(x) ?? []), i]));
  const firsts = [...places.values()];
  return { ...trace, x: firsts.map(([i]) => trace.x[i]), y: firsts.map(([i]) => trace.y[i]), customdata: firsts.map(([i]) => trace.customdata[i]), hovertext: firsts.map((all) => all.map((i) => trace.hovertext[i]).join("<br>")) };
}

/** A length of a bar is a difference of temperatures: there is no 32 in it. */
function inFahrenheit(trace) {
  const bar = trace.type === "bar";
  return { ...trace, x: trace.x.map((x) => (bar ? x * 1.8 : toF(x))), ...(bar ? { base: trace.base.map(toF) } : {}) };
}

function coloured(trace, colour) {
  const { fill, line, hatch } = trace.meta;
  const marker = { ...trace.marker, color: colour(fill), line: { ...trace.marker?.line, color: colour(line), width: 1 } };
  if (trace.marker?.pattern) marker.pattern = { ...trace.marker.pattern, fgcolor: colour(hatch), bgcolor: colour(fill), fillmode: "overlay" };
  return { ...trace, marker, ...(trace.type === "scatter" ? { line: { ...trace.line, color: colour(line) } } : {}) };
}

/**
 * {data, layout} for plotly: of `crops` (a list of ids in the order wanted), names by id in `names`, `unit` "c" or "f", `range` [from, to] in °C
 * or years, `colour(variable)` the page's colour, `width` of the room in pixels.
 */
export function drawing(figure, { crops, names, unit, range, colour, font, width, still }) {
  const { meta } = figure.layout;
  const set = new Set(crops);
  const fahrenheit = meta.scale === "celsius" && unit === "f";
  const data = figure.data.map((trace) => pick(trace, set)).filter((trace) => trace.customdata.length > 0)
    .map((trace) => (trace.meta.together ? together(trace) : trace))
    .map((trace) => (fahrenheit ? inFahrenheit(trace) : trace))
    .map((trace) => coloured(trace, colour));
  const byCrop = figure.layout.yaxis.type === "category";
  const axis = { color: colour("--ink-soft"), gridcolor: colour("--rule"), linecolor: colour("--rule"), tickfont: { size: 13 } };
  const layout = {
    ...figure.layout,
    paper_bgcolor: colour("--paper"), plot_bgcolor: colour("--paper"),
    font: { color: colour("--ink"), family: font, size: 14 },
    hoverlabel: { bgcolor: colour("--panel"), bordercolor: colour("--ink"), font: { color: colour("--ink"), family: font, size: 14 }, align: "left", namelength: -1 },
    title: { ...figure.layout.title, font: { size: width < 500 ? 15 : 17, color: colour("--ink") } },
    legend: { ...figure.layout.legend, font: { size: 13, color: colour("--ink") } },
    xaxis: {
      ...figure.layout.xaxis, ...axis, range: (range ?? meta.ends).map((value) => (fahrenheit ? toF(value) : value)),
      title: { text: fahrenheit ? "soil temperature, °F" : figure.layout.xaxis.title.text },
    },
    yaxis: { ...figure.layout.yaxis, ...axis },
    dragmode: still ? false : "zoom",
    showlegend: true,
  };
  if (figure.layout.yaxis2) layout.yaxis2 = { ...figure.layout.yaxis2, ...axis };
  if (byCrop) {
    layout.yaxis.categoryarray = crops.map((crop) => asLetters(names.get(crop)));
    layout.yaxis.range = [crops.length - 0.5, -0.5];
    layout.yaxis.autorange = false;
    layout.yaxis.tickmode = "linear";
    layout.yaxis.dtick = 1;
    layout.margin = { ...layout.margin, t: 56 + 22 * (width < 500 ? data.length : Math.ceil(data.length / Math.floor((width - 130) / 130))) };
    layout.legend = { ...layout.legend, x: 0, xanchor: "left", y: 1, yanchor: "bottom" };
    layout.title = { ...layout.title, y: 1, yref: "container", yanchor: "top", pad: { t: 10 } };
    layout.height = ROW * crops.length + layout.margin.t + 60;
  } else {
    layout.height = 520 + 24 * Math.ceil((data.length + 1) / Math.max(1, Math.floor(width / 190)));
    layout.legend = { ...layout.legend, yref: "container", y: 0.01, yanchor: "bottom" };
  }
  return { data, layout };
}
