// What the page does beyond showing a document: the week at hand, ticks that stay, filters, and a
// closer look at the picture. Nothing is asked of any network.
"use strict";
(() => {
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
  stands.forEach(lay_stand);
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
  filter();
})();
