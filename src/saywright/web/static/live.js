// What others do to the job is shown as it happens. What is being typed is never taken away.
import { hold, show } from "./review.js";

const { job, seq } = document.body.dataset;
let timer = 0;
let who = "";

function chosen(select) {
  const options = [...select.options];
  if (select.multiple) return options.some((option) => option.selected !== option.defaultSelected);
  return select.selectedIndex !== Math.max(0, options.findIndex((option) => option.defaultSelected));
}

function typing() {
  const fields = document.querySelectorAll("main form input:not([type=hidden]), main form textarea, main form select");
  return [...fields].some((field) => {
    if (field.localName === "select") return chosen(field);
    if (field.type === "checkbox") return field.checked !== field.defaultChecked;
    return field.value !== field.defaultValue;
  });
}

function tell(text) {
  const notices = document.getElementById("notices");
  if (!notices) return;
  const line = document.createElement("p");
  line.className = "notice live";
  line.textContent = text;
  notices.querySelector(".live")?.remove();
  notices.append(line);
}

function ended() {
  document.body.classList.add("ended");
  tell("Your sign-in has ended: nothing new is shown, and nothing can be sent. Copy what you typed, then load the page again to sign in.");
}

// What is being sent brings its own answer; until then nothing may take the place of the question in hand.
function sending() {
  return document.body.classList.contains("sending");
}

function later() {
  clearTimeout(timer);
  timer = setTimeout(() => refresh().catch(() => {}), 150 + 400 * Math.random()); // not all in the same moment
}

async function refresh() {
  if (sending()) return later();
  const response = await fetch(window.location.href);
  if (response.status === 401) return ended();
  if (!response.ok) return;
  const answer = new DOMParser().parseFromString(await response.text(), "text/html");
  if (sending()) return later();
  if (Number(answer.body.dataset.seq) <= Number(document.body.dataset.seq)) return;
  const now = document.getElementById("ask");
  const next = answer.getElementById("ask");
  const moved = now && (now.dataset.item !== next?.dataset.item || now.dataset.event !== next?.dataset.event);
  show(answer, ["docket", "pages"]);
  if (typing()) {
    tell(moved ? `${who} changed this item while you were at it. Load the page again to see it as it is now.`
      : `${who} changed the job. Load the page again when you are done.`);
    return;
  }
  if (moved) hold();
  const held = now?.contains(document.activeElement);
  show(answer, [...document.querySelectorAll("[data-live]")].map((element) => element.dataset.live));
  if (held) document.getElementById("ask")?.focus({ preventScroll: true });
  tell(`${who} changed the job; it is shown as it is now.`);
}

if (job && "EventSource" in window) {
  const source = new EventSource(`${job}/stream?after=${seq}`);
  source.addEventListener("changed", (event) => {
    const told = JSON.parse(event.data);
    if (told.seq <= Number(document.body.dataset.seq)) return;
    if (told.kind === "heard") return; // followed at once by what it was understood as
    who = told.actor;
    later(); // several at once are one look
  });
  source.addEventListener("error", () => {
    if (source.readyState === EventSource.CLOSED) fetch(window.location.href, { method: "HEAD" }).then((answer) => { if (answer.status === 401) ended(); }, () => {});
  });
  window.addEventListener("pagehide", () => source.close());
}
