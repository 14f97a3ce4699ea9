'use strict';
// Search, choices and sorting for each table of machines. Without this script the whole table is there, worst first.
for (const finder of document.querySelectorAll('.finder')) {
  const table = document.getElementById(finder.dataset.table);
  const body = table.tBodies[0];
  const rows = Array.from(body.rows);
  const text = new Map(rows.map(row => [row, (row.textContent + ' ' + row.dataset.laptop + ' ' + row.dataset.drive).toLowerCase()]));
  const heads = Array.from(table.tHead.rows[0].cells);
  const search = finder.querySelector('input[type=search]');
  const all = finder.querySelector('input[type=checkbox]');
  const choices = Array.from(finder.querySelectorAll('select'));
  const count = finder.querySelector('[role=status]');
  const order = new Intl.Collator('en', {numeric: true});

  function show() {
    const words = search.value.toLowerCase().split(/\s+/);
    let shown = 0;
    for (const row of rows) {
      const fits = (!all || all.checked || row.classList.contains('todo')) && words.every(word => text.get(row).includes(word))
        && choices.every(choice => !choice.value || row.dataset[choice.dataset.by] === choice.value);
      row.hidden = !fits;
      shown += fits ? 1 : 0;
    }
    count.textContent = shown + ' of ' + rows.length + (rows.length === 1 ? ' machine' : ' machines') + ' shown';
  }

  function key(row, column) {
    const cell = row.cells[column];
    return cell.dataset.key || cell.textContent;
  }

  // What is empty comes last, whichever way the others go.
  function sort(column, direction) {
    const sorted = rows.slice().sort((a, b) => {
      const x = key(a, column), y = key(b, column);
      return x === '' || y === '' ? (x === '') - (y === '') : direction * order.compare(x, y);
    });
    body.append(...sorted);
  }

  function unsorted() {
    heads.forEach(head => head.removeAttribute('aria-sort'));
  }

  heads.forEach((head, column) => {
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = head.textContent;
    head.replaceChildren(button);
    button.addEventListener('click', () => {
      const down = head.getAttribute('aria-sort') === 'ascending';
      unsorted();
      head.setAttribute('aria-sort', down ? 'descending' : 'ascending');
      sort(column, down ? -1 : 1);
    });
  });

  for (const choice of choices) {
    const names = Array.from(new Set(rows.map(row => row.dataset[choice.dataset.by]))).filter(name => name);
    if (choice.dataset.by !== 'standing') {
      names.sort(order.compare);
    }
    choice.append(...names.map(name => new Option(name, name)));
    choice.closest('label').hidden = names.length < 2;
    choice.addEventListener('change', () => {
      // Whoever asks for a standing that needs nothing wants to see those machines.
      if (all && choice.value) {
        all.checked = all.checked || !rows.some(row => row.classList.contains('todo') && row.dataset[choice.dataset.by] === choice.value);
      }
      show();
    });
  }
  search.addEventListener('input', show);
  if (all) {
    all.addEventListener('change', show);
  }
  finder.querySelector('button').addEventListener('click', () => {
    search.value = '';
    choices.forEach(choice => { choice.value = ''; });
    if (all) {
      all.checked = false;
    }
    unsorted();
    body.append(...rows);
    show();
  });
  finder.hidden = false;
  show();
}
