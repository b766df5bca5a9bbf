// What the page does beyond showing a document: the week at hand, ticks that stay, filters, and a
// closer look at the picture. Nothing is asked of any network.
"use strict";
const all = (what, within = document) => Array.from(within.querySelectorAll(what));
const one = (id) => document.getElementById(id);
const DAY = 86400000;
const FIRST_MONDAY = 4; // 1970-01-05: week 0

const stands = all("#beds-over-time .stand").map((link) => ({
  link,
  bed: link.dataset.bed,
  from: Number(link.dataset.from),
  to: Number(link.dataset.to),
  picked: (link.dataset.picked || "").split(" ").map(Number),
  crop: link.dataset.crop,
  box: link.querySelector(".box"),
  style: (link.querySelector(".box").getAttribute("class").match(/\bf\d+\b/) || ["f0"])[0],
}));

const months = ["January", "February", "March", "April", "May", "June", "July", "August",
  "September", "October", "November", "December"];
const spoken = (serial, year) => {
  const day = new Date(serial * DAY);
  return `${day.getUTCDate()} ${months[day.getUTCMonth()]}${year ? " " + day.getUTCFullYear() : ""}`;
};
const week_of = (serial) => Math.floor((serial - FIRST_MONDAY) / 7);
const monday = (week) => FIRST_MONDAY + 7 * week;
const today = () => {
  if (document.body.dataset.today) return Number(document.body.dataset.today);
  const now = new Date();
  return Math.floor(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / DAY);
};

// Ticks are kept by the browser, for this garden.
const place = "aftercrop:" + document.body.dataset.garden;
let ticks = {};
try {
  ticks = JSON.parse(localStorage.getItem(place)) || {};
} catch {
  ticks = {};
}
const show_tick = (box) => {
  box.checked = Boolean(ticks[box.dataset.uid]);
  const item = box.closest("li");
  if (item) item.classList.toggle("done", box.checked);
};
const keep_tick = (box) => {
  if (box.checked) ticks[box.dataset.uid] = 1;
  else delete ticks[box.dataset.uid];
  all(`input[data-uid="${CSS.escape(box.dataset.uid)}"]`).forEach(show_tick);
  try {
    localStorage.setItem(place, JSON.stringify(ticks));
  } catch {
    // a browser that keeps nothing: the tick lasts as long as the page
  }
};
document.addEventListener("change", (event) => {
  if (event.target.dataset.uid) keep_tick(event.target);
});

// The week at hand.
const slider = one("week-slider");
const fit = (text, letters) =>
  text.length <= letters ? text : letters < 4 ? "" : text.slice(0, letters - 1).trimEnd() + "\u2026";
const in_week = (from, to, week) => from < monday(week) + 7 && to > monday(week);
const standing = (week) => {
  const found = {};
  for (const stand of stands) if (in_week(stand.from, stand.to, week)) found[stand.bed] = stand;
  return found;
};
const show_plots = (week) => {
  const found = standing(week);
  for (const plot of all("#plots [data-bed]")) {
    const stand = found[plot.dataset.bed];
    const crop = stand ? stand.crop : "";
    const letters = Number(plot.dataset.letters);
    plot.querySelector("a").setAttribute("aria-label", `${plot.dataset.name} ${crop || "nothing"}`);
    plot.querySelector(".ground").setAttribute("class", "ground " + (stand ? stand.style : "empty"));
    const text = plot.dataset.two ? crop : `${plot.dataset.name} ${crop}`;
    plot.querySelector(".plot-crop").textContent = fit(text, letters);
  }
};
const say = (list, text) => {
  const item = document.createElement("li");
  item.textContent = text;
  list.append(item);
};
const bed_names = new Map(all("#plots [data-bed]").map((plot) => [plot.dataset.bed, plot.dataset.name]));
const show_picking = (week) => {
  const list = one("week-picking");
  list.textContent = "";
  const beds = new Map();
  for (const stand of stands) {
    if (stand.picked.length < 2 || !in_week(stand.picked[0], stand.picked[1], week)) continue;
    beds.set(stand.crop, [...(beds.get(stand.crop) || []), bed_names.get(stand.bed)]);
  }
  for (const crop of [...beds.keys()].sort()) {
    say(list, crop + " ");
    const where = document.createElement("small");
    where.textContent = beds.get(crop).join(", ");
    list.lastChild.append(where);
  }
  if (beds.size === 0) say(list, "nothing");
};
const show_week = (week) => {
  slider.value = week;
  const first = monday(week);
  const words = `${spoken(first)} to ${spoken(first + 6, true)}`;
  slider.setAttribute("aria-valuetext", words);
  one("week-title").textContent = week === week_of(today()) ? `This week, ${words}` : `Week of ${words}`;
  const list = one("week-tasks");
  list.textContent = "";
  const tasks = all("li", one("w" + week) || document.createElement("p"));
  tasks.forEach((task) => {
    const copy = task.cloneNode(true);
    copy.hidden = false;
    list.append(copy);
  });
  all("input[data-uid]", list).forEach(show_tick);
  if (tasks.length === 0) say(list, "nothing to begin or to end");
  show_picking(week);
  show_plots(week);
  show_line("chosen", first, 7);
};
const step = (by) => {
  const week = Number(slider.value) + by;
  show_week(Math.min(Math.max(week, Number(slider.min)), Number(slider.max)));
};
slider.addEventListener("input", () => show_week(Number(slider.value)));
one("week-before").addEventListener("click", () => step(-1));
one("week-after").addEventListener("click", () => step(1));
one("week-now").addEventListener("click", () => {
  slider.value = week_of(today());
  step(0);
});

// Filters of the long list.
const filter = () => {
  const year = one("pick-year").value;
  const bed = one("pick-bed").value;
  const kind = one("pick-kind").value;
  const hide_done = one("hide-done").checked;
  let shown = 0;
  for (const week of all("#tasks .week")) {
    let any = false;
    for (const task of all("li", week)) {
      task.hidden = (year !== "" && week.dataset.year !== year) ||
        (bed !== "" && task.dataset.bed !== bed) ||
        (kind !== "" && task.dataset.kind !== kind) ||
        (hide_done && task.classList.contains("done"));
      if (!task.hidden) shown += 1;
      any = any || !task.hidden;
    }
    week.hidden = !any;
  }
  one("shown").textContent = shown === 1 ? "1 task" : `${shown} tasks`;
};
one("filters").addEventListener("change", filter);
