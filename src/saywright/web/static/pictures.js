// The pointer fills in the places of the form that was touched last. Every form works without this file.

const stage = document.querySelector(".easel");
const drawing = document.getElementById("drawing");
const preview = document.getElementById("preview");
const draw = document.getElementById("draw");
const measure = document.getElementById("measure");
const look = document.getElementById("look");
const part = document.getElementById("part");
const debris = document.getElementById("debris");
const BOXES = { look, part }; // forms that want two corners of a box
const says = document.getElementById("pointer-says");
const WIDTH = 1000;
const height = drawing.viewBox.baseVal.height;
const PLACES = { distance: 2, circle: 2, angle: 3 };

let active = "draw";
let target = "places";
let shown = [];

for (const [form, name] of [[draw, "draw"], [measure, "measure"], [look, "look"], [part, "part"], [debris, "debris"]]) {
  form.addEventListener("focusin", (event) => {
    const [before, last] = [target, active];
    active = name;
    if (name === "measure") target = ["ends", "known"].includes(event.target.name) ? "ends" : "places";
    if (name in BOXES) target = "corners";
    if (name === "debris") target = ["ends", "known"].includes(event.target.name) ? "ends" : "within";
    if (target !== before || name !== last) shown = [];
    says.textContent = name in BOXES || target === "within" ? "The pointer shows two corners of a box, one press each." : name === "draw"
      ? "The pointer draws: press at one end, let go at the other."
      : `The pointer shows the ${target === "ends" ? "ends of the known distance" : "places to measure"}, one press each.`;
  });
}

function place(event) {
  const box = drawing.getBoundingClientRect();
  const within = (value) => Math.min(1, Math.max(0, value));
  return [within((event.clientX - box.left) / box.width), within((event.clientY - box.top) / box.height)];
}

function element(tag, attributes) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

function sketch(start, end) {
  const [x, y, toX, toY] = [start[0] * WIDTH, start[1] * height, end[0] * WIDTH, end[1] * height];
  const kind = active === "draw" ? draw.elements.kind.value : active in BOXES || target === "within" ? "box" : "line";
  if (kind === "ring") {
    return element("circle", { cx: x, cy: y, r: Math.hypot(toX - x, toY - y) });
  }
  if (kind === "box") {
    return element("rect", { x: Math.min(x, toX), y: Math.min(y, toY), width: Math.abs(toX - x), height: Math.abs(toY - y) });
  }
  return element("path", { d: `M${x} ${y} L${toX} ${toY}` });
}

let from = null;

stage.addEventListener("pointerdown", (event) => {
  if (event.button !== 0) return;
  event.preventDefault();
  if (active !== "draw") {
    const form = BOXES[active] ?? (active === "debris" ? debris : measure);
    const wanted = target !== "places" ? 2 : PLACES[measure.elements.kind.value];
    if (shown.length >= wanted) shown = [];
    shown.push(place(event));
    form.elements[target].value = shown.map(([x, y]) => `${x.toFixed(5)},${y.toFixed(5)}`).join(" ");
    preview.replaceChildren(
      ...shown.map(([x, y]) => element("circle", { cx: x * WIDTH, cy: y * height, r: 6 })),
      ...(shown.length > 1 ? [sketch(shown.at(-2), shown.at(-1))] : []),
    );
    return;
  }
  from = place(event);
  stage.setPointerCapture(event.pointerId);
});

stage.addEventListener("pointermove", (event) => {
  if (from) preview.replaceChildren(sketch(from, place(event)));
});

stage.addEventListener("pointerup", (event) => {
  if (!from) return;
  const to = place(event);
  const values = { x: from[0], y: from[1], to_x: to[0], to_y: to[1] };
  for (const [name, value] of Object.entries(values)) draw.elements[name].value = value.toFixed(5);
  preview.replaceChildren(sketch(from, to));
  from = null;
  if (draw.elements.kind.value === "text") draw.elements.text.focus();
});

stage.addEventListener("pointercancel", () => { from = null; preview.replaceChildren(); });
