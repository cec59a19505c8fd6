// A data key types a value and Enter, faster than hands can. What hands type is taken as words.

const BURST_MS = 45; // between two keys of an instrument; hands take about twice that
const HAND_IDLE_MS = 15000; // typing left alone that long is forgotten, and said to be

export function startKeys({ send, show, forgotten }) {
  let text = "", gaps = [], last = 0, timer = 0;

  const clear = () => { text = ""; gaps = []; window.clearTimeout(timer); show(""); };

  const burst = () => {
    const sorted = [...gaps].sort((a, b) => a - b);
    return sorted.length > 0 && sorted[Math.floor(sorted.length / 2)] <= BURST_MS;
  };

  const end = (event) => {
    gaps.push(event.timeStamp - last);
    const sent = text, by = burst() ? "key" : "hand";
    event.preventDefault(); // Enter of a data key must press no button
    event.stopPropagation();
    clear();
    send(sent, by);
  };

  window.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return;
    if (event.repeat) return; // a key that is held down, or leant on
    if (text && (event.key === "Enter" || (event.key === "Tab" && burst()))) return void end(event);
    if (text && event.key === "Escape") return void clear();
    if (text && event.key === "Backspace") {
      text = text.slice(0, -1);
      return void show(text);
    }
    if (event.key.length !== 1) return;
    if (event.key === " " && !text) return; // the space bar presses what has the focus
    event.preventDefault();
    if (text) gaps.push(event.timeStamp - last);
    text += event.key;
    last = event.timeStamp;
    // A burst is over before anybody could read it; what hands type is shown as they type.
    window.clearTimeout(timer);
    timer = window.setTimeout(() => {
      const lost = text;
      clear();
      forgotten(lost);
    }, HAND_IDLE_MS);
    show(text);
  }, { capture: true });
}
