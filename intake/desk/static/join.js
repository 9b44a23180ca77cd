// Joining: lines of print that are one value, or two waiting tags that are two sides of one.

const by = (id) => document.getElementById(id);
let asked = {};

const chosenLines = () =>
  [...by("join-lines").querySelectorAll("input:checked")].map((box) => box.value);
const joined = () => chosenLines().join(by("join-close").checked ? "" : " ");
const showJoined = () => (by("join-text").textContent = joined() || "—");

function option(type, name, value, checked, ...inside) {
  const label = document.createElement("label");
  const input = document.createElement("input");
  Object.assign(input, { type, name, value, checked });
  label.append(input, ...inside);
  return label;
}

function print(text) {
  const span = document.createElement("span");
  span.className = "print";
  span.textContent = text;
  return span;
}

function side(id, place, pictureOf) {
  const picture = new Image();
  picture.src = pictureOf(id);
  picture.alt = `Waiting tag ${place + 1}`;
  picture.loading = "lazy";
  return option("radio", "side", id, false, picture);
}

/** Ask what belongs together; `onText` gets the joined lines, `onSide` the other tag's id. */
export function openJoin({ view, doubt, ids, pictureOf, onText, onSide }) {
  asked = { onText, onSide };
  by("join-lines").replaceChildren(
    ...view.lines.map(({ text }, at) =>
      option("checkbox", "line", text, doubt.lines.includes(at), print(text)),
    ),
  );
  by("join-sides").replaceChildren(
    option("radio", "side", "", true, "none"),
    ...ids.map((id, place) => side(id, place, pictureOf)),
  );
  showJoined();
  by("join").showModal();
}

by("join-form").addEventListener("change", showJoined);
by("join-form").addEventListener("submit", () => {
  const chosen = by("join-sides").querySelector("input:checked")?.value;
  if (chosen) asked.onSide(chosen);
  else if (joined()) asked.onText(joined());
});
