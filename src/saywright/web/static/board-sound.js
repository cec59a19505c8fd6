// Three sounds and how loud they are; remembered by this browser.

const LEVELS = [["Sound off", 0], ["Sound low", 0.25], ["Sound", 0.6], ["Sound loud", 1]];
const KEY = "saywright-board-sound";
const NAMES = ["understood", "asks", "paused", "resumed"];
const players = new Map();

let chosen = 2;
let blocked = () => {};

function kept() {
  try {
    const found = Number(localStorage.getItem(KEY) ?? 2);
    return LEVELS[found] ? found : 2;
  } catch {
    return 2; // a browser that keeps nothing
  }
}

function show() {
  document.getElementById("sound-word").textContent = LEVELS[chosen][0];
  document.querySelector("#sound use").setAttribute("href", chosen ? "#shape-sound" : "#shape-sound-off");
}

export function play(name) {
  const player = players.get(name);
  if (!player || !chosen) return;
  player.volume = LEVELS[chosen][1];
  player.currentTime = 0;
  player.play().catch((error) => { if (error.name === "NotAllowedError") blocked(); });
}

export function startSounds(tell) {
  blocked = tell;
  chosen = kept();
  for (const name of NAMES) {
    const player = new Audio(`/board/sounds/${name}.wav`);
    player.preload = "auto";
    players.set(name, player);
  }
  show();
  document.getElementById("sound").addEventListener("click", () => {
    chosen = (chosen + 1) % LEVELS.length;
    try { localStorage.setItem(KEY, String(chosen)); } catch { /* kept for this visit only */ }
    show();
    play("understood");
  });
}
