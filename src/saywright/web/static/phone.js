// A picture that was taken or chosen is sent at once. Without this file the button sends it.

const form = document.querySelector("form.shots");
const sending = document.querySelector("#sending");

form?.addEventListener("change", (event) => {
  if (event.target.files?.length) form.requestSubmit();
});

form?.addEventListener("submit", () => {
  const count = [...form.querySelectorAll("input")].reduce((sum, input) => sum + input.files.length, 0);
  sending.textContent = count === 1 ? "Sending one picture …" : `Sending ${count} pictures …`;
  form.querySelector("button").disabled = true;
});

// Back from another page: the browser may show the form as it was left.
window.addEventListener("pageshow", () => {
  if (!form) return;
  form.reset();
  form.querySelector("button").disabled = false;
  sending.textContent = "";
});
