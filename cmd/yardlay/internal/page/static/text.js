// The box with the job file: it follows what is changed elsewhere as long as nobody types
// here, and goes to the line of an error.

const form = document.getElementById("text-form");
const box = document.getElementById("text");
const version = () => form.querySelector("[name=version]");
let shown = box.value; // as the program has it
let sent = shown;
let asking = 0;
let known = Number(version().value); // version of what is shown
let latest = known; // version that there is

// catchUp shows the text that there is, unless something was typed since.
async function catchUp() {
  while (!asking && latest > known && box.value === shown && box.isConnected) {
    asking++;
    const wanted = latest;
    try {
      const answer = await fetch(form.dataset.now);
      const text = (await answer.text()).replaceAll("\r\n", "\n");
      if (!answer.ok || box.value !== shown) return;
      version().value = known = Number(answer.headers.get("Version"));
      if (known < wanted) latest = known; // the program was begun anew
      if (text === shown) continue;
      const at = box.selectionStart;
      box.value = text;
      box.setSelectionRange(at, at);
      sent = shown = box.value;
    } finally {
      asking--;
    }
    htmx.ajax("POST", form.getAttribute("hx-post"), { // for what is wrong with it
      source: form, target: "#text-errors", swap: "outerHTML", values: { text: shown, version: known },
    });
  }
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
  if (event.detail.successful && !over) {
    shown = sent;
    known = Math.max(known, Number(version().value));
  }
  if (over && sent === shown && box.value === shown) { // nothing was typed: there is nothing to choose
    over.closest(".notice").remove();
    known = 0;
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
