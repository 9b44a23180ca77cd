// Splitting: print that was read as one value and is two.

const by = (id) => document.getElementById(id);
const BETWEEN = /[\s/|,;·–—-]/;
const PARTNERS = {
  shade: "shade_code", shade_code: "shade", lot: "shade_code", maker: "range", range: "maker",
  length_m: "mass_g", mass_g: "length_m",
};

let onParts = () => {};

function parts() {
  const { value, selectionStart } = by("split-text");
  const bare = (text) => text.replace(/^[\s/|,;·–—-]+|[\s/|,;·–—-]+$/g, "");
  return [bare(value.slice(0, selectionStart)), bare(value.slice(selectionStart))];
}

function showParts() {
  const [one, two] = parts();
  by("split-one").textContent = one || "—";
  by("split-two").textContent = two || "—";
  const isSplit = one && two && by("split-one-field").value !== by("split-two-field").value;
  by("split-form").querySelector('[type="submit"]').disabled = !isSplit;
}

function fill(select, fields, chosen) {
  select.replaceChildren(
    ...fields.map(({ field, spoken }) => new Option(spoken, field, false, field === chosen)),
  );
}

/** Ask how `text`, read as `field`, is two values; `done` gets them by field. */
export function openSplit(text, field, fields, done) {
  onParts = done;
  fill(by("split-one-field"), fields, field);
  fill(by("split-two-field"), fields, PARTNERS[field] ?? fields.find((each) => each.field !== field).field);
  const input = by("split-text");
  input.value = text;
  by("split").showModal();
  input.focus();
  const cut = text.search(BETWEEN);
  const caret = cut < 0 ? text.length : cut;
  input.setSelectionRange(caret, caret);
  showParts();
}

for (const name of ["keyup", "input", "click", "change"]) {
  by("split-form").addEventListener(name, showParts);
}

by("split-form").addEventListener("submit", () => {
  const [one, two] = parts();
  onParts({ [by("split-one-field").value]: one, [by("split-two-field").value]: two });
});
