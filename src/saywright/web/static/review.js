// What asks, by keyboard: one key accepts, one plays, typing a value corrects, the next comes by itself.
//
// Keys act only while the focus is in the question and in no field, so that they disturb neither
// typing nor a screen reader.
import { toggle } from "./clip.js";

const TYPED = /^[0-9.,\-−]$/;
const HOLD_MS = 1000; // a key meant for the question before must not settle the one that took its place
let busy = false;
let held_ms = -HOLD_MS;

// Somebody else changed what is in hand: for a moment no key settles it.
export function hold() {
  held_ms = performance.now();
}

function question() {
  return document.getElementById("ask");
}

// The question in hand stands in the middle of the list of all.
function reveal() {
  const now = document.querySelector(".queue [aria-current]");
  const list = now?.closest("ol");
  if (list) list.scrollTop = now.offsetTop - list.clientHeight / 2;
}

// Put what the answer shows in the place of what is shown; the focus goes to the question in hand.
export function show(answer, names) {
  for (const name of names) {
    const next = answer.querySelector(`[data-live="${name}"]`);
    const now = document.querySelector(`[data-live="${name}"]`);
    if (next && now) now.replaceWith(document.adoptNode(next));
  }
  reveal();
  const seq = answer.body.dataset.seq;
  if (seq) document.body.dataset.seq = seq;
}

function tell(answer) {
  const notices = document.getElementById("notices");
  const notice = answer.querySelector("#notices") || answer.querySelector("article.failed");
  if (!notices || !notice) return;
  notices.replaceChildren(...[notice.id === "notices" ? [...notice.childNodes] : [document.adoptNode(notice)]].flat());
}

async function send(form, submitter) {
  if (busy) return;
  busy = true;
  document.body.classList.add("sending");
  try {
    const data = new FormData(form, submitter);
    const response = await fetch(form.action, { method: "POST", body: new URLSearchParams(data) });
    const answer = new DOMParser().parseFromString(await response.text(), "text/html");
    if (response.ok && answer.getElementById("review")) {
      history.replaceState(null, "", response.url.replace(/[?&](done|event)=[^&#]*/g, "").replace(/\/asks&/, "/asks?"));
      show(answer, ["review", "pages", "docket"]);
    } else {
      await go(window.location.href); // refused: what is asked is shown as it is now
    }
    tell(answer);
    const next = question();
    if (next) next.focus();
  } catch {
    form.submit(); // the network or the script failed: the browser sends it and shows what comes
  } finally {
    busy = false;
    document.body.classList.remove("sending");
  }
}

document.addEventListener("submit", (event) => {
  if (!document.getElementById("review") || event.target.method !== "post") return;
  if (!event.target.closest("#review, #notices")) return;
  event.preventDefault();
  send(event.target, event.submitter);
});

async function go(address) {
  const response = await fetch(address);
  const answer = new DOMParser().parseFromString(await response.text(), "text/html");
  if (!response.ok || !answer.getElementById("review")) return window.location.assign(address);
  history.replaceState(null, "", address);
  show(answer, ["review", "pages", "docket"]);
  question().focus();
}

function open(details) {
  details.open = !details.open;
  const field = details.open && details.querySelector("input:not([type=hidden]), select, textarea");
  if (field) field.focus();
}

function pressed(key, ask) {
  const found = [...document.querySelectorAll("#ask [data-key], #notices [data-key]")].find(
    (element) => element.dataset.key === key,
  );
  if (key === "p") {
    const clip = ask.querySelector("a.clip");
    if (clip) toggle(clip);
  } else if (!found) {
    return false;
  } else if (found.localName === "details") {
    open(found);
  } else if (found.localName === "a" && document.getElementById("review") && (key === "n" || key === "b")) {
    go(found.href);
  } else {
    found.click();
  }
  return true;
}

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return;
  const ask = event.target.closest("#ask");
  if (!ask) return;
  const field = event.target.closest("input, select, textarea");
  if (field) {
    if (event.key === "Escape") {
      field.form.reset();
      ask.focus();
    }
    return;
  }
  const quick = ask.querySelector("[data-quick] input:not([type=hidden])");
  if (TYPED.test(event.key) && quick) {
    quick.focus();
    quick.select(); // the key that was pressed takes the place of the value
    return;
  }
  if (event.key === "e" && quick) {
    event.preventDefault();
    quick.focus();
    quick.select();
    return;
  }
  if (performance.now() - held_ms < HOLD_MS) {
    event.preventDefault();
    return;
  }
  if (event.key === "Enter" && event.target !== ask) return; // a button or link has the focus: its own key
  if (pressed(event.key === "a" ? "Enter" : event.key, ask)) event.preventDefault();
});

if (question() && document.getElementById("review")) {
  question().focus({ preventScroll: true });
  reveal();
}
