// The numbers of the lines beside the text of a job, those marked where something is wrong.

const box = document.getElementById("text");
const gutter = document.getElementById("gutter");
const errors = () => [...document.querySelectorAll("#text-errors [data-line]")];

function draw() {
  const wrong = new Map();
  for (const e of errors()) {
    const words = e.parentElement.textContent.trim();
    const before = wrong.get(Number(e.dataset.line));
    wrong.set(Number(e.dataset.line), before ? `${before}\n${words}` : words);
  }
  const count = box.value.split("\n").length;
  const lines = [];
  for (let n = 1; n <= count; n++) {
    const line = document.createElement("span");
    line.textContent = n;
    if (wrong.has(n)) {
      line.className = "bad";
      line.title = wrong.get(n);
    }
    lines.push(line);
  }
  gutter.replaceChildren(...lines);
  follow();
}

// follow keeps the numbers beside their lines.
function follow() { gutter.scrollTop = box.scrollTop; }

box.addEventListener("scroll", follow);
box.addEventListener("input", draw);
new MutationObserver(draw).observe(document.getElementById("text-form"), { childList: true, subtree: false });
document.body.addEventListener("htmx:afterSwap", draw);
new ResizeObserver(() => { gutter.style.height = `${box.offsetHeight}px`; follow(); }).observe(box);
draw();
