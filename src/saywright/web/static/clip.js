// A clip plays in the page, and its words light up as they are said.

const audio = new Audio();
let link = null; // whose clip plays
let words = []; // its words with times: { element, start_s, end_s }, of the recording
let from_s = 0; // where the clip begins in the recording
let frame = 0;

function light() {
  const now_s = audio.currentTime + from_s;
  for (const word of words) {
    word.element.classList.toggle("now", now_s >= word.start_s && now_s < word.end_s);
    word.element.classList.toggle("past", now_s >= word.end_s);
  }
  if (!audio.paused) frame = requestAnimationFrame(light);
}

function quiet() {
  cancelAnimationFrame(frame);
  for (const word of words) word.element.classList.remove("now", "past");
  if (link) link.classList.remove("playing");
}

export function toggle(next) {
  if (link === next && !audio.paused) {
    audio.pause();
    return;
  }
  audio.pause();
  quiet();
  link = next;
  from_s = Number(link.dataset.from);
  const place = link.closest("[data-line]");
  words = [...(place ? place.querySelectorAll("[data-s]") : [])].map((element) => ({
    element,
    start_s: Number(element.dataset.s),
    end_s: Number(element.dataset.e),
  }));
  const source = link.getAttribute("href");
  if (audio.getAttribute("src") !== source) audio.src = source;
  else audio.currentTime = 0;
  audio.play().catch((error) => {
    if (error.name === "NotSupportedError") window.location.assign(source);
  });
}

audio.addEventListener("play", () => {
  link.classList.add("playing");
  frame = requestAnimationFrame(light);
});
audio.addEventListener("pause", quiet);
audio.addEventListener("ended", quiet);
// The screen may be busy: then this lights them, if later.
audio.addEventListener("timeupdate", () => { if (!audio.paused) light(); });

document.addEventListener("click", (event) => {
  const clicked = event.target.closest("a.clip");
  if (!clicked || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  toggle(clicked);
});
