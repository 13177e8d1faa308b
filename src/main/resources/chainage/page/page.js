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
// What links lead to is shown, and what went wrong or has just happened is read first.
const trouble = document.querySelector('[aria-invalid="true"]');
if (trouble) trouble.focus();
