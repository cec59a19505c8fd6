// What the board shows, drawn. Text goes in as text, never as markup.

const SVG = "http://www.w3.org/2000/svg";
const byId = (id) => document.getElementById(id);

export function h(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children.filter((child) => child !== null && child !== ""));
  return made;
}

function s(tag, attributes, text) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  if (text !== undefined) made.textContent = text;
  return made;
}

export function shape(name) {
  const svg = s("svg", { class: "shape", "aria-hidden": "true" });
  svg.append(s("use", { href: `#shape-${name}` }));
  return svg;
}

const capital = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);
const verdictOf = (told) => (told.asks.length ? "asks" : told.decision);

// The scale: ticks as engraved, jaws at the limits, the value between or beside them.
const TICK_STEPS = [1, 2, 5];
function tickStep(span) {
  for (let power = -6; power < 7; power += 1) {
    for (const step of TICK_STEPS) {
      if (span / (step * 10 ** power) <= 44) return step * 10 ** power;
    }
  }
  return span;
}

function gauge(told, settled) {
  const { low, high, lower, upper, value, beyond } = told.gauge;
  const width = 1000, base = 62, foot = 8;
  const x = (v) => foot + ((v - low) / (high - low)) * (width - 2 * foot);
  const svg = s("svg", { class: "gauge", viewBox: `0 0 ${width} 100`, preserveAspectRatio: "none", "aria-hidden": "true" });
  const step = tickStep(high - low);
  for (let n = Math.ceil(low / step); n * step <= high; n += 1) {
    const long = n % 5 === 0;
    svg.append(s("line", { class: long ? "tick long" : "tick", x1: x(n * step), x2: x(n * step), y1: base, y2: base + (long ? 20 : 11), "vector-effect": "non-scaling-stroke" }));
  }
  svg.append(s("line", { class: "base", x1: 0, x2: width, y1: base, y2: base, "vector-effect": "non-scaling-stroke" }));
  const left = lower === null ? 0 : x(lower), right = upper === null ? width : x(upper);
  svg.append(s("rect", { class: "room", x: left, y: 22, width: right - left, height: base - 22 }));
  if (lower !== null) svg.append(s("path", { class: "jaw", d: `M${left - 26} 2h26v${base - 2}h-9V30h-17z` }));
  if (upper !== null) svg.append(s("path", { class: "jaw", d: `M${right} 2h26v28h-17v${base - 30}h-9z` }));
  const at = x(value);
  const mark = settled && !told.asks.length ? told.decision : "";
  const head = beyond ? (value === low ? `M${at} 40l18-20v40z` : `M${at} 40l-18-20v40z`) : `M${at} ${base}l-13-48h26z`;
  svg.append(s("path", { class: `at ${mark}`, d: head, "vector-effect": "non-scaling-stroke" }));
  return svg;
}

function plate(told, settled) {
  if (!settled) {
    const words = told.decision && !told.asks.length && told.verdict ? told.verdict : "being heard";
    return h("p", { class: "plate open" }, shape(told.decision && told.decision !== "no_limit" && !told.asks.length ? told.decision : "waiting"),
      h("span", { class: "words" }, h("b", {}, words), h("span", {}, "heard, not yet settled")));
  }
  if (told.asks.length) {
    const would = told.verdict && told.decision !== "no_limit" ? `as it stands: ${told.verdict}` : "";
    return h("p", { class: "plate asks" }, shape("asks"),
      h("span", { class: "words" }, h("b", {}, "asks"), h("span", {}, would || told.asks[0])));
  }
  if (!told.decision) return null;
  return h("p", { class: `plate ${told.decision}` }, shape(told.decision),
    h("span", { class: "words" }, h("b", {}, told.verdict), told.limits ? h("span", {}, told.limits) : null));
}

const BY = { "data key": ["key", "data key"], typed: ["", "typed"], said: ["", ""] };

function large(told, others) {
  const [by, byWord] = BY[told.by] || ["", ""];
  const named = h("p", { class: "named" },
    h("span", { class: "part" }, told.part || told.name || " "),
    told.part && told.name ? h("span", { class: "name" }, told.name) : null);
  const also = others.length ? h("ul", { class: "also" }, ...others.slice(0, 4).map((one) => short(one, told))) : null;
  const top = h("div", { class: "top" }, named, h("div", { class: "beside-name" }, also,
    byWord ? h("span", { class: `by ${by}` }, by === "key" ? shape("key") : null, byWord) : null));
  const [first, ...rest] = told.unit || told.kind === "unclear" || told.kind === "identifier" ? [told.value] : told.value.split(", ");
  const value = h("p", { class: "value" },
    told.about ? h("span", { class: "about" }, "about") : null,
    h("span", { class: "digits" }, first),
    told.unit ? h("span", { class: "unit" }, told.unit) : null,
    rest.length ? h("span", { class: "rest" }, rest.join(", ")) : null);
  return [top, value];
}

// Letters are as high as they should be, or as high as lets the line fit.
const LEAST = 0.3; // what does not fit at this share of the height is broken into lines
function fit(value, room) {
  value.classList.remove("long");
  value.style.setProperty("--fit", "1");
  const wide = value.scrollWidth;
  if (wide <= room) return;
  const share = (room / wide) * 0.99;
  value.classList.toggle("long", share < LEAST);
  value.style.setProperty("--fit", String(Math.max(LEAST, share)));
}

// What a panel says fits into it: smaller where it must, so that nothing is cut off that no voice can scroll to.
const SMALLEST = 0.62;
function fitPanel(body) {
  for (let scale = 1; scale >= SMALLEST; scale -= 0.04) {
    body.style.setProperty("--fit", scale.toFixed(2));
    if (body.scrollHeight <= body.clientHeight + 1) return;
  }
}

export function refit() {
  const value = document.querySelector(".value");
  if (value) fit(value, value.parentElement.clientWidth);
  document.querySelectorAll(".panel .body").forEach(fitPanel);
}

function short(told, main) {
  const what = told.kind === "reading" ? `${told.name} ${told.value}${told.unit ? ` ${told.unit}` : ""}` : told.value;
  const verdict = told.verdict && !told.asks.length ? `, ${told.verdict}` : "";
  const name = told.kind === "action" ? `: ${told.name}` : "";
  return h("li", {}, shape(verdictOf(told) || "also"), `${told.part && told.part !== main.part ? `${told.part}: ` : ""}${what}${name}${verdict}`);
}

export function drawSaid(tolds, settled) {
  const body = byId("said-body"), section = byId("said");
  const [first, ...others] = tolds;
  const judged = h("div", { class: "judged" }, plate(first, settled), first.gauge ? gauge(first, settled) : null);
  body.replaceChildren(...large(first, others), judged);
  section.dataset.settled = settled ? "yes" : "no";
  section.dataset.ready = "no";
  section.dataset.decision = settled ? verdictOf(first) : "";
  body.classList.remove("fresh");
  refit();
}

export function strike() {
  const body = byId("said-body");
  void body.offsetWidth; // so that the motion begins anew
  body.classList.add("fresh");
}

// The first clause; the whole text comes when the trigger is spoken.
const clause = (text) => text.split(/; |(?<=[^A-Z])\. /)[0].replace(/\.$/, "");

export function drawReady(cautions) {
  const lines = cautions.map((one) => h("li", {}, shape("caution"), h("b", {}, one.title), h("span", {}, clause(one.text))));
  byId("said-body").replaceChildren(...[
    h("p", { class: "ready" }, cautions.length ? "Ready. Before you start:" : "Ready. Say what you find."),
    cautions.length ? h("ul", { class: "before" }, ...lines) : null].filter((one) => one));
  byId("said").dataset.ready = "yes";
  byId("said").dataset.settled = "yes";
  byId("said").dataset.decision = "";
}

// How to answer by voice. What was said last is meant by itself; what is older is named again.
function answer(ask, last) {
  if (!ask.name) return h("p", { class: "answer" }, "Say it anew, the part first, then ", h("b", {}, "“drop the question”"), ".");
  const reached = last.some((told) => told.id === ask.item);
  const other = reached ? "“no, make that …”" : ask.name === "it" ? "" : `“no, the ${ask.name} is …”`;
  return h("p", { class: "answer" }, "Say ", h("b", {}, "“that’s right”"), other ? " or " : "", other ? h("b", {}, other) : null, ".");
}

export function drawAsks(asks, count, last) {
  const first = asks[0];
  byId("asks").classList.toggle("waiting", Boolean(first));
  byId("asks-count").textContent = count > 1 ? `1 of ${count}, newest first` : count || "";
  byId("asks-body").replaceChildren(...(first
    ? [h("p", { class: "question" }, first.question), answer(first, last), first.why ? h("p", { class: "why" }, first.why) : null].filter((one) => one)
    : [h("p", { class: "quiet" }, "Nothing asks.")]));
  fitPanel(byId("asks-body"));
}

export function drawToDo(things, count, stage) {
  byId("to-do-count").textContent = count > things.length ? `${count}, the first ${things.length}` : count || "";
  const lines = things.map((thing) => h("li", thing.in_hand ? { class: "in-hand" } : {},
    h("span", { class: "act" }, thing.act), h("span", { class: "what" }, capital(thing.what)),
    thing.stage && thing.stage !== stage ? h("span", { class: "stage-word" }, thing.stage) : null));
  byId("to-do-body").replaceChildren(...(lines.length
    ? [h("ul", { class: "things" }, ...lines)]
    : [h("p", { class: "quiet" }, "Nothing is missing.")]));
  fitPanel(byId("to-do-body"));
}

export function drawBeside(caution, picture, path, noted) {
  const panel = byId("beside"), title = byId("beside-title"), body = byId("beside-body");
  panel.classList.toggle("warns", Boolean(caution));
  if (caution) {
    const button = h("button", { type: "button", class: "noted" }, "Noted");
    button.addEventListener("click", noted);
    title.replaceChildren(shape("caution"), h("span", {}, h("small", {}, "Caution"), h("span", { class: "hide" }, ": "), caution.title), button);
    body.replaceChildren(h("div", { class: "warning", role: "alert" }, caution.text));
    fitPanel(body);
    return;
  }
  title.replaceChildren("Picture");
  if (!picture) {
    body.replaceChildren(h("p", { class: "quiet" }, "None matched yet."));
    return;
  }
  const image = h("img", { src: `${path}/photos/${encodeURIComponent(picture.id)}/small.jpg`, alt: "" });
  body.replaceChildren(h("figure", {}, image, h("figcaption", {}, h("b", {}, picture.part || "no part named"),
    picture.sure ? "matched" : "asks: is it this part?", picture.heard ? h("div", {}, `“${picture.heard}”`) : null)));
}
