// The box with the job file: it follows what is changed elsewhere as long as nobody types
// here, and goes to the line of an error.

const form = document.getElementById("text-form");
const box = document.getElementById("text");
let shown = box.value; // as the program has it
let sent = shown;
let asking = 0;
let latest = 0; // version that there is

const version = () => Number(form.querySelector("[name=version]").value);

// catchUp shows the text that there is, unless something was typed since.
async function catchUp() {
  if (asking || latest <= version() || box.value !== shown || !box.isConnected) return;
  asking++;
  try {
    const answer = await fetch(form.dataset.now);
    const text = (await answer.text()).replaceAll("\r\n", "\n");
    if (!answer.ok || box.value !== shown || text === shown) return;
    const at = box.selectionStart;
    box.value = text;
    box.setSelectionRange(at, at);
    sent = shown = box.value;
  } finally {
    asking--;
  }
  htmx.ajax("POST", form.getAttribute("hx-post"), {
    source: form, target: "#text-errors", swap: "outerHTML", values: { text: shown, version: latest },
  });
}

const follow = (event) => {
  latest = event.detail.version;
  if (box.isConnected) catchUp();
  else document.body.removeEventListener("document", follow);
};
document.body.addEventListener("document", follow);

form.addEventListener("htmx:beforeRequest", () => {
  asking++;
  sent = box.value;
});
form.addEventListener("htmx:afterRequest", (event) => {
  asking--;
  const over = form.querySelector("[name=over]");
  if (event.detail.successful && !over) shown = sent;
  if (over && sent === shown && box.value === shown) { // nothing was typed: there is nothing to choose
    over.closest(".notice").remove();
    form.querySelector("[name=version]").value = 0;
    latest = Math.max(latest, 1);
  }
  catchUp();
});

form.addEventListener("click", (event) => {
  const place = event.target.closest("[data-line]");
  if (!place) return;
  const lines = box.value.split("\n");
  const line = Math.min(Number(place.dataset.line), lines.length) - 1;
  const from = lines.slice(0, line).reduce((sum, text) => sum + text.length + 1, 0);
  box.focus();
  box.setSelectionRange(from, from + lines[line].length);
  box.scrollTop = (box.scrollHeight / lines.length) * Math.max(0, line - 4);
});
