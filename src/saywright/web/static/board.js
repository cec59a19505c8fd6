// The board: follows the job's stream, draws what it tells, and takes the data key and the knuckles.

import { drawAsks, drawBeside, drawReady, drawSaid, drawToDo, refit, strike } from "./board-draw.js";
import { drawEar, earAct, earState } from "./board-ear.js";
import { startKeys } from "./board-keys.js";
import { play, startSounds } from "./board-sound.js";

const { path, token, listens } = document.body.dataset;
const byId = (id) => document.getElementById(id);
const NOTICE_MS = 12000;
const MAX_SPEECH = 84; // characters of two lines

let shown = null; // the state as last drawn
let notedSeq = 0; // the caution somebody noted
let provisional = null;
let speaking = false; // words are forming, or hands are typing
let fetching = false, wanted = 0; // the event that must be seen
let noticeTimer = 0;
let toldNote = ""; // of the microphone
let answeredSeq = 0; // the words that were told as an answer

function notice(text, plain = false) {
  const line = byId("notice");
  line.textContent = text;
  line.classList.toggle("plain", plain);
  window.clearTimeout(noticeTimer);
  if (text) noticeTimer = window.setTimeout(() => { line.textContent = ""; }, NOTICE_MS);
}

function drawBesideNow() {
  const spoken = shown.caution && shown.caution_seq > notedSeq ? shown.caution : null;
  const caution = shown.caution_past ? null : spoken;
  byId("caution-foot").textContent = spoken && shown.caution_past ? `Caution: ${spoken.title}` : "";
  drawBeside(caution, shown.picture, path, () => { notedSeq = shown.caution_seq; drawBesideNow(); });
}

function drawLast() {
  if (provisional) drawSaid(provisional.told, false);
  else if (shown.last.length) drawSaid(shown.last, true);
  else drawReady(shown.cautions);
}

// While somebody speaks, the words as they form; else the words heard last.
function drawSpeech(words = "") {
  const line = byId("partial");
  const heard = shown && shown.heard ? `heard: “${shown.heard}”` : "Say what you find, the part first.";
  const text = words || heard;
  line.textContent = text.length > MAX_SPEECH ? `…${text.slice(1 - MAX_SPEECH)}` : text;
  line.classList.toggle("heard", !words);
}

function draw(state) {
  const before = shown;
  shown = state;
  byId("stage").textContent = state.signed_by ? `signed: ${state.signed_by}` : state.stage;
  drawAsks(state.asks, state.asks_count, state.last);
  drawToDo(state.to_do, state.to_do_count, state.stage);
  drawBesideNow();
  drawLast();
  if (!speaking) drawSpeech();
  document.documentElement.dataset.seq = String(state.seq);
  if (!before || state.said === before.said) return;
  strike();
  play(state.last.some((told) => told.asks.length) ? "asks" : "understood");
}

async function refresh(seq = 1) {
  wanted = Math.max(wanted, seq);
  if (fetching || (shown && shown.seq >= wanted)) return;
  fetching = true;
  let aim = 0;
  try {
    do {
      aim = wanted;
      const answer = await fetch(`${path}/board/state`, { headers: { accept: "application/json" } });
      if (answer.status === 401) return void drawEar("ended");
      if (!answer.ok) throw new Error(String(answer.status));
      draw(await answer.json());
    } while (wanted > aim && shown.seq < wanted);
  } catch {
    notice("The job cannot be read just now. It is tried again.");
    window.setTimeout(() => refresh(wanted), 2000);
  } finally {
    fetching = false;
  }
}

const LIVE = {
  partial: ({ words }) => {
    speaking = Boolean(words);
    drawSpeech(words);
    if (provisional) { provisional = null; drawLast(); }
  },
  provisional: ({ words, told }) => {
    speaking = true;
    drawSpeech(words);
    provisional = told.length ? { words, told } : null;
    if (shown) drawLast();
  },
  settled: ({ seq }) => {
    speaking = false;
    provisional = null;
    if (shown && shown.seq > seq) draw(shown);
    else refresh(seq + 1); // what it was understood as
  },
  microphone: ({ state, level_dbfs: level, note }) => {
    const before = earState();
    drawEar(state, level, note);
    // Also what was the case before this page followed.
    if (note && note.includes(". ") && note !== toldNote) notice(note.slice(note.indexOf(". ") + 2), true);
    toldNote = note;
    if (state === before || before === "waiting" || before === "") return;
    if (state === "paused" || state === "unplugged") play("paused");
    else if (state === "listening" && (before === "paused" || before === "unplugged")) play("resumed");
  },
  command: ({ text }) => { if (text) notice(text, true); },
  answered: ({ text, seq }) => {
    if (seq <= answeredSeq) return; // told again to a stream that came back
    answeredSeq = seq;
    notice(text, true);
    play("understood");
  },
};

function follow(seq) {
  const source = new EventSource(`${path}/stream?after=${seq}`);
  source.addEventListener("hello", () => {
    if (earState() === "waiting" || earState() === "lost") drawEar("closed");
  });
  source.addEventListener("changed", (event) => {
    const change = JSON.parse(event.data);
    // What was heard is followed at once by what it was understood as.
    if (change.kind !== "heard") refresh(change.seq);
  });
  source.addEventListener("live", (event) => {
    const live = JSON.parse(event.data);
    if (LIVE[live.type]) LIVE[live.type](live);
  });
  source.addEventListener("error", () => {
    drawEar("lost");
    speaking = false;
    drawSpeech();
    if (source.readyState === EventSource.CLOSED) window.setTimeout(again, 2000);
  });
}

// The stream was refused: the sign-in has ended, or the program is not back yet.
async function again() {
  try {
    const answer = await fetch(`${path}/board/state`, { headers: { accept: "application/json" } });
    if (answer.status === 401) return void drawEar("ended");
  } catch { /* not back yet */ }
  follow(shown ? shown.seq : 0);
}

async function post(where, fields) {
  try {
    const answer = await fetch(`${path}/board/${where}`, { method: "POST", body: new URLSearchParams({ token, ...fields }) });
    const told = await answer.json();
    if (answer.ok) {
      if (told.done) notice(told.done, true);
      return true;
    }
    notice(told.line);
  } catch {
    notice("The program did not answer; that was not taken. Do it again.");
  }
  return false;
}

function startTheme() {
  const KEY = "saywright-board-theme";
  let theme = window.matchMedia("(prefers-color-scheme: light)").matches ? "light" : "dark";
  try { theme = localStorage.getItem(KEY) || theme; } catch { /* as the system has it */ }
  const show = () => {
    document.documentElement.dataset.theme = theme;
    byId("theme-word").textContent = theme === "dark" ? "Dark" : "Light";
  };
  byId("theme").addEventListener("click", () => {
    theme = theme === "dark" ? "light" : "dark";
    try { localStorage.setItem(KEY, theme); } catch { /* for this visit only */ }
    show();
  });
  show();
}

function startFull() {
  byId("full").hidden = !document.fullscreenEnabled;
  byId("full").addEventListener("click", () => {
    if (document.fullscreenElement) document.exitFullscreen();
    else document.documentElement.requestFullscreen().catch(() => notice("The browser does not allow it; press F11."));
  });
}

// The screen over the bench must not go dark while nobody touches it.
async function stayAwake() {
  try { await navigator.wakeLock?.request("screen"); } catch { /* the system's own setting holds */ }
}

startTheme();
startFull();
startSounds(() => notice("Tap Sound once: the browser wants a touch first.", true));
startKeys({
  send: (keys, by) => post("keys", { keys, by }),
  show: (text) => { speaking = Boolean(text); drawSpeech(text && `typing: ${text}`); },
  forgotten: (text) => notice(`“${text}” was typed and not ended with Enter; it was not taken.`),
});
byId("microphone").addEventListener("click", () => {
  const act = earAct();
  if (act === "sign-in") window.location.assign(`/sign-in?next=${encodeURIComponent(window.location.pathname)}`);
  else if (act) post("microphone", { act });
});
window.addEventListener("resize", refit);
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") stayAwake(); });
stayAwake();
drawEar(listens === "yes" ? "waiting" : "closed");
refresh().then(() => follow(shown ? shown.seq : 0));
