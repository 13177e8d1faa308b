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
