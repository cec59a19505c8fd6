// Niceties only: every form and link works without this file.

// A clip link plays in the page instead of opening the file.
const player = new Audio();

function play(source) {
  const again = player.dataset.source === source && !player.paused;
  player.pause();
  if (again) return;
  player.dataset.source = source;
  player.src = source;
  player.play().catch(() => { window.location.assign(source); });
}

document.addEventListener("click", (event) => {
  const link = event.target.closest("a.clip");
  if (!link) return;
  event.preventDefault();
  play(link.getAttribute("href"));
});

// Keys act only while the focus is in a question and not in an input, so that they disturb
// neither typing nor a screen reader.
const questions = [...document.querySelectorAll("article.question[tabindex]")];

function move(from, step) {
  const next = questions[questions.indexOf(from) + step];
  if (next) {
    next.focus();
    next.scrollIntoView({ block: "start" });
  }
}

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  if (event.target.closest("input, select, textarea, audio")) return;
  const question = event.target.closest("article.question[tabindex]");
  if (!question) return;
  if (event.key === "p") {
    const audio = question.querySelector("audio");
    if (audio && audio.paused) audio.play().catch(() => audio.focus()); // refused: the player's own button is there
    else if (audio) audio.pause();
  } else if (event.key === "n") {
    move(question, 1);
  } else if (event.key === "b") {
    move(question, -1);
  }
});
