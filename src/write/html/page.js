(function () {
  "use strict";
  var list = function (items) { return Array.prototype.slice.call(items); };

  // What a cell is sorted by: its number where it has one, else its text; empty cells come last either way.
  var value = function (row, column) {
    var cell = row.cells[column];
    if (!cell) { return null; }
    if (cell.hasAttribute("data-v")) { return Number(cell.getAttribute("data-v")); }
    return cell.textContent.trim() || null;
  };
  var compare = function (a, b, down) {
    if (a === null || b === null) { return (a === null) - (b === null); }
    var order = typeof a === "number" && typeof b === "number"
      ? a - b
      : String(a).localeCompare(String(b), "en", { numeric: true, sensitivity: "base" });
    return down ? -order : order;
  };

  var makeSortable = function (table, rows) {
    var heads = list(table.tHead.rows[0].cells);
    heads.forEach(function (head, column) {
      if (!head.textContent.trim()) { return; }
      var button = document.createElement("button");
      button.type = "button";
      while (head.firstChild) { button.appendChild(head.firstChild); }
      head.appendChild(button);
      button.addEventListener("click", function () {
        var down = head.getAttribute("aria-sort") === "ascending";
        heads.forEach(function (other) { other.removeAttribute("aria-sort"); });
        head.setAttribute("aria-sort", down ? "descending" : "ascending");
        // Rows that are equal keep the order of the report.
        rows.map(function (row, at) { return { row: row, at: at, value: value(row, column) }; })
          .sort(function (a, b) { return compare(a.value, b.value, down) || a.at - b.at; })
          .forEach(function (entry) { table.tBodies[0].appendChild(entry.row); });
      });
    });
  };

  var makeFilterable = function (table, rows) {
    var box = document.createElement("div");
    var label = document.createElement("label");
    var input = document.createElement("input");
    var count = document.createElement("span");
    var name = table.caption ? table.caption.textContent : "table";
    box.className = "filter";
    input.type = "search";
    label.textContent = "Show rows with ";
    input.setAttribute("aria-label", "Show rows with this text: " + name);
    count.setAttribute("role", "status");
    label.appendChild(input);
    box.appendChild(label);
    box.appendChild(count);
    input.addEventListener("input", function () {
      var wanted = input.value.trim().toLowerCase();
      var shown = 0;
      rows.forEach(function (row) {
        var hit = row.textContent.toLowerCase().indexOf(wanted) >= 0;
        row.hidden = !hit;
        shown += hit ? 1 : 0;
      });
      count.textContent = wanted ? shown + " of " + rows.length + " rows" : "";
    });
    var frame = table.parentNode;
    frame.parentNode.insertBefore(box, frame);
  };

  list(document.querySelectorAll("table[data-sortable]")).forEach(function (table) {
    var rows = list(table.tBodies[0].rows);
    if (rows.length > 1) { makeSortable(table, rows); }
    if (rows.length > 7) { makeFilterable(table, rows); }
  });
}());
