// What every page does: it follows the events of its job, and says when the program
// does not answer.

import { follow } from "./stream.js";

const trouble = document.getElementById("trouble");

// say shows a sentence as text, to screen readers too.
export function say(sentence) {
  const p = document.createElement("p");
  p.textContent = sentence;
  trouble.replaceChildren(p);
}

const silent = "The program does not answer. Is it still running? What you have typed since is not kept.";

// The events of the job are those of the page: hx-trigger="NAME from:body". What would draw
// too often by all of them takes NAME-slowly: the first at once, then one a second, the last
// always. (The library's own throttle forgets the last one.)
const pause = 1000;

function passSlowly(name) {
  const pass = () => document.body.dispatchEvent(new CustomEvent(`${name}-slowly`));
  let waits = false;
  let again = false;
  const open = () => {
    waits = false;
    if (again) take();
  };
  const take = () => {
    again = waits;
    if (waits) return;
    waits = true;
    setTimeout(open, pause);
    pass();
  };
  document.body.addEventListener(name, take);
}
passSlowly("cloths");
passSlowly("runs");

follow(document.body.dataset.events, ["document", "cloths", "runs"],
  (name, version) => document.body.dispatchEvent(new CustomEvent(name, { detail: { version } })),
  (answers) => (answers ? trouble.replaceChildren() : say(silent)));

// What follows the job has an element around it that stays, so that no event is lost while it is
// drawn. It is drawn only where it is another, and not under a finger that presses a button there:
// then it is asked for once more.
document.body.addEventListener("htmx:beforeSwap", (event) => {
  const { requestConfig: { elt }, serverResponse, target, shouldSwap } = event.detail;
  if (!shouldSwap || !elt.matches("[data-follows]")) return;
  const drawn = new DOMParser().parseFromString(serverResponse, "text/html").body;
  if (drawn.childElementCount === 1 && drawn.firstElementChild.isEqualNode(target)) {
    event.detail.shouldSwap = false;
  } else if (target.matches(":active")) {
    event.detail.shouldSwap = false;
    setTimeout(() => htmx.trigger(elt, "again"), 200);
  }
});

document.body.addEventListener("htmx:sendError", () => {
  say(silent);
});
document.body.addEventListener("htmx:afterRequest", (event) => {
  if (event.detail.successful) trouble.replaceChildren();
});

// What the bar says is told to screen readers when it is another thing.
const told = document.getElementById("told");
document.body.addEventListener("htmx:afterSettle", () => {
  const state = document.getElementById("state");
  if (state && told.textContent !== state.textContent) told.textContent = state.textContent;
});

// Save by the keys that save elsewhere; undo and redo where no field undoes its own.
document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const typing = event.target.matches("input, textarea, select");
  const key = event.key.toLowerCase();
  const press = (id) => {
    const button = document.getElementById(id);
    if (!button) return;
    event.preventDefault();
    button.click();
  };
  if (key === "s") press("save");
  else if (!typing && key === "z") press(event.shiftKey ? "redo" : "undo");
  else if (!typing && key === "y") press("redo");
});
