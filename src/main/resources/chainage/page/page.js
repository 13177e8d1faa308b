"use strict";
// Tables that say so can be sorted: a button in each heading, first click ascending, second descending.
for (const table of document.querySelectorAll("table.sortable")) {
  const heads = [...table.tHead.rows[0].cells];
  heads.forEach((head, column) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    head.textContent = "";
    head.append(button);
    button.addEventListener("click", () => {
      const up = head.getAttribute("aria-sort") !== "ascending";
      heads.forEach((other) => other.removeAttribute("aria-sort"));
      head.setAttribute("aria-sort", up ? "ascending" : "descending");
      const body = table.tBodies[0];
      const numeric = head.classList.contains("n");
      const rows = [...body.rows].map((row, place) => {
        const text = row.cells[column].textContent.trim();
        const figure = parseFloat(text.replace("−", "-"));
        return { row, place, key: numeric ? (Number.isNaN(figure) ? -Infinity : figure) : text };
      });
      rows.sort((a, b) => {
        const order = numeric ? (a.key < b.key ? -1 : a.key > b.key ? 1 : 0) : a.key.localeCompare(b.key);
        return (up ? order : -order) || a.place - b.place;
      });
      body.append(...rows.map((r) => r.row));
    });
  });
}
// A number between two bounds gets a slider beside it; the number stays what is sent, and what is read out.
for (const number of document.querySelectorAll("input.slide")) {
  const slider = document.createElement("input");
  slider.type = "range";
  slider.min = number.min;
  slider.max = number.max;
  slider.step = number.step;
  slider.value = number.value;
  slider.setAttribute("aria-label", document.querySelector(`label[for="${number.id}"]`).textContent);
  slider.addEventListener("input", () => { number.value = slider.value; });
  number.addEventListener("input", () => { slider.value = number.value; });
  number.after(slider);
}
// What a link leads to is in sight.
function reveal() {
  const place = location.hash && document.getElementById(location.hash.slice(1));
  if (place instanceof HTMLDetailsElement) place.open = true;
}
addEventListener("hashchange", reveal);
reveal();
// What went wrong or has just happened is read first.
const trouble = document.querySelector('[aria-invalid="true"]');
if (trouble) trouble.focus();
// While an answer is waited for, it says so, and the button is not pressed twice.
function wait(form, words) {
  let said = form.querySelector("[role=status]");
  if (!said) {
    said = document.createElement("p");
    said.setAttribute("role", "status");
    form.append(said);
  }
  said.textContent = words;
}
function buttons(form, off) {
  for (const button of form.querySelectorAll("button")) button.disabled = off;
}
for (const form of document.querySelectorAll("form.sheet")) {
  form.addEventListener("submit", () => {
    wait(form, document.body.dataset.wait);
    // Once it is sent: a button that is off says nothing of where it leads.
    setTimeout(() => buttons(form, true));
  });
  addEventListener("pageshow", () => {
    buttons(form, false);
    form.querySelector("[role=status]")?.remove();
  });
}
// Files are sent as they are chosen or dropped anywhere, in portions that a form may hold, folders with all that is in them.
const chooser = document.querySelector("input[type=file]");
async function below(entry, path) {
  if (entry.isFile) {
    return [[path + entry.name, await new Promise((done, failed) => entry.file(done, failed))]];
  }
  const reader = entry.createReader();
  const found = [];
  for (;;) {
    const some = await new Promise((done, failed) => reader.readEntries(done, failed));
    if (some.length === 0) return found;
    for (const inner of some) {
      if (!inner.name.startsWith(".")) found.push(...(await below(inner, path + entry.name + "/")));
    }
  }
}
async function send(named) {
  const form = chooser.form;
  const most = Number(chooser.dataset.most);
  // Room for what stands around the files.
  const room = most - 65536 * 4;
  const portions = [];
  const large = [];
  let size = Infinity;
  for (const [name, file] of named) {
    if (file.size > room) {
      large.push(name);
      continue;
    }
    if (size + file.size > most / 4 || portions[portions.length - 1].length >= 500) {
      portions.push([]);
      size = 0;
    }
    portions[portions.length - 1].push([name, file]);
    size += file.size;
  }
  if (portions.length === 0) portions.push([]);
  const of = crypto.randomUUID();
  let sent = 0;
  let next = "./";
  buttons(form, true);
  for (const [at, portion] of portions.entries()) {
    wait(form, `${document.body.dataset.wait} ${sent} / ${named.length - large.length}`);
    const body = new FormData(form);
    body.delete(chooser.name);
    body.set("portion", of);
    body.delete("large");
    if (at === portions.length - 1) for (const name of large) body.append("large", name);
    for (const [name, file] of portion) body.append(chooser.name, file, name);
    const answer = await fetch(form.getAttribute("action"), { method: "POST", body });
    const told = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (!answer.ok) {
      buttons(form, false);
      wait(form, told.querySelector("main").textContent.trim());
      return;
    }
    next = told.querySelector("main a").getAttribute("href");
    sent += portion.length;
  }
  location.href = next;
}
function trySend(named) {
  send(named).catch((trouble) => {
    buttons(chooser.form, false);
    wait(chooser.form, String(trouble));
  });
}
if (chooser) {
  chooser.form.addEventListener("submit", (event) => {
    if (chooser.files.length === 0) return;
    event.preventDefault();
    trySend([...chooser.files].map((f) => [f.webkitRelativePath || f.name, f]));
  });
  addEventListener("dragover", (event) => {
    event.preventDefault();
    document.body.classList.add("over");
  });
  addEventListener("dragleave", (event) => {
    if (!event.relatedTarget) document.body.classList.remove("over");
  });
  addEventListener("drop", async (event) => {
    event.preventDefault();
    document.body.classList.remove("over");
    const entries = [...event.dataTransfer.items].map((i) => i.webkitGetAsEntry()).filter((e) => e);
    const files = [...event.dataTransfer.files].map((f) => [f.name, f]);
    const fold = chooser.closest("details");
    if (fold) fold.open = true;
    chooser.form.scrollIntoView();
    wait(chooser.form, document.body.dataset.wait);
    const found = entries.length === 0 ? files : (await Promise.all(entries.map((e) => below(e, "")))).flat();
    trySend(found);
  });
}
