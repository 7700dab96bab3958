// Prints in the drawings of a layout are dragged: with the mouse at once, with a finger when it was held until the print lifts.
// A drop sends the form that moves a print. Without this file that form and the buttons beside the drawings do the same.

const near = 8; // pixels: within so many a print snaps to an edge or to its neighbour
const slack = 4; // pixels: less is a click
const hold = 350; // ms until a print lifts under a finger
const rim = 56; // pixels: so near to the upper or lower rim of the window the page moves on, towards sheets out of sight
const pace = 10; // pixels a frame
const form = document.querySelector("[name='Place.Which']")?.form;
let carried = null;

const numbers = (data, ...names) => names.map((name) => Number(data[name]));

// Where a drawing's paper begins on the screen, and how many pixels a mm has there.
const paper = (svg) => {
  const m = svg.getScreenCTM();
  const [left, top, scale] = numbers(svg.dataset, "left", "top", "scale");
  return { x: m.e + left * m.a, y: m.f + top * m.a, mm: m.a * scale };
};

const nearest = (at, places, within) => {
  const best = places.reduce((a, b) => (Math.abs(b - at) < Math.abs(a - at) ? b : a), Infinity);
  return Math.abs(best - at) <= within ? best : at;
};

// The place for it that a hand means: in the margins' reach, against an edge or a knife's width from its neighbour.
const meant = (svg, print, x, y) => {
  const [width, height, gutter, left, right, lead, tail] = numbers(svg.dataset, "w", "h", "gutter", "edgeLeft", "edgeRight", "edgeLead", "edgeTail");
  const [w, h] = numbers(print.dataset, "w", "h");
  const others = [...svg.querySelectorAll("[data-laid]")].filter((o) => o !== print).map((o) => numbers(o.dataset, "x", "y", "w", "h"));
  const within = near / paper(svg).mm;
  const xs = [left, width - right - w, ...others.flatMap(([ox, , ow]) => [ox, ox + ow - w, ox + ow + gutter, ox - gutter - w])];
  const ys = [lead, ...(svg.dataset.roll ? [] : [height - tail - h]), ...others.flatMap(([, oy, , oh]) => [oy, oy + oh - h, oy + oh + gutter, oy - gutter - h])];
  const clamp = (at, least, most) => Math.max(least, Math.min(at, most));
  return [
    clamp(nearest(x, xs, within), left, Math.max(left, width - right - w)),
    clamp(nearest(y, ys, within), lead, svg.dataset.roll ? Infinity : Math.max(lead, height - tail - h)),
  ];
};

const fill = (print, sheet, x, y) => {
  form.elements["Place.Which"].value = print.dataset.laid;
  form.elements["Place.X"].value = Math.round(x * 10) / 10;
  form.elements["Place.Y"].value = Math.round(y * 10) / 10;
  if (form.elements["Place.To"]) {
    form.elements["Place.To"].value = sheet;
  }
};

const put = () => {
  const { print } = carried;
  print.removeAttribute("transform");
  print.ownerSVGElement.removeAttribute("data-carries");
  clearTimeout(carried.timer);
  carried = null;
};

// Near the rim the page goes on as long as a print is held there.
const goOn = (mine) => {
  if (carried !== mine) {
    return;
  }
  const [, y] = mine.at;
  const by = !mine.to ? 0 : y < rim ? -pace : y > innerHeight - rim ? pace : 0;
  scrollBy({ top: by, behavior: "instant" });
  requestAnimationFrame(() => goOn(mine));
};

const lift = () => {
  carried.lifted = true;
  if (!carried.touch) {
    carried.print.parentElement.append(carried.print); // above the others; what a finger began on has to stay where it is
  }
  carried.print.ownerSVGElement.setAttribute("data-carries", "");
  goOn(carried);
};

const take = (event) => {
  const print = event.target.closest?.("[data-laid]");
  if (!print || carried || event.button !== 0) {
    return;
  }
  if (event.pointerType !== "touch") {
    event.preventDefault(); // no text is marked
  }
  const svg = print.ownerSVGElement;
  // Where on the print it is held, in pixels: the page may be scrolled meanwhile.
  const own = paper(svg);
  const [x, y] = numbers(print.dataset, "x", "y");
  const from = [event.clientX, event.clientY];
  carried = { print, svg, id: event.pointerId, touch: event.pointerType === "touch", from, at: from, held: [from[0] - own.x - x * own.mm, from[1] - own.y - y * own.mm], lifted: false };
  if (carried.touch) {
    carried.timer = setTimeout(lift, hold);
  } else {
    print.setPointerCapture(event.pointerId);
  }
};

const carry = () => {
  const { print, svg, at, held } = carried;
  const own = paper(svg);
  const [x0, y0] = numbers(print.dataset, "x", "y");
  const to = document.elementsFromPoint(...at).map((e) => e.closest("svg[data-sheet]")).find(Boolean) ?? svg;
  const there = paper(to);
  const place = meant(to, print, (at[0] - held[0] - there.x) / there.mm, (at[1] - held[1] - there.y) / there.mm);
  carried.to = { sheet: to.dataset.sheet, x: place[0], y: place[1] };
  const unit = svg.getScreenCTM().a;
  const [sx, sy] = [there.x + place[0] * there.mm - own.x - x0 * own.mm, there.y + place[1] * there.mm - own.y - y0 * own.mm];
  print.setAttribute("transform", `translate(${sx / unit} ${sy / unit})`);
};

const follow = (event) => {
  if (!carried || event.pointerId !== carried.id) {
    return;
  }
  const [dx, dy] = [event.clientX - carried.from[0], event.clientY - carried.from[1]];
  if (!carried.lifted) {
    if (Math.hypot(dx, dy) <= slack) {
      return;
    }
    if (carried.touch) {
      put(); // the page is scrolled
      return;
    }
    lift();
  }
  carried.at = [event.clientX, event.clientY];
  carry();
};

const drop = (event) => {
  if (!carried || event.pointerId !== carried.id) {
    return;
  }
  const { print, svg, to } = carried;
  if (to) {
    fill(print, to.sheet, to.x, to.y);
    clearTimeout(carried.timer);
    carried = null; // it stays where it was dropped until the answer comes
    form.requestSubmit();
    return;
  }
  const [x, y] = numbers(print.dataset, "x", "y");
  fill(print, svg.dataset.sheet, x, y);
  put();
};

if (form) {
  document.addEventListener("pointerdown", take);
  document.addEventListener("pointermove", follow);
  document.addEventListener("pointerup", drop);
  document.addEventListener("scroll", () => carried?.to && carry()); // by its wheel the mouse reaches other sheets
  document.addEventListener("pointercancel", () => carried && put());
  document.addEventListener("keydown", ({ key }) => key === "Escape" && carried && put());
  // A finger that carries a print does not scroll the page, nor opens its menu.
  document.addEventListener("touchmove", (event) => carried?.lifted && event.preventDefault(), { passive: false });
  document.addEventListener("contextmenu", (event) => carried?.touch && event.preventDefault());
  form.elements["Place.Which"].addEventListener("change", ({ target }) => {
    const print = document.querySelector(`[data-laid="${target.value}"]`);
    if (print) {
      fill(print, print.ownerSVGElement.dataset.sheet, ...numbers(print.dataset, "x", "y"));
    }
  });
  document.querySelectorAll("[data-with-script]").forEach((hint) => { hint.hidden = false; });
}

// What is sent from here comes back to the same place of the page.
const kept = "layout-place";
document.addEventListener("submit", () => sessionStorage.setItem(kept, JSON.stringify([location.pathname, scrollY])));
const [path, y] = JSON.parse(sessionStorage.getItem(kept) ?? "[]");
if (path === location.pathname) {
  scrollTo({ top: y, behavior: "instant" });
}
sessionStorage.removeItem(kept);
