// The calendar page in a browser, judged from outside. usage: checks.js FOLDER
// FOLDER holds page.html, as-of.html, picture.svg and tasks.csv of the garden with every kind of
// task, and ferry.html. Exit 1 if anything is not as it should be.
"use strict";
const fs = require("fs");
const path = require("path");
const { chromium } = require("playwright-core");
const { HtmlValidate } = require("html-validate");

const folder = path.resolve(process.argv[2]);
const file = (name) => path.join(folder, name);
const address = (name) => "file://" + file(name);
const axe = require.resolve("axe-core/axe.min.js");
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
let faults = 0;
let checks = 0;
const check = (good, words) => {
  checks += 1;
  if (good) return;
  faults += 1;
  console.log("FAULT " + words);
};

const browser_program = () =>
  ["/usr/bin/chromium-headless-shell", "/usr/bin/chromium"].find((one) => fs.existsSync(one));

/// A page that complains of console errors and of anything that asks the network.
const open = async (browser, name, options = {}) => {
  const context = await browser.newContext({ bypassCSP: true, ...options });
  const page = await context.newPage();
  page.on("console", (said) => check(said.type() !== "error", `${name}: console: ${said.text()}`));
  page.on("pageerror", (error) => check(false, `${name}: ${error.message}`));
  page.on("request", (asked) => check(asked.url() === address(name), `${name} asked for ${asked.url()}`));
  page.on("dialog", (dialog) => {
    check(false, `${name}: a dialog says ${dialog.message()}`);
    dialog.dismiss();
  });
  await page.goto(address(name));
  return page;
};

const rows_of = (name) => {
  const text = fs.readFileSync(file(name), "utf8");
  return text.split("\r\n").slice(1, -1);
};

const check_html = async () => {
  const config = JSON.parse(fs.readFileSync(path.join(__dirname, ".htmlvalidate.json"), "utf8"));
  // Three rules of the validator walk the whole page once for each element they look at: minutes
  // for a page of 25,000 elements. They judge the small pages and one bed of the large one, made by
  // the same code; double ids of the large page are looked for below.
  const slow = { "hidden-focusable": "off", "no-dup-id": "off", "element-required-ancestor": "off" };
  const of_large = { ...config, rules: { ...config.rules, ...slow } };
  for (const name of ["page.html", "as-of.html", "bed.html", "ferry-bed.html", "ferry.html"]) {
    const validator = new HtmlValidate(name === "ferry.html" ? of_large : config);
    const report = await validator.validateFile(file(name));
    for (const result of report.results) {
      for (const one of result.messages.slice(0, 10)) {
        check(false, `${name}:${one.line}:${one.column}: ${one.message} [${one.ruleId}]`);
      }
    }
    check(report.valid, `${name} is not valid HTML`);
  }
};

const check_access = async (browser) => {
  for (const width of [360, 768, 1440]) {
    for (const colorScheme of ["light", "dark"]) {
      const label = `page at ${width} px, ${colorScheme}`;
      const page = await open(browser, "page.html", { viewport: { width, height: 900 }, colorScheme });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      check(wide <= width, `${label}: ${wide} px wide`);
      await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
      // Sheets out of sight are laid out when they come into it: until then they lie on each other.
      await page.addStyleTag({ content: "* { content-visibility: visible !important; }" });
      await page.locator("#beds-over-time .stand").first().focus();
      await page.addScriptTag({ path: axe });
      const found = await page.evaluate((rules) => axe.run(document, { runOnly: rules }), RULES);
      for (const one of found.violations) {
        check(false, `${label}: ${one.id} : ${one.nodes.map((node) => node.html.slice(0, 90)).slice(0, 4).join("; ")}`);
      }
      check(found.passes.length > 20, `${label}: only ${found.passes.length} rules had something to look at`);
      await page.context().close();
    }
  }
};

const check_without_script = async (browser) => {
  const page = await open(browser, "page.html", { javaScriptEnabled: false });
  const tasks = rows_of("tasks.csv").filter((row) => !row.includes(",order,"));
  check((await page.locator("#tasks li").count()) === tasks.length, "without a script: tasks are missing");
  check(await page.locator("#tasks li").first().isVisible(), "without a script: tasks are hidden");
  check((await page.locator("#plots [data-bed]").count()) === 5, "without a script: beds are missing");
  check((await page.locator(".script:visible").count()) === 0, "without a script: dead controls are shown");
  await page.locator("#beds-over-time .stand").first().click();
  check(page.url().includes("#s"), "without a script: a bar does not lead to its stand");
  await page.context().close();
};

const check_names = async (browser) => {
  const page = await open(browser, "page.html");
  const heading = await page.locator("h1").innerText();
  check(heading.includes("<script>window.hacked = 1</script> & \"Lise's\" =SUM(A1)"), `heading: ${heading}`);
  check(!/[\u0000-\u0008\u202e]/.test(await page.content()), "a control character got through");
  check((await page.evaluate(() => window.hacked)) === undefined, "a name ran as a script");
  check((await page.locator("main i").count()) === 0, "a name became markup");
  const beds = await page.locator(".sheet h3").allTextContents();
  check(beds.includes("Bed B, 'low' <i>") && beds.includes("Bed \u05E2\u05E8\u05D5\u05D2\u05D4"), beds.join("; "));
  check((await page.locator(".label", { hasText: "=1+1" }).count()) > 0, "the crop =1+1 has no label");
  await page.context().close();
};

const check_week = async (browser) => {
  const page = await open(browser, "page.html");
  await page.clock.setFixedTime(new Date("2027-06-08T09:00:00"));
  await page.reload();
  const title = await page.locator("#week-title").innerText();
  check(title === "This week, 7 June to 13 June 2027", `the viewer's week: ${title}`);
  check((await page.locator("#week-tasks").innerText()).includes("Sow sweet corn"), "the week's task is not there");
  check((await page.locator("#plots [data-name='A.2']").textContent()).includes("sweet corn"), "the bed does not show it");
  await page.locator("#week-after").click();
  check((await page.locator("#week-title").innerText()).startsWith("Week of 14 June"), "the next week");
  check((await page.locator("#beds-over-time .today.now").count()) === 1, "no line at today");
  await page.context().close();
  const fixed = await open(browser, "as-of.html");
  const words = await fixed.locator("#week-title").innerText();
  check(words === "This week, 10 May to 16 May 2027", `--as-of: ${words}`);
  await fixed.context().close();
};

const check_ticks = async (browser) => {
  const page = await open(browser, "page.html");
  const box = page.locator("#tasks input").nth(3);
  const uid = await box.getAttribute("data-uid");
  await box.check();
  await page.reload();
  check(await page.locator(`#tasks input[data-uid="${uid}"]`).isChecked(), "a tick is lost by reloading");
  await page.locator("#hide-done").check();
  check(!(await page.locator(`#tasks input[data-uid="${uid}"]`).isVisible()), "what is done is not hidden");
  await page.locator("#hide-done").uncheck();
  await page.locator("#pick-kind").selectOption("watch");
  const watched = rows_of("tasks.csv").filter((row) => row.includes(",watch,")).length;
  check((await page.locator("#shown").innerText()) === `${watched} tasks`, "the filter by kind");
  check((await page.locator("#tasks li:visible").count()) === watched, "the filter hides too much or too little");
  await page.context().close();
};

/// Everything by Tab, arrows, Enter and Escape.
const check_keyboard = async (browser) => {
  const page = await open(browser, "page.html", { viewport: { width: 1440, height: 900 } });
  const reached = new Set();
  for (let i = 0; i < 120; i += 1) {
    await page.keyboard.press("Tab");
    const where = await page.evaluate(() => {
      const at = document.activeElement;
      return at.id || (at.closest("[id]") || at).id || at.tagName;
    });
    reached.add(where);
  }
  for (const part of ["week-before", "week-slider", "week-after", "week-now", "zoom-in", "pan", "beds-over-time",
    "pick-year", "pick-bed", "pick-kind", "hide-done"]) {
    check(reached.has(part), `Tab does not reach ${part}`);
  }
  await page.locator("#beds-over-time .stand[tabindex='0']").focus();
  const first = await page.locator("#card h3").innerText();
  await page.keyboard.press("ArrowRight");
  const second = await page.locator("#card h3").innerText();
  check(first !== second && second.length > 0, "arrow keys do not go from bar to bar");
  await page.keyboard.press("ArrowDown");
  check((await page.locator("#card h3").innerText()).startsWith("A.2"), "the arrow down does not change the bed");
  for (const fact of ["In the bed", "Latest safe start", "After", "Why here", "Nitrogen", "Disease", "Sources"]) {
    check((await page.locator("#card dt", { hasText: fact }).count()) > 0, `the card lacks ${fact}`);
  }
  await page.keyboard.press("Escape");
  check(!(await page.locator("#card").isVisible()), "Escape does not close the card");
  await page.keyboard.press("Enter");
  check(await page.evaluate(() => document.activeElement.tagName === "SUMMARY"), "Enter does not open the sheet");
  await page.context().close();
};

/// No label of a picture is wider than its bar, at any zoom; none lies on another.
const check_labels = async (browser) => {
  const misfits = () => {
    const out = [];
    for (const label of document.querySelectorAll(".label")) {
      if (!label.textContent) continue;
      const link = label.previousElementSibling;
      const box = (link.matches("a") ? link.querySelector(".box") : label.parentElement.querySelector(".box")).getBBox();
      const text = label.getBBox();
      if (text.x + text.width > box.x + box.width + 1) out.push(label.textContent);
    }
    return out;
  };
  for (const name of ["picture.svg", "ferry.svg", "page.html", "ferry.html"]) {
    const page = await open(browser, name);
    check((await page.locator("parsererror").count()) === 0, `${name} is not well-formed`);
    check((await page.evaluate(misfits)).length === 0, `${name}: too long: ${(await page.evaluate(misfits)).join(", ")}`);
    if (name.endsWith(".html")) {
      for (const button of ["#zoom-in", "#zoom-in", "#zoom-out", "#zoom-out", "#zoom-out"]) {
        await page.locator(button).click();
        const wrong = await page.evaluate(misfits);
        check(wrong.length === 0, `${name} after ${button}: too long: ${wrong.join(", ")}`);
      }
    }
    await page.context().close();
  }
};

/// On paper nothing that must stay whole is higher than a page, and nothing is wider.
const check_paper = async (browser) => {
  const sizes = { A4: [186, 271], Letter: [191.9, 253.4] }; // mm inside the margins
  const page = await open(browser, "page.html");
  await page.emulateMedia({ media: "print" });
  for (const [format, [width, height]] of Object.entries(sizes)) {
    const px = (mm) => (mm * 96) / 25.4;
    await page.setViewportSize({ width: Math.round(px(width)), height: Math.round(px(height)) });
    const wrong = await page.evaluate(([most_high, most_wide]) => {
      const out = [];
      for (const one of document.querySelectorAll("body *")) {
        const box = one.getBoundingClientRect();
        const whole = getComputedStyle(one).breakInside === "avoid" && !one.matches(".sheet");
        const name = `${one.tagName} ${one.className.baseVal ?? one.className} ${one.id}`;
        if (whole && box.height > most_high) out.push(`${name} is ${Math.round(box.height)} px high`);
        const inside = one.closest("svg, .frame, .hidden");
        if (!inside && box.right > most_wide + 1) out.push(`${name} reaches ${Math.round(box.right)} px`);
      }
      return out;
    }, [px(height), px(width)]);
    check(wrong.length === 0, `${format}: ${wrong.slice(0, 5).join("; ")}`);
    const paper = await page.pdf({ format, printBackground: true });
    fs.writeFileSync(file(`page-${format}.pdf`), paper);
    check(paper.length > 20000, `${format}: an empty print`);
  }
  await page.context().close();
};

const check_speed = async (browser) => {
  const size = fs.statSync(file("ferry.html")).size;
  check(size < 1.5e6, `ferry.html has ${size} bytes, more than 1.5 MB`);
  const start = Date.now();
  const page = await open(browser, "ferry.html", { viewport: { width: 1440, height: 900 } });
  const took = Date.now() - start;
  check(took < 2000, `ferry.html opens in ${took} ms, more than 2 s`);
  console.log(`ferry.html: ${size} bytes, open after ${took} ms`);
  const doubles = await page.evaluate(() => {
    const ids = [...document.querySelectorAll("[id]")].map((one) => one.id);
    return ids.filter((id, at) => ids.indexOf(id) !== at);
  });
  check(doubles.length === 0, `ferry.html has ids twice: ${doubles.slice(0, 5).join(", ")}`);
  await page.context().close();
};

const main = async () => {
  const began = Date.now();
  await check_html();
  console.log(`check_html: ${Date.now() - began} ms`);
  const browser = await chromium.launch({ executablePath: browser_program(), args: ["--no-sandbox"] });
  for (const part of [check_access, check_without_script, check_names, check_week, check_ticks,
    check_keyboard, check_labels, check_paper, check_speed]) {
    const start = Date.now();
    await part(browser);
    console.log(`${part.name}: ${Date.now() - start} ms`);
  }
  await browser.close();
  console.log(`${checks} checks, ${faults} faults`);
  process.exit(faults === 0 ? 0 : 1);
};
main().catch((error) => {
  console.log(error.stack);
  process.exit(1);
});
