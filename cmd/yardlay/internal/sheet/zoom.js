// zoomable lets the drawing in a figure be moved and brought nearer: what is seen is its view
// box, in millimetres of cloth. The figure has a .view that holds the svg, and .tools with
// buttons data-do="in", "out", "whole". tapped is told what was tapped. What it returns:
// renew() after another drawing took the place of the first, whole(), at(x, y) the point of
// the drawing under one of the screen. What may be set: wheel, whether the wheel alone zooms a drawing
// in focus, and free(), false while something else follows the pointer.
function zoomable(figure, tapped) {
  var most = 24, step = 1.5;
  var view = figure.querySelector(".view"), svg = null;
  var whole = null, seen = null;
  var fingers = new Map(), moved = 0, pressed = null;
  var self = { renew: renew, whole: showWhole, at: at, wheel: false, free: function () { return true; } };

  // renew takes up the drawing that is there now, as near as the last one.
  function renew() {
    svg = view.querySelector("svg");
    var box = svg.viewBox.baseVal, before = whole, was = seen;
    whole = { x: box.x, y: box.y, w: box.width, h: box.height };
    seen = { x: whole.x, y: whole.y, w: whole.w, h: whole.h };
    if (was && was.w < before.w) { set(was.x, was.y, whole.w * was.w / before.w); }
  }
  function set(x, y, w) {
    w = Math.min(whole.w, Math.max(whole.w / most, w));
    var h = w * whole.h / whole.w;
    seen = {
      x: Math.min(whole.x + whole.w - w, Math.max(whole.x, x)),
      y: Math.min(whole.y + whole.h - h, Math.max(whole.y, y)), w: w, h: h
    };
    svg.setAttribute("viewBox", [seen.x, seen.y, seen.w, seen.h].map(function (v) { return Number(v.toFixed(2)); }).join(" "));
    figure.classList.toggle("near", seen.w < whole.w);
  }
  function showWhole() { set(whole.x, whole.y, whole.w); }
  function at(x, y) { // the point of the drawing under one of the screen
    return new DOMPoint(x, y).matrixTransform(svg.getScreenCTM().inverse());
  }
  function nearer(by, x, y) {
    var p = at(x, y), w = Math.min(whole.w, Math.max(whole.w / most, seen.w / by)), k = w / seen.w;
    set(p.x - (p.x - seen.x) * k, p.y - (p.y - seen.y) * k, w);
  }
  function nearerMiddle(by) {
    var box = svg.getBoundingClientRect();
    nearer(by, box.left + box.width / 2, box.top + box.height / 2);
  }
  function middle() {
    var x = 0, y = 0, n = fingers.size;
    fingers.forEach(function (f) { x += f.x / n; y += f.y / n; });
    var reach = 0;
    fingers.forEach(function (f) { reach += Math.hypot(f.x - x, f.y - y); });
    return { x: x, y: y, reach: reach };
  }

  view.addEventListener("pointerdown", function (e) {
    if (e.button !== 0 || !self.free()) { return; }
    if (fingers.size === 0) { moved = 0; pressed = e.target; }
    fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
    if (fingers.size > 1) { moved = 100; }
  });
  view.addEventListener("pointermove", function (e) {
    var finger = fingers.get(e.pointerId);
    if (!finger) { return; }
    var before = middle();
    var from = at(before.x, before.y);
    moved += Math.hypot(e.clientX - finger.x, e.clientY - finger.y);
    finger.x = e.clientX;
    finger.y = e.clientY;
    if (moved > 6 && !view.hasPointerCapture(e.pointerId)) { view.setPointerCapture(e.pointerId); }
    var now = middle();
    if (fingers.size > 1 && before.reach > 0) { nearer(now.reach / before.reach, before.x, before.y); }
    var to = at(now.x, now.y);
    set(seen.x + from.x - to.x, seen.y + from.y - to.y, seen.w);
  });
  ["pointerup", "pointercancel"].forEach(function (name) {
    view.addEventListener(name, function (e) {
      if (!fingers.delete(e.pointerId)) { return; }
      if (name === "pointerup" && fingers.size === 0 && moved <= 6) { tapped(pressed); }
    });
  });
  view.addEventListener("pointerleave", function (e) {
    if (!view.hasPointerCapture(e.pointerId)) { fingers.delete(e.pointerId); }
  });
  view.addEventListener("wheel", function (e) { // with Ctrl, as a pad tells a pinch: the page scrolls else
    if (!e.ctrlKey && !(self.wheel && document.activeElement === view)) { return; }
    e.preventDefault();
    nearer(Math.exp(-e.deltaY / (e.ctrlKey ? 200 : 500)), e.clientX, e.clientY);
  }, { passive: false });
  view.addEventListener("keydown", function (e) {
    if (e.ctrlKey || e.metaKey || e.altKey || e.target !== view) { return; }
    var d = seen.w / 8;
    switch (e.key) {
    case "+": case "=": nearerMiddle(step); break;
    case "-": nearerMiddle(1 / step); break;
    case "0": showWhole(); break;
    case "ArrowLeft": set(seen.x - d, seen.y, seen.w); break;
    case "ArrowRight": set(seen.x + d, seen.y, seen.w); break;
    case "ArrowUp": if (seen.w >= whole.w) { return; } set(seen.x, seen.y - d, seen.w); break;
    case "ArrowDown": if (seen.w >= whole.w) { return; } set(seen.x, seen.y + d, seen.w); break;
    default: return;
    }
    e.preventDefault();
  });
  figure.querySelectorAll("button[data-do]").forEach(function (button) {
    button.addEventListener("click", function () {
      switch (button.dataset.do) {
      case "in": nearerMiddle(step); break;
      case "out": nearerMiddle(1 / step); break;
      case "whole": showWhole(); break;
      }
    });
  });
  window.addEventListener("beforeprint", function () { if (figure.isConnected) { showWhole(); } });
  renew();
  view.tabIndex = 0;
  figure.classList.add("ready");
  figure.querySelector(".tools").hidden = false;
  return self;
}
