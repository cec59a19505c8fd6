// Pictures by hand: a picture is dragged onto its part or mark, files are dropped to be taken in.
// Without this file the forms do the same.

const KIND = "application/x-bench-picture";
const section = () => document.getElementById("photos");

// What a picture may be dragged onto: the choices of its form, as fields beside it.
function targets(section) {
  const shelf = section.querySelector("[data-shelf]");
  const choices = section.querySelectorAll("select[name=place]");
  if (!shelf || !choices.length || shelf.childElementCount) return;
  const hint = document.createElement("span");
  hint.textContent = "Drag a picture onto what it shows:";
  shelf.append(hint, ...[...choices[0].options].filter((option) => option.value).map((option) => {
    const field = document.createElement("span");
    field.className = "target";
    field.dataset.place = option.value;
    field.textContent = option.textContent;
    return field;
  }));
  shelf.hidden = false;
}

function over(event) {
  const types = [...event.dataTransfer.types];
  const at = event.target.closest?.("#photos .target");
  if (types.includes(KIND)) return at;
  return types.includes("Files") ? event.target.closest?.("#photos") : null;
}

function mark(element) {
  document.querySelectorAll(".over").forEach((one) => { if (one !== element) one.classList.remove("over"); });
  element?.classList.add("over");
}

document.addEventListener("dragstart", (event) => {
  const picture = event.target.closest?.("#photos li[data-picture]");
  if (!picture) return;
  event.dataTransfer.setData(KIND, picture.dataset.picture);
  event.dataTransfer.effectAllowed = "move";
});

document.addEventListener("dragover", (event) => {
  const at = over(event);
  mark(at);
  if (at) event.preventDefault(); // it may be dropped here
});

document.addEventListener("dragend", () => mark(null));
document.addEventListener("dragleave", (event) => { if (!event.relatedTarget) mark(null); });

document.addEventListener("drop", (event) => {
  const at = over(event);
  mark(null);
  if (!at) return;
  event.preventDefault();
  const id = event.dataTransfer.getData(KIND);
  if (id) {
    const form = section().querySelector(`li[data-picture="${CSS.escape(id)}"] form[action$="/place"]`);
    form.elements.place.value = at.dataset.place;
    form.requestSubmit();
    return;
  }
  const input = section().querySelector("input[type=file][name=files]");
  input.files = event.dataTransfer.files;
  input.form.requestSubmit();
});

function begin() {
  const found = section();
  if (found) targets(found);
}

// What others change is put in the place of the section: it is begun anew.
new MutationObserver(begin).observe(document.getElementById("main"), { childList: true });
begin();
