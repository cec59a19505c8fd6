// While a code is open, what came is shown as it comes. Without this file loading the page again does it.

const EVERY_MS = 2000;
const state = document.querySelector("#phone-state");

function shown(line) {
  const item = document.createElement("li");
  item.className = line.good ? "good" : "bad";
  item.textContent = `${line.good ? "✓" : "✗"} ${line.text}`;
  return item;
}

async function look() {
  const answer = await fetch(state.dataset.state, { headers: { accept: "application/json" } });
  if (!answer.ok) {
    document.querySelector("#phone-minutes").textContent = "0";
    return;
  }
  const told = await answer.json();
  const sent = document.querySelector("#phone-sent");
  if (sent.textContent !== String(told.sent) || told.lines.length !== document.querySelectorAll("#phone-lines li").length) {
    sent.textContent = told.sent;
    document.querySelector("#phone-lines").replaceChildren(...told.lines.map(shown));
  }
  document.querySelector("#phone-minutes").textContent = told.minutes;
  setTimeout(again, EVERY_MS);
}

// A desk that does not answer for a moment is asked again.
const again = () => look().catch(() => setTimeout(again, EVERY_MS));

if (state) setTimeout(again, EVERY_MS);
