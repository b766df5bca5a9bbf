// A closer look at the picture of beds against time. Comes behind page.js, in the same script.

// The picture: places follow from days, so that it can be stretched.
const picture = one("beds-over-time");
const first_day = Number(picture.dataset.first);
const days = Number(picture.dataset.days);
const height = picture.viewBox.baseVal.height;
const closest = picture.viewBox.baseVal.width / days;
// How wide a letter is in the font that the browser has: names with wide letters must fit too.
const LETTER = (() => {
  const sample = document.createElementNS("http://www.w3.org/2000/svg", "text");
  sample.setAttribute("class", "label");
  sample.textContent = "summer";
  picture.append(sample);
  const width = sample.getComputedTextLength() / sample.textContent.length;
  sample.remove();
  return Math.max(width, 6) * 1.02;
})();
let scale = closest;
const x_of = (serial) => Math.min(Math.max(serial - first_day, 0), days) * scale;
const set = (element, name, value) => element.setAttribute(name, Math.round(value * 10) / 10);
const lay_stand = (stand) => {
  const x = x_of(stand.from);
  const width = Math.max(2, x_of(stand.to) - x);
  set(stand.box, "x", x);
  set(stand.box, "width", width);
  const picked = stand.link.querySelector(".picked");
  if (picked) {
    set(picked, "x", x_of(stand.picked[0]));
    set(picked, "width", Math.max(2, x_of(stand.picked[1]) - x_of(stand.picked[0])));
  }
  const after = stand.link.nextElementSibling;
  let label = after && after.matches(".label") ? after : null;
  const text = fit(stand.crop, Math.floor((width - 7) / LETTER));
  if (!label && text) {
    label = document.createElementNS("http://www.w3.org/2000/svg", "text");
    label.setAttribute("class", "label");
    label.setAttribute("aria-hidden", "true");
    const middle = Number(stand.box.getAttribute("y")) + Number(stand.box.getAttribute("height")) / 2;
    set(label, "y", middle + 4);
    stand.link.after(label);
  }
  if (!label) return;
  set(label, "x", x + 4);
  label.textContent = text;
};
const lay_time = (mark) => {
  const x = x_of(Number(mark.dataset.d));
  if (mark.tagName === "text") {
    set(mark, "x", x + (mark.classList.contains("year") ? 5 : 3));
  } else if (Number(mark.dataset.days)) {
    const right = x_of(Number(mark.dataset.d) + Number(mark.dataset.days));
    mark.setAttribute("d", `M${x} 24H${right}V${height}H${x}Z`);
  } else {
    mark.setAttribute("d", mark.getAttribute("d").replace(/^M[\d.]+/, "M" + Math.round(x * 10) / 10));
  }
};
const stretch = (to) => {
  const pan = one("pan");
  const middle = (pan.scrollLeft + pan.clientWidth / 2) / scale;
  scale = Math.min(Math.max(to, closest / 2), closest * 6);
  picture.setAttribute("width", days * scale);
  picture.setAttribute("viewBox", `0 0 ${days * scale} ${height}`);
  stands.forEach(lay_stand);
  all("[data-d]", picture).forEach(lay_time);
  pan.scrollLeft = middle * scale - pan.clientWidth / 2;
};
const show_line = (name, day, length = 0) => {
  let line = picture.querySelector(".today." + name);
  if (!line) {
    line = document.createElementNS("http://www.w3.org/2000/svg", "path");
    line.setAttribute("class", "today " + name);
    picture.append(line);
  }
  line.dataset.d = day;
  line.dataset.days = length;
  line.setAttribute("d", `M0 24V${height}`);
  lay_time(line);
};
one("zoom-in").addEventListener("click", () => stretch(scale * 1.6));
one("zoom-out").addEventListener("click", () => stretch(scale / 1.6));

// One bar is in the tab order; arrow keys go on from it.
const card = one("card");
let chosen = null;
const close_card = () => {
  card.hidden = true;
  if (chosen) chosen.link.classList.remove("chosen");
};
const open_sheet = (stand) => {
  const sheet = document.querySelector(stand.link.getAttribute("href"));
  sheet.open = true;
  sheet.scrollIntoView();
  sheet.querySelector("summary").focus();
};
const fill_card = (stand) => {
  const sheet = document.querySelector(stand.link.getAttribute("href"));
  card.textContent = "";
  const close = document.createElement("button");
  close.type = "button";
  close.className = "close";
  close.textContent = "close";
  close.addEventListener("click", () => {
    close_card();
    stand.link.focus();
    close_card();
  });
  const title = document.createElement("h3");
  title.textContent = stand.link.getAttribute("aria-label");
  const more = document.createElement("a");
  more.href = stand.link.getAttribute("href");
  more.textContent = "to its bed sheet";
  more.addEventListener("click", (event) => {
    event.preventDefault();
    open_sheet(stand);
  });
  card.append(close, title, sheet.querySelector("dl").cloneNode(true), more);
  card.hidden = false;
};
const choose = (stand) => {
  if (chosen) {
    chosen.link.classList.remove("chosen");
    chosen.link.setAttribute("tabindex", "-1");
  }
  chosen = stand;
  stand.link.classList.add("chosen");
  stand.link.setAttribute("tabindex", "0");
  fill_card(stand);
  const bar = stand.box.getBoundingClientRect();
  const top = card.getBoundingClientRect().top;
  if (bar.bottom > top) window.scrollBy(0, bar.bottom - top + 12);
};
const neighbour = (stand, key) => {
  const at = stands.indexOf(stand);
  if (key === "ArrowRight") return stands[at + 1];
  if (key === "ArrowLeft") return stands[at - 1];
  const down = key === "ArrowDown" ? 1 : -1;
  let next = at;
  while (stands[next] && stands[next].bed === stand.bed) next += down;
  if (!stands[next]) return undefined;
  const row = stands.filter((other) => other.bed === stands[next].bed);
  return row.reduce((best, other) =>
    Math.abs(other.from - stand.from) < Math.abs(best.from - stand.from) ? other : best);
};
stands.forEach((stand, at) => {
  stand.link.setAttribute("tabindex", at === 0 ? "0" : "-1");
  stand.link.addEventListener("focus", () => choose(stand));
  stand.link.addEventListener("click", (event) => {
    event.preventDefault();
    if (document.activeElement === stand.link) choose(stand);
    else stand.link.focus();
  });
  stand.link.addEventListener("keydown", (event) => {
    if (event.key === "Enter") {
      event.preventDefault();
      open_sheet(stand);
    } else if (event.key === "Escape") {
      close_card();
    } else if (event.key.startsWith("Arrow")) {
      const next = neighbour(stand, event.key);
      if (!next) return;
      event.preventDefault();
      next.link.focus();
    }
  });
});

// A link to a stand or a source opens what it leads to.
const open_target = () => {
  const target = location.hash.length > 1 ? document.getElementById(location.hash.slice(1)) : null;
  if (target && target.tagName === "DETAILS") target.open = true;
};
window.addEventListener("hashchange", open_target);
open_target();

all(".script").forEach((part) => {
  if (part.id !== "card") part.hidden = false;
});
Object.keys(ticks).forEach((uid) => all(`input[data-uid="${CSS.escape(uid)}"]`).forEach(show_tick));
const within = today() >= first_day && today() < first_day + days;
if (within && !picture.querySelector(".today")) show_line("now", today());
slider.value = week_of(today());
if (week_of(today()) < Number(slider.min)) slider.value = slider.defaultValue;
step(0);
// A garden of hundreds of beds is there to be read before its labels are fitted and its tasks counted.
setTimeout(() => {
  stands.forEach(lay_stand);
  filter();
});
