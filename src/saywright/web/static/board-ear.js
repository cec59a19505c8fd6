// What the microphone does: a word, a shape and a colour for each state, and what to do about it.

const byId = (id) => document.getElementById(id);

const STATES = {
  listening: ["Listening", "Tap to pause", "pause"],
  paused: ["Paused", "Nothing is heard. Tap to go on", "resume"],
  speaking: ["Speaking", "The microphone is shut meanwhile", "pause"],
  clipped: ["Too loud", "Words may be lost. Move it away", "pause"],
  too_quiet: ["Too quiet", "Words may be lost. Move it closer", "pause"],
  unplugged: ["Unplugged", "Nothing is heard. Plug it in again", ""],
  closed: ["No microphone", "Nothing is heard. Keys still work", ""],
  ended: ["Signed out", "Nothing new is shown. Tap to sign in again", "sign-in"],
  lost: ["No contact", "The program does not answer", ""],
  waiting: ["One moment", "The board is being loaded", ""],
};
const FLOOR_DBFS = -54, STEP_DB = 6; // eight bars up to −6 dBFS

let state = "";

export const earState = () => state;
export const earAct = () => (STATES[state] ? STATES[state][2] : "");

export function drawEar(next, level = -120, note = "") {
  const [word, hint, act] = STATES[next] || STATES.closed;
  if (next !== state) {
    byId("ear").dataset.state = next;
    byId("frame").dataset.state = next;
    byId("microphone-shape").setAttribute("href", `#shape-${STATES[next] ? next : "closed"}`);
    byId("microphone-word").textContent = word;
    byId("microphone").setAttribute("aria-disabled", act ? "false" : "true");
    state = next;
  }
  byId("microphone-hint").textContent = note ? note.slice(0, 1).toUpperCase() + note.slice(1).split(". ")[0] : hint; // the rest stands beside it
  byId("ear").querySelectorAll(".level i").forEach((bar, n) => bar.classList.toggle("on", level >= FLOOR_DBFS + n * STEP_DB));
}
